package pianist

import (
	"plinth/groove/nearsort"
	"plinth/groove/voicing"
)

// mergeMarks puts the strikes in order and makes one strike of those on one tick. An accent
// wins over all others. A change of chord is struck in the way in which the tab strikes there,
// but whole where it comes off the beat.
func mergeMarks(in []mark) []mark {
	nearsort.By(in, func(m *mark) int64 { return m.tick })
	out := in[:0]
	for _, m := range in {
		n := len(out) - 1
		if n < 0 || out[n].tick != m.tick {
			out = append(out, m)
			continue
		}
		had := &out[n]
		if m.left && !had.left {
			had.left, had.fifth, had.middle = true, m.fifth && !m.forced, m.middle
		}
		switch {
		case m.accent > had.accent:
			m.pushed = m.pushed || had.pushed
			m.left = m.left || had.left
			if had.pushed {
				m.least = max(m.least, had.least)
			}
			*had = m
		case had.accent == 0 && m.forced && !had.forced:
			had.forced, had.pushed, had.cue = true, m.pushed, m.cue
			if m.entire {
				had.part, had.under, had.hands, had.up, had.least = 'c', 0, false, false, m.least
			}
		}
	}
	return out
}

// spaceOut takes away strikes of the tab that are too close to a strike that the chart or an
// event asks for, and strikes of the tab that would repeat keys faster than a restrained
// player does. Of two strikes of the tab the first stays.
func (c *Pianist) spaceOut(in []mark) []mark {
	out := in[:0]
	for _, m := range in {
		for len(out) > 0 {
			last := &out[len(out)-1]
			if last.forced && m.forced || !c.tooClose(last, &m) {
				out = append(out, m)
				break
			}
			if !m.forced {
				break
			}
			out = out[:len(out)-1]
		}
		if len(out) == 0 {
			out = append(out, m)
		}
	}
	return out
}

// tooClose reports whether b comes too soon after a.
func (c *Pianist) tooClose(a, b *mark) bool {
	if (a.forced || b.forced) && b.tick-a.tick < closest {
		return true
	}
	if b.tick-a.tick > quarter {
		return false
	}
	least := int64(againUS)
	if a.forced || b.forced {
		least = roomUS
	}
	same := a.all(voicing.MaxVoices)&b.all(voicing.MaxVoices) != 0 || a.left && b.left
	return same && c.microsAt(b.tick)-c.microsAt(a.tick) < least
}

// importance ranks the marks that thinOut may take away: what the left hand adds inside a bar
// is missed least, the bass on the first beat most.
func (m *mark) importance() int {
	switch {
	case m.left && m.part == 'b' && m.middle:
		return 0
	case m.left && !m.middle:
		return 2
	}
	return 1
}
