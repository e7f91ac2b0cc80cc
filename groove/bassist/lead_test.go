package bassist

import (
	"slices"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/songspec/timeline"
)

// The last bars lead to the energy of what follows: some of a jump is made in them. Nothing
// before them knows of it, and the last bar is not the first of those that it leads to.
func TestTheLastBarsLead(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		var ways [2]share // up and down: the notes of a jump, and those made in the last two bars
		var alike share
		for i := range 5 * 5 * 3 * 2 {
			from, to, take, chart := 1+i%5, 1+i/5%5, 1+i/25%3, charts[i/75]
			if from == to {
				continue
			}
			now, then := render(t, f, chart, from, take), render(t, f, chart, to, take)
			p := &now.Passes[1]
			lead := p.Bars[len(p.Bars)-plan.LeadBars].Start
			line := slices.Clone(bassOf(played(t, f, chart, from, to, take), 1, library.Builtin()))
			if !slices.Equal(within(line, 0, lead), within(now.lines[1], 0, lead)) {
				t.Errorf("%s, take %d, %d to %d: a note before the last two bars has changed", f.Name, take, from, to)
			}
			rate := func(r *rendition) float64 { // notes in two bars
				return float64(plan.LeadBars*len(r.lines[1])) / float64(len(p.Bars))
			}
			way := &ways[0]
			if to < from {
				way = &ways[1]
			}
			way.n += float64(len(within(line, lead, p.Length))) - rate(now)
			way.all += rate(then) - rate(now)
			if f.Levels[to-1].Bass[0].Degree != 'w' {
				first, last := &p.Bars[0], &p.Bars[len(p.Bars)-1]
				opening := within(then.lines[0], 0, first.Length)
				closing := within(line, last.Start, p.Length)
				alike.add(sameRhythm(append(opening, closing...), first, last) == 1)
			}
		}
		if keepsTime(f, 3) {
			up, down := ways[0].n/ways[0].all, ways[1].n/ways[1].all
			t.Logf("%-18s up %.2f, down %.2f, alike %.3f", f.Name, up, down, alike.of())
			if len(f.Meters) > 0 { // pulse has only beats
				among(t, f.Name+" up", up, 0.25, 0.5)
				among(t, f.Name+" down", down, 0.15, 0.5)
				among(t, f.Name+" alike", alike.of(), 0, 0.06)
			}
		}
	})
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
			played, end := play(tl, 0, set), tl.Passes[0].Length
			leads := len(within(played[timeline.Bass].Notes, end-quarter, end)) > 0
			filled := int64(0)
			for _, g := range played[timeline.Drums].Groups {
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
