package groove

import (
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// A pass is played without knowing what is struck in the next. So that two hands
// and two feet can go over the border, and a pianist's fingers on their keys, a pass
// leaves them time: nothing is struck so near to its end that it could not be
// struck again there. On the grid that takes a stroke away only where steps are
// shorter than a limb's limit, as in sixteenths over 150 beats a minute; else it
// holds back what comes late.

// lastStroke is the last tick at which something can be struck and struck again at
// the end of the player's part. At the end of the song nothing follows.
func (p *Plan) lastStroke(who timeline.Player, c Clock) int64 {
	if p.Pass.After == nil {
		return p.Pass.Length
	}
	border := p.Pass.Length // a push into the next pass is marked here by the drummer
	if who != timeline.Drums {
		border = p.Cues.End(who)
	}
	border = p.Swung(border)
	end := c.Micros(border)
	tick := border + c.Ticks(border, -limbLimitUS)
	for end-c.Micros(tick) < limbLimitUS {
		tick--
	}
	return tick
}

// overBorder holds the notes of a pass to its last stroke. A push into the next
// pass is the next one's first stroke, and stays; so does a pianist's hit, whose
// keys the next chord may not need. notes are in order; so is the result.
func (p *Plan) overBorder(who timeline.Player, c Clock, notes []played) []played {
	last := p.lastStroke(who, c)
	out := notes[:0]
	for _, n := range notes {
		switch {
		case n.Art.Has(score.Pushed), who == timeline.Piano && n.Art.Has(score.Accent):
		case p.Swung(n.At) > last:
			continue
		case n.start > last:
			n.end = max(last+1, n.end-(n.start-last))
			n.start = last
		}
		out = append(out, n)
	}
	byStart(out)
	return out
}
