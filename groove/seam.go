package groove

import (
	"slices"
	"sort"

	"plinth/songspec/timeline"
)

// seamed is the song with every accent of a chord that is pushed over a border where
// that chord is struck. A player strikes such a chord once: the drummer in the pass
// that ends, the others in the pass that begins, early. The accent may be written on
// the push or on the first beat that it anticipates, in one pass or in the other; it
// is added to the pass that plays the stroke. A song without one is given back as it
// is, and no song is changed.
func seamed(tl *timeline.Timeline) *timeline.Timeline {
	out := tl
	add := func(i int, e timeline.Event, tick int64, bar int, by timeline.Players) {
		if by == 0 {
			return
		}
		if out == tl {
			song := *tl
			song.Passes = slices.Clone(tl.Passes)
			out = &song
		}
		// Alone is a matter of the bar where it is written.
		e.Tick, e.End, e.Bar, e.By, e.Alone = tick, tick, bar, by, false
		events := out.Passes[i].Events
		at := sort.Search(len(events), func(k int) bool { return events[k].Tick > tick })
		out.Passes[i].Events = slices.Insert(slices.Clone(events), at, e)
	}
	drums := timeline.Only(timeline.Drums)
	for i := 1; i < len(tl.Passes); i++ {
		before, pass := &tl.Passes[i-1], &tl.Passes[i]
		push := pass.Entry
		if push == nil || len(before.Bars) == 0 {
			continue
		}
		at := before.Length + push.Tick
		for _, e := range before.Events {
			if e.Kind == timeline.Accent && e.Tick == at {
				add(i, e, push.Tick, 0, e.By&push.By&^drums)
			}
		}
		for _, e := range pass.Events {
			if e.Kind == timeline.Accent && e.Tick == 0 {
				add(i, e, push.Tick, 0, e.By&push.By&^drums)
				add(i-1, e, at, before.BarAt(at), e.By&push.By&drums)
			}
		}
	}
	return out
}
