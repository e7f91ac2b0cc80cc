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

// A pass is played without knowing what is struck in the next. So each pass leaves the hands
// and feet of the drummer and the fingers of the pianist time before the border: nothing is
// struck so near to the end that it could not be struck again at the end. A stroke on the
// grid is taken away for that only where steps are shorter than a limb's limit, as in
// sixteenths over 150 beats a minute. Otherwise only late strokes are moved forward.

// LastStroke is the last tick at which a player can strike something and strike it again at
// the end of the part. At the end of the song nothing follows.
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

// LeaveTimeAtBorder lets no note of a pass start after its last stroke. A push into the next
// pass stays, as it is the first stroke of that pass. Notes for which stays is true stay too,
// such as a pianist's hit, whose keys the next chord may not need. notes are in order; so is
// the result.
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
