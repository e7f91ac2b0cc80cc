package midi_test

import (
	"fmt"

	"plinth/groove"
	"plinth/render/midi"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// oneBar is a song of one bar of 4/4 at 120 quarters a minute, in C.
func oneBar() *timeline.Timeline {
	return &timeline.Timeline{
		Title:  "One Bar",
		Passes: []timeline.Pass{{Section: "verse", Length: 4 * 960}},
		Tempos: []timeline.Tempo{{Micros: 500_000}},
		Meters: []timeline.MeterChange{{Meter: meter.Common}},
		Keys:   []timeline.KeyChange{{}},
		End:    4 * 960,
	}
}

func ExampleWrite() {
	perf := groove.NewPerformance()
	perf.Parts[timeline.Bass] = []groove.Note{{Tick: 0, Length: 1920, Key: 36, Velocity: 80}}
	file, err := midi.Write(oneBar(), perf)
	fmt.Println(string(file[:4]), "with", file[11], "tracks,", err)

	perf.Parts[timeline.Bass][0].Length = 3841
	_, err = midi.Write(oneBar(), perf)
	fmt.Println(err)
	// Output:
	// MThd with 4 tracks, <nil>
	// MIDI file: track Bass: a note of key 36 at tick 0, 3841 long, is not within the song's 3840 ticks
}

func ExampleCheck() {
	file, _ := midi.Write(oneBar(), groove.NewPerformance())
	fmt.Println(midi.Check(file))
	fmt.Println(midi.Check(append(file, 0)))
	file[9] = 0
	fmt.Println(midi.Check(file))
	// Output:
	// <nil>
	// 1 bytes follow the last track
	// format 0 instead of 1
}
