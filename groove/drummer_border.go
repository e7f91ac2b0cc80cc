package groove

import (
	"sort"

	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// A pass is played without knowing what the drummer strikes on either side of it.
// So that two hands and two feet can go over the border, both sides keep to what
// each knows of the other: a neighbour opens with the hands that its level has on
// the first step, with one at least, and with both feet.

// openingHands is how many hands a feel's level has on its first step, 1 or 2.
func (p *plan) openingHands(name string, energy int) int {
	f := p.feel
	if p.set != nil && p.set.Feels[name] != nil {
		f = p.set.Feels[name]
	}
	n := 0
	for _, r := range f.Levels[energy-1].Drums {
		if r.Voice.Limb == feel.Hand && len(r.Steps) > 0 && r.Steps[0].Touch > feel.Sound {
			n++
		}
	}
	return min(max(n, 1), 2)
}

// atBorders makes room at the pass's borders, in time: what is written for the last
// limbLimitUS before the end goes but for the strokes of hands that the next
// opening leaves free, and what is written before that does not run into it. On
// the first step no more hands strike than the pass before reckons with, where its
// last step may be so near. notes are in order; so is the result.
func (p *plan) atBorders(c clock, notes []played) []played {
	out := p.opened(c, notes)
	a := p.pass.After
	if a == nil {
		return out
	}
	last := p.lastStroke(c)
	free := 2 - p.openingHands(a.Feel, a.Energy)
	var late []int // strokes of hands after the limit
	drop := make([]bool, len(out))
	for i := range out {
		n := &out[i]
		switch {
		case n.start <= last || n.Pushed && p.out(timeline.Drums) < p.pass.Length:
		case p.swung(n.Tick) <= last:
			n.end = max(last+1, n.end-(n.start-last))
			n.start = last
		case n.Limb == feel.Hand && n.ShiftMS == 0 && n.Touch != feel.Ghost && !n.Fill:
			late = append(late, i)
		case n.ShiftMS == 0:
			drop[i] = true
		}
	}
	sort.SliceStable(late, func(i, j int) bool { return out[late[i]].velocity > out[late[j]].velocity })
	for k, i := range late {
		drop[i] = k >= free
	}
	return undropped(out, drop)
}

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

// opened takes hands from the first step of a pass where the pass before may have a
// stroke too near to it: a crash stays, then what is loudest.
func (p *plan) opened(c clock, notes []played) []played {
	b := p.pass.Before
	if b == nil || !p.nearStep(c, b.Feel) || p.openingHands(p.pass.Feel, p.pass.EnergyFrom) > 1 {
		return notes
	}
	var first []int
	for i := range notes {
		if n := &notes[i]; n.Tick == 0 && n.Limb == feel.Hand && n.ShiftMS == 0 {
			first = append(first, i)
		}
	}
	weight := func(i int) int {
		if kindOf(notes[i].Key) == kindCrash {
			return 1000
		}
		return int(notes[i].velocity)
	}
	sort.SliceStable(first, func(i, j int) bool { return weight(first[i]) > weight(first[j]) })
	drop := make([]bool, len(notes))
	for k, i := range first {
		drop[i] = k > 0
	}
	return undropped(notes, drop)
}

// nearStep reports whether the last step of a bar in a feel may lie within a
// hand's limit of the bar line, at the tempo here or a quarter more.
func (p *plan) nearStep(c clock, name string) bool {
	f := p.set.Feels[name]
	if f == nil || len(f.Meters) == 0 {
		return false
	}
	step := f.Meters[0].BarTicks() / int64(f.Grid)
	if s := p.swingOf(name); s.pair > 0 {
		step = min(step, s.pair-s.long)
	}
	return c.us(step) < limbLimitUS*5/4
}

// undropped are the notes that are not dropped, in order of their start; a grace
// stroke goes with its stroke.
func undropped(notes []played, drop []bool) []played {
	type place struct {
		tick int64
		key  uint8
	}
	gone := map[place]bool{}
	for i, n := range notes {
		if drop[i] {
			gone[place{n.Tick, n.Key}] = true
		}
	}
	var out []played
	for i, n := range notes {
		if !drop[i] && !(n.ShiftMS != 0 && gone[place{n.Tick, n.Key}]) {
			out = append(out, n)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].start < out[j].start })
	return out
}
