package pianist

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/songspec/meter"
)

// Where the comp keeps its figure, each of two chords in a bar is struck at least once all the same.
// Common practice, no single source.
func TestBothChordsOfABarAreHeard(t *testing.T) {
	set := library.Builtin()
	for _, name := range library.Names() {
		f := set.Feels[name]
		if f.Changes == feel.OnTime || len(f.Meters) == 0 || f.Meters[0] != meter.Common {
			continue
		}
		missing, chords := 0, 0
		for energy := 1; energy <= 5; energy++ {
			for take := 1; take <= 8; take++ {
				tl := groovetest.Song(t, groovetest.Section{Name: "a", Energy: energy, Feel: name, BPM: f.TempoHigh,
					Chords: "C6|Cm9 F7|Bbmaj7|Bbm7 Eb7|Am7|Abm7 Db7|C6 A7|Dm7 G7|" +
						"C6|Cm9 F7|Em7 A7|Dm7 G7|Em7b5 A7b9|Dm9 Dm7/G|C6 Ebdim7|Dm7 G7"},
					groovetest.Section{Name: "b", Energy: energy, Feel: name, BPM: f.TempoHigh, Chords: "C6"})
				tl.Take = take
				c, _ := withBassist(plan.New(tl, &tl.Passes[0], set))
				heard := map[int]bool{}
				for _, m := range c.marks {
					i := int(m.change)
					if i < 0 {
						i = c.changeAt(m.tick)
					}
					heard[i] = true
				}
				for i := range c.changes {
					if chords++; !heard[i] {
						missing++
						t.Logf("%s at %d, take %d: the chord at %d is not heard", name, energy, take,
							c.changes[i].Start)
					}
				}
			}
		}
		if missing > 0 {
			t.Errorf("%s: %d of %d chords are not heard", name, missing, chords)
		}
	}
}
