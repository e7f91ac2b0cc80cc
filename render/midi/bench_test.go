package midi

import (
	"bytes"
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"

	"gitlab.com/gomidi/midi/v2/smf"
)

// longSong is n bars of a busy band: sixteen strokes of the kit, four notes of
// the bass and four chords of four a bar.
func longSong(n int) (*timeline.Timeline, *groove.Performance) {
	tl := &timeline.Timeline{
		Title:  "long",
		Passes: []timeline.Pass{{Section: "verse", Length: int64(n) * bar}},
		Tempos: []timeline.Tempo{{Micros: 833333}},
		Meters: []timeline.MeterChange{{Meter: meter.Common}},
		Keys:   []timeline.KeyChange{{Key: cMajor}},
		End:    int64(n) * bar,
	}
	perf := groove.NewPerformance()
	for i := range int64(16 * n) {
		at := i * quarter / 4
		perf.Parts[timeline.Drums] = append(perf.Parts[timeline.Drums],
			groove.Note{Tick: at, Length: 100, Key: 42, Velocity: 70})
		if i%4 == 0 {
			perf.Parts[timeline.Bass] = append(perf.Parts[timeline.Bass],
				groove.Note{Tick: at, Length: 900, Key: 36, Velocity: 70})
			for _, key := range []uint8{52, 55, 59, 64} {
				perf.Parts[timeline.Piano] = append(perf.Parts[timeline.Piano],
					groove.Note{Tick: at, Length: 800, Key: key, Velocity: 60})
			}
		}
	}
	return tl, perf
}

// BenchmarkWrite measures Write with its own check, BenchmarkFloor gomidi alone writing the
// same events.
func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprintf("bars=%d", n), func(b *testing.B) {
			tl, perf := longSong(n)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Write(tl, perf); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkFloor(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprintf("bars=%d", n), func(b *testing.B) {
			file, err := Write(longSong(n))
			if err != nil {
				b.Fatal(err)
			}
			song, err := smf.ReadFrom(bytes.NewReader(file))
			if err != nil {
				b.Fatal(err)
			}
			song.NoRunningStatus = true
			b.ReportAllocs()
			for b.Loop() {
				var buf bytes.Buffer
				if _, err := song.WriteTo(&buf); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
