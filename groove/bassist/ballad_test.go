package bassist

import (
	"slices"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/timeline"
)

// In a quiet ballad the bass strikes a sixteenth off the beat only with the kick.
func TestSixteenthsOnlyWithTheKick(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		if !slow(f) || f.Grid != 16 {
			return
		}
		for i := range 4 * 3 * 5 {
			chart, energy, take := charts[i%4], 1+i/4%3, 1+i/12
			part := play(played(t, f, chart, energy, energy, take), 1, library.Builtin())
			kicks := kickTicks(part[timeline.Drums].Notes)
			for _, n := range part[timeline.Bass].Notes {
				if n.At%(quarter/2) != 0 && !slices.Contains(kicks, n.At) {
					t.Errorf("%s, energy %d, take %d: alone at %d", f.Name, energy, take, n.At)
				}
			}
		}
	})
}

// The ballad with brushes stays in two: no bar walks up to energy 4, and at 5 half of them at most.
func TestTheBrushesStayInTwo(t *testing.T) {
	f := library.Builtin().Feels["brushes-ballad"]
	for energy := 3; energy <= 5; energy++ {
		walking := 0
		for at, s := range f.Levels[energy-1].Bass {
			if at%f.Grid == 0 && s.Degree == 'w' {
				walking++
			}
		}
		if bars := f.Levels[energy-1].Bars; 2*walking > bars || energy < 5 && walking > 0 {
			t.Errorf("energy %d: %d of %d bars walk", energy, walking, bars)
		}
	}
}

// Eighths on one note are nearly as long as they are written.
func TestRepeatedEighthsAreLong(t *testing.T) {
	set := withBass("1=1=1=1=1=1=1=1=")
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|C|C", Energy: 2},
		groovetest.Section{Name: "b", Chords: "C", Energy: 2})
	for _, n := range within(bassAlone(tl, 0, set), 0, groovetest.Bar44) {
		if n.Held < quarter*45/100 {
			t.Errorf("an eighth at %d is held for %d ticks", n.At, n.Held)
		}
	}
}
