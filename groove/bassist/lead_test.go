package bassist

import (
	"testing"

	"plinth/groove/drummer"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// The last bars lead to the energy of what follows: some of a jump is made in them.
func TestTheLastBarsLead(t *testing.T) {
	set := library.Builtin()
	var ways [2]share
	eachFeel(func(f *feel.Feel) {
		var made, jump [2]float64
		for from := 1; from <= 5; from++ {
			for to := 1; to <= 5; to++ {
				way := 0
				if to < from {
					way = 1
				}
				for take := 1; take <= 4 && to != from; take++ {
					for _, chart := range charts[:2] {
						rate := func(energy int) float64 { // notes in two bars
							tl := played(t, f, chart, energy, energy, take)
							return 2 * float64(len(lineOf(tl, 1))) / float64(len(tl.Passes[1].Bars))
						}
						tl := played(t, f, chart, from, to, take)
						p := &tl.Passes[1]
						now := rate(from)
						last := within(bassOf(tl, 1, set), p.Bars[len(p.Bars)-2].Start, p.Length)
						made[way] += float64(len(last)) - now
						jump[way] += rate(to) - now
					}
				}
			}
		}
		if keepsTime(f, 3) {
			t.Logf("%-18s up %.2f, down %.2f", f.Name, made[0]/jump[0], made[1]/jump[1])
			for way := range ways {
				ways[way].n, ways[way].all = ways[way].n+made[way], ways[way].all+jump[way]
			}
		}
	})
	among(t, "up", ways[0].n/ways[0].all, 0.25, 0.5)
	among(t, "down", ways[1].n/ways[1].all, 0.15, 0.5)
	t.Logf("made of a jump up %.2f, of one down %.2f", ways[0].n/ways[0].all, ways[1].n/ways[1].all)
}

// At half of the borders at most one more note leads up, and none where the drummer fills for more
// than a beat.
func TestOneMoreNoteLeadsUp(t *testing.T) {
	set := withBass("1=======1=======")
	led, all := 0, 0
	for take := 1; take <= 100; take++ {
		for _, fills := range []bool{false, true} {
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: "C|Am|F", Energy: 3, NoFills: !fills},
				groovetest.Section{Name: "b", Chords: "F", Energy: 5})
			tl.Take = take
			p := plan.New(tl, &tl.Passes[0], set)
			heard := make([]score.Part, len(timeline.PlayerNames))
			var d drummer.Drummer
			d.Prepare(p)
			heard[timeline.Drums] = d.Play(heard)
			var b Bassist
			b.Prepare(p)
			leads := len(within(b.Play(heard).Notes, p.Pass.Length-quarter, p.Pass.Length)) > 0
			filled := int64(0)
			for _, g := range heard[timeline.Drums].Groups {
				filled = max(filled, g.End-g.At)
			}
			switch {
			case leads && filled > quarter:
				t.Errorf("take %d: a note leads while the drummer fills %d ticks", take, filled)
			case !fills:
				if all++; leads {
					led++
				}
			}
		}
	}
	if led < all/4 || led > all*6/10 {
		t.Errorf("a note leads up at %d of %d borders", led, all)
	}
}
