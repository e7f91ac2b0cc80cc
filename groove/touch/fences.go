package touch

import (
	"slices"
	"sort"

	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// fences are the ticks that neither the start nor the end of a note may cross, in order.
// hard are the borders of the pass and of the stops. all has the bar lines round bars of
// written hits too, which a pushed chord may be tied over.
type fences struct{ hard, all []int64 }

func newFences(p *plan.Plan, who timeline.Player) fences {
	low := int64(0)
	if pushes := p.Cues.Pushes(who); len(pushes) > 0 {
		low = min(low, pushes[0].From)
	}
	out := fences{hard: []int64{low, p.Cues.End(who)}}
	for _, s := range p.Cues.Silences(who) {
		out.hard = append(out.hard, s.Start, s.End)
	}
	if p.Cues.End(who) < p.Pass.Length { // players without chords strike the push here, the others in the next pass
		out.hard = append(out.hard, p.Pass.Length)
	}
	slices.Sort(out.hard)
	out.all = out.hard
	if slices.Contains(p.Cues.Alone, true) {
		out.all = slices.Clone(out.hard)
		for bar := range p.Pass.Bars {
			if p.Cues.Alone[bar] {
				out.all = append(out.all, p.Pass.Bars[bar].Start, p.BarEnd(bar))
			}
		}
		slices.Sort(out.all)
	}
	return out
}

// around are the fences on either side of a note. Only a pushed note may start before the
// first bar line; an early hand may not.
func (f fences) around(n *score.Note) (low, high int64) {
	list := f.all
	if n.Art.Has(score.Pushed) {
		list = f.hard
	}
	i := sort.Search(len(list), func(i int) bool { return list[i] > n.At })
	low, high = list[max(0, i-1)], list[min(i, len(list)-1)]
	if n.At >= 0 {
		low = max(low, 0)
	}
	return low, high
}

// Latest is the last tick to which a note may be held.
func (t *Playing) Latest(n *score.Note) int64 {
	_, high := t.fences.around(n)
	return high
}
