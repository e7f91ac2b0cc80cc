package room_test

import (
	"bytes"
	"fmt"
	"strings"

	"plinth/render/room"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// twoBars is a song of two bars of 4/4 at 60 beats a minute, with a singer on the first
// three beats.
func twoBars() *timeline.Timeline {
	sung := []timeline.SungNote{{Tick: 0, Length: 2880, Key: 67}}
	return &timeline.Timeline{
		Title: "Two Bars",
		Passes: []timeline.Pass{{Section: "verse", EnergyFrom: 3, EnergyTo: 3, BPM: 60_000, Length: 7680, FirstBar: 1,
			Meter: meter.Common, Chords: []timeline.Span{{End: 7680}}, Sung: sung, Bars: []timeline.Bar{
				{Start: 0, Length: 3840, Meter: meter.Common}, {Start: 3840, Length: 3840, Meter: meter.Common}}}},
		Tempos: []timeline.Tempo{{Micros: 1_000_000}},
		End:    7680,
		Vocals: []timeline.Vocal{{Path: "two.mid", TrackResolved: "Voice", Notes: sung}},
	}
}

func ExampleAnalyze() {
	report := room.Analyze(twoBars(), nil)
	for _, w := range report.Windows {
		fmt.Println("The voice is silent from", w.From, "for", w.Beats/1000, "beats.")
	}
	fmt.Println("The lowest free range has", report.Song.Free[0].Semitones(), "semitones.")
	fmt.Println(report.Hints[len(report.Hints)-1].Say)
	// Output:
	// The voice is silent from bar 1 count 4 for 5 beats.
	// The lowest free range has 43 semitones.
	// Short notes are heard on every e, & and a, 2 3 4.
}

func ExampleReport_Text() {
	var page bytes.Buffer
	if err := room.Analyze(twoBars(), nil).Text(&page); err != nil {
		fmt.Println(err)
	}
	head, _, _ := strings.Cut(page.String(), "\n\nREGISTERS")
	fmt.Println(head)
	// Output:
	// ROOM  Two Bars
	// 2 bars, 0:08, voice from two.mid, track "Voice"
	//
	// ENERGY  with key and tempo
	//   bar   1  verse     3      ######      C major  60  climax, nobody plays
	//   The climax is verse, bar 1: energy 3, the highest of the song; the voice has
	//   its highest note of the song there, G4.
	//
	// WINDOWS  the voice is silent for a beat or more
	//   bar 1 count 4     to the end              5 beats  5.0 s  verse
	//       over C
}
