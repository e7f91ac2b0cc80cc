package touch

import (
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// AgainUS is the least time, in microseconds, between two strokes of one hand or foot, and
// of one key by a restrained pianist: ten strokes a second is the limit (design of the
// band; the record for single strokes is 10.1 a hand, World's Fastest Drummer 2013).
const AgainUS = 100_000

// A pass is played without knowing what is struck in the next. So that two hands
// and two feet can go over the border, and a pianist's fingers on their keys, a pass
// leaves them time: nothing is struck so near to its end that it could not be
// struck again there. On the grid that takes a stroke away only where steps are
// shorter than a limb's limit, as in sixteenths over 150 beats a minute; else it
// holds back what comes late.

// LastStroke is the last tick at which something can be struck and struck again at
// the end of the player's part. At the end of the song nothing follows.
func LastStroke(p *plan.Plan, who timeline.Player) int64 {
	if p.Pass.After == nil {
		return p.Pass.Length
	}
	c := p.Clock()
	border := p.Pass.Length // a push into the next pass is marked here by the drummer
	if who.Chords() {
		border = p.Cues.End(who)
	}
	border = p.Swung(border)
	end := c.Micros(border)
	tick := border + c.Ticks(border, -AgainUS)
	for end-c.Micros(tick) < AgainUS {
		tick--
	}
	return tick
}

// LeaveTimeAtBorder holds the notes of a pass to its last stroke. A push into the next pass is
// the next one's first stroke, and stays; so does what stays says of, such as a pianist's
// hit, whose keys the next chord may not need. notes are in order; so is the result.
func (t *Playing) LeaveTimeAtBorder(notes []Draft, stays func(n *score.Note) bool) []Draft {
	last := LastStroke(t.Plan, t.who)
	out := notes[:0]
	for _, n := range notes {
		switch {
		case n.Art.Has(score.Pushed), stays != nil && stays(n.Note):
		case t.Swung(n.At) > last:
			continue
		case n.Start > last:
			n.End = max(last+1, n.End-(n.Start-last))
			n.Start = last
		}
		out = append(out, n)
	}
	SortDrafts(out)
	return out
}
