package pianist

import (
	"math/bits"

	"plinth/groove/score"
	"plinth/songspec/cue"
)

// grouping finds which of the pianist's notes belong together: those of a spread chord,
// of a chord that is broken until the next one comes, and of an answer to the singer.
type grouping struct {
	c      *Pianist
	kind   score.GroupKind // of the group that is open
	number uint32
	change *cue.Change // the chord that is broken
	roll   uint32      // the group of the last mark's spread chord, for both hands; 0: not spread
}

// groupOf is the group of the notes that a mark strikes with the right hand, 0 for none.
func (g *grouping) groupOf(m *mark, change int, voices uint8, roll bool) uint32 {
	g.roll = 0
	ch := &g.c.changes[change]
	single := bits.OnesCount8(voices) == 1 && m.accent == 0
	switch {
	case roll:
		g.kind = 0
		g.roll = g.add(score.Roll, m.tick, m.tick)
		return g.roll
	case m.answer:
		if g.kind != score.Answer {
			g.kind, g.number = score.Answer, g.add(score.Answer, m.tick, m.least)
		}
		g.c.groups[g.number-1].End = m.least
		return g.number
	case single:
		if g.kind != score.Broken || g.change != ch {
			g.kind, g.change, g.number = score.Broken, ch, g.add(score.Broken, m.tick, ch.End)
		}
		return g.number
	}
	if m.part != 'b' { // the left hand alone ends nothing
		g.kind = 0
	}
	return 0
}

func (g *grouping) add(kind score.GroupKind, at, end int64) uint32 {
	list := &g.c.groups
	*list = append(*list, score.Group{Kind: kind, At: at, End: end})
	return uint32(len(*list))
}
