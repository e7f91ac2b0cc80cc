package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// Finish leaves what two hands and two feet can play.
func (d *Drummer) Finish(t *touch.Playing, drafts []touch.Draft) []touch.Draft {
	return withinHandSpeed(t, t.LeaveTimeAtBorder(drafts, nil))
}

// withinHandSpeed keeps the strokes, as they are played, within the speed of two hands and
// two feet. A stroke that timing brought too close is delayed as far as needed, or left out
// when the delay would carry it over a fence. A grace stroke counts as part of the stroke
// that it leads to: the two of a drag are the rebound of one hand.
func withinHandSpeed(t *touch.Playing, notes []touch.Draft) []touch.Draft {
	c, last := t.Clock(), touch.LastStroke(t.Plan, timeline.Drums)
	const never = -1 << 62
	recent := [3][2]int64{{never, never}, {never, never}, {never, never}} // each limb's latest two strokes, in order
	out := notes[:0]
	for _, n := range notes {
		if n.Roll != 0 {
			out = append(out, n)
			continue
		}
		struck := &recent[n.Voice.Limb()]
		before := struck[1]
		if n.Voice.Limb() == feel.Hand { // there are two hands
			before = struck[0]
		}
		us := c.Micros(n.Start)
		if wait := before + touch.AgainUS - us; wait > 0 {
			late := c.Shift(n.Start, wait)
			for c.Micros(late) < us+wait {
				late++ // ticks are coarser than microseconds
			}
			high := t.Latest(n.Note)
			if n.Start <= last {
				high = min(high, last+2)
			}
			if late+1 >= high {
				continue
			}
			n.End = min(max(n.End+late-n.Start, late+1), high)
			n.Start = late
		}
		us = c.Micros(n.Start)
		*struck = [2]int64{max(struck[0], min(struck[1], us)), max(struck[1], us)}
		out = append(out, n)
	}
	touch.SortDrafts(out)
	return out
}
