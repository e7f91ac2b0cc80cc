package groovetest

import (
	"cmp"
	"slices"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Eighth is an eighth in ticks.
const Eighth = meter.TicksPerQuarter / 2

// AddEvent adds an event of everybody's with weight 2, from ticks to ticks of a bar, behind
// those that are there.
func AddEvent(p *timeline.Pass, kind timeline.EventKind, bar int, at, end int64) *timeline.Event {
	start := p.Bars[bar].Start
	e := timeline.Event{Kind: kind, Bar: bar, Tick: start + at, End: start + end, By: timeline.All, Weight: 2}
	p.Events = append(p.Events, e)
	return &p.Events[len(p.Events)-1]
}

// AddPush adds a push of the chord at the next bar line.
func AddPush(p *timeline.Pass, bar int, at int64) {
	e := AddEvent(p, timeline.Push, bar, at, at)
	e.Target = p.Bars[bar].Start + p.Bars[bar].Length
}

// SortEvents puts events in the timeline's order.
func SortEvents(p *timeline.Pass) {
	slices.SortStableFunc(p.Events, func(a, b timeline.Event) int {
		return cmp.Or(cmp.Compare(a.Tick, b.Tick), cmp.Compare(a.Kind, b.Kind))
	})
}

// Sing puts notes over a pass: tick, length and MIDI number each.
func Sing(p *timeline.Pass, notes ...[3]int64) *timeline.Pass {
	p.Sung = []timeline.SungNote{}
	for _, n := range notes {
		p.Sung = append(p.Sung, timeline.SungNote{Tick: n[0], Length: n[1], Key: uint8(n[2])})
	}
	return p
}
