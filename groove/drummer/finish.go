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
	var recent [3]latest
	out := notes[:0]
	for _, n := range notes {
		if n.Roll != 0 {
			out = append(out, n)
			continue
		}
		before := &recent[n.Voice.Limb()]
		together := 1
		if n.Voice.Limb() == feel.Hand {
			together = 2
		}
		if before.n >= together {
			us := c.Micros(n.Start)
			if wait := before.at[2-together] + touch.AgainUS - us; wait > 0 {
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
				n.End = max(n.End+late-n.Start, late+1)
				n.End = min(n.End, high)
				n.Start = late
			}
		}
		before.add(c.Micros(n.Start))
		out = append(out, n)
	}
	touch.SortDrafts(out)
	return out
}

// latest are the times of a limb's latest two strokes, in order. Only the last n of the two
// are known.
type latest struct {
	at [2]int64
	n  int
}

func (l *latest) add(at int64) {
	switch {
	case l.n == 0 || at >= l.at[1]:
		l.at = [2]int64{l.at[1], at}
	case l.n == 1 || at > l.at[0]:
		l.at[0] = at
	}
	l.n = min(l.n+1, 2)
}
