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

// withinHandSpeed holds the strokes as they are played to the limit of two hands and two
// feet: a stroke that timing brought too close comes as late as it must, or not at
// all when that would carry it over a fence. A grace stroke is part of the stroke
// it leads to: a drag's two are one hand's rebound.
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

// latest are the latest two times of a limb's strokes, in order; with n less than
// 2 only the last n of them count.
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
