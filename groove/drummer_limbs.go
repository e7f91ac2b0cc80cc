package groove

import (
	"sort"

	"plinth/groove/feel"
)

// limbGapUS is the least time, in microseconds, between two strokes of one limb on
// the grid. Ten strokes a second is the limit (design of the band; the record for
// single strokes is 10.1 a hand, World's Fastest Drummer 2013); the rest is room
// for timing. limbLimitUS is the limit itself, for strokes as they are played.
const (
	limbGapUS   = 110_000
	limbLimitUS = 100_000
)

// limbs keeps what two hands and two feet can play, the most important strokes
// first. notes are sorted by tick; the result is too.
func (p *plan) limbs(notes []gridNote) []gridNote {
	notes = p.merged(notes)
	c := newClock(p.pass.Tempos)
	order := make([]int, 0, len(notes))
	for i := range notes {
		if notes[i].ShiftMS == 0 {
			order = append(order, i)
		}
	}
	rank := make([]int, len(notes))
	for _, i := range order {
		rank[i] = p.importance(&notes[i])
	}
	sort.SliceStable(order, func(a, b int) bool { return rank[order[a]] > rank[order[b]] })

	keep := make([]bool, len(notes))
	for _, i := range order {
		keep[i] = fits(c, notes, keep, i)
	}
	out := make([]gridNote, 0, len(notes))
	for i, n := range notes {
		if n.ShiftMS == 0 && keep[i] || n.ShiftMS != 0 && graceFits(c, notes, keep, i) {
			out = append(out, n)
		}
	}
	return out
}

// fits reports whether stroke i can be added to those that are kept: of any two
// strokes running of a foot, or three of the hands, the last must come limbGapUS
// after the first. Two hands can always share their strokes out so, and never
// better. The hi-hat does one thing at a time.
func fits(c clock, notes []gridNote, keep []bool, i int) bool {
	n := &notes[i]
	together := 1
	if n.Limb == feel.Hand {
		together = 2
	}
	at := c.us(n.Tick)
	var before, after []int64 // kept strokes of the limb near by, nearest first
	look := func(j int, into *[]int64) bool {
		t := c.us(notes[j].Tick)
		if t-at >= limbGapUS || at-t >= limbGapUS {
			return false
		}
		if keep[j] && notes[j].Limb == n.Limb {
			*into = append(*into, t)
		}
		return true
	}
	for j := i - 1; j >= 0 && look(j, &before); j-- {
		if keep[j] && notes[j].Tick == n.Tick && sameHat(&notes[j], n) {
			return false
		}
	}
	for j := i + 1; j < len(notes) && look(j, &after); j++ {
		if keep[j] && notes[j].Tick == n.Tick && sameHat(&notes[j], n) {
			return false
		}
	}
	for a := 0; a <= together; a++ {
		b := together - a
		if a > len(before) || b > len(after) {
			continue
		}
		from, to := at, at
		if a > 0 {
			from = before[a-1]
		}
		if b > 0 {
			to = after[b-1]
		}
		if to-from < limbGapUS {
			return false
		}
	}
	return true
}

// sameHat reports whether two strokes want different things of the one hi-hat.
func sameHat(a, b *gridNote) bool {
	hat := func(k laneKind) bool { return k == kindHat || k == kindOpen || k == kindPedal }
	return a.Key != b.Key && hat(kindOf(a.Key)) && hat(kindOf(b.Key))
}

// graceFits reports whether grace stroke i can be played: the stroke it leads to
// is, and the other hand is free from the stroke before it to the one after.
func graceFits(c clock, notes []gridNote, keep []bool, i int) bool {
	at := c.us(notes[i].Tick)
	main := false
	look := func(j int) (near, free bool) {
		t := c.us(notes[j].Tick)
		if t-at >= limbGapUS || at-t >= limbGapUS {
			return false, true
		}
		if !keep[j] || notes[j].Limb != feel.Hand {
			return true, true
		}
		if notes[j].Tick == notes[i].Tick && notes[j].Key == notes[i].Key {
			main = true
			return true, true
		}
		return true, false
	}
	for j := i - 1; j >= 0; j-- {
		if near, free := look(j); !free {
			return false
		} else if !near {
			break
		}
	}
	for j := i + 1; j < len(notes); j++ {
		if near, free := look(j); !free {
			return false
		} else if !near {
			break
		}
	}
	return main
}

// merged makes one stroke of several of one voice at one tick: the weightiest.
func (p *plan) merged(notes []gridNote) []gridNote {
	type place struct {
		tick  int64
		key   uint8
		shift int
	}
	at := map[place]int{}
	out := make([]gridNote, 0, len(notes))
	for _, n := range notes {
		key := place{n.Tick, n.Key, n.ShiftMS}
		j, ok := at[key]
		if !ok {
			at[key] = len(out)
			out = append(out, n)
			continue
		}
		if a, b := p.importance(&n), p.importance(&out[j]); a > b || a == b && n.Touch > out[j].Touch {
			out[j] = n
		}
	}
	return out
}

// importance ranks strokes for a drummer who cannot play them all: hits first,
// then the fill, then kick, backbeat and beat, then the rest of the time, ghosts
// last.
func (p *plan) importance(n *gridNote) int {
	bar := p.barAt(n.Tick)
	r := 2 - p.metric(bar, n.Tick) // 0 to 2
	switch k := kindOf(n.Key); {
	case n.Accent > 0:
		return 90 + n.Accent
	case n.Pushed:
		return 80
	case n.Touch == feel.Ghost:
		return r
	case k == kindCrash:
		return 70
	case n.Fill:
		return 60 + r
	case k == kindSnare || k == kindKick || k == kindStick:
		return 40 + 4*r + int(n.Touch)
	}
	return 10 + 4*r + int(n.Touch)
}
