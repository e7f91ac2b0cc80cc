package touch

import (
	"slices"
	"sort"

	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// fences are the ticks that neither a start nor an end may cross, in order: the
// pass's own borders and the stops; and with the bars of written hits, whose lines a
// pushed chord is tied over.
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
	if p.Cues.End(who) < p.Pass.Length { // who has no chords strikes it here; the others in the next pass
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

// around are the fences on either side of a note. What is struck ahead of the first bar
// line was pushed there; no early hand goes over it.
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

// Latest is the tick that a note may not be held beyond.
func (t *Playing) Latest(n *score.Note) int64 {
	_, high := t.fences.around(n)
	return high
}
