package bassist

import (
	"slices"
	"testing"

	"plinth/groove/bassline"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
)

// A note off the chord before a change is a step from the note that it leads to, over a section's
// border too, and nothing near the next bass lies an octave away from it.
func TestTheBassLeadsByStepOverTheBorder(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		for i := range 4 * 3 * 3 {
			from, to := 2+i%3, 3+i/3%3
			last, first := []string{"Db", "G7", "B7", "F"}[i/9], []string{"Gb", "E", "F", "G"}[i/9]
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: "C|Am|F|" + last, Energy: from, Feel: f.Name},
				groovetest.Section{Name: "b", Chords: first + "|C", Energy: to, Feel: f.Name},
				groovetest.Section{Name: "c", Chords: "C", Energy: to, Feel: f.Name})
			if len(f.Meters) > 0 && f.Meters[0].BarTicks() != groovetest.Bar44 {
				return
			}
			p := &tl.Passes[0]
			notes := slices.Clone(bassOf(tl, 0, library.Builtin()))
			opening := int(bassOf(tl, 1, library.Builtin())[0].Key)
			for k, n := range notes {
				next, at := opening, p.Length
				if k+1 < len(notes) {
					next, at = int(notes[k+1].Key), notes[k+1].At
				}
				chord, pc := chordAt(p, n.At), int(n.Key)%12
				leads := at == p.Length || *chordAt(p, at) != *chord
				if d := abs(int(n.Key) - next); leads && !bassline.HasTone(chord, pc) && d != 1 && d != 2 {
					t.Errorf("%s, %d to %d: %s leads to %s", f.Name, from, to, groovetest.KeyName(int(n.Key)),
						groovetest.KeyName(next))
				}
			}
		}
	})
}

// In a ballad the bass stays below the singer, and never leaps an octave from the root to the root.
func TestNoOctavePopsInABallad(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		if !slow(f) {
			return
		}
		for _, chart := range charts {
			for i := range 5 * 5 {
				r := render(t, f, chart, 1+i%5, 1+i/5)
				notes := r.lines[0]
				for k, n := range notes {
					if n.Key > balladTop || k > 0 && abs(int(n.Key)-int(notes[k-1].Key)) == 12 {
						t.Errorf("%s, energy %d: %s at %d", f.Name, 1+i%5, groovetest.KeyName(int(n.Key)), n.At)
					}
				}
			}
		}
	})
}
