package groove

import "sort"

// A pass is played without knowing what the drummer strikes in the next. So that
// two hands and two feet can go over the border, a pass leaves them time: nothing
// is struck so near to its end that a limb could not strike again there. On the
// grid that takes a stroke away only where steps are shorter than a limb's limit,
// as in sixteenths over 150 beats a minute; else it holds back what comes late.

// lastStroke is the last tick at which a limb can strike and strike again at the
// pass's end. At the end of the song nothing follows.
func (p *plan) lastStroke(c clock) int64 {
	if p.pass.After == nil {
		return p.pass.Length
	}
	end := c.us(p.pass.Length)
	tick := p.pass.Length + c.ticks(p.pass.Length, -limbLimitUS)
	for end-c.us(tick) < limbLimitUS {
		tick--
	}
	return tick
}

// overBorder holds the strokes of a pass to its last one. A push into the next
// pass is the next one's first stroke, and stays. notes are in order; so is the
// result.
func (p *plan) overBorder(c clock, notes []played) []played {
	last := p.lastStroke(c)
	out := notes[:0]
	for _, n := range notes {
		switch {
		case n.Pushed:
		case p.swung(n.Tick) > last:
			continue
		case n.start > last:
			n.end = max(last+1, n.end-(n.start-last))
			n.start = last
		}
		out = append(out, n)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].start < out[j].start })
	return out
}
