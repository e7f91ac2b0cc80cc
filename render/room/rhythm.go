package room

import "plinth/songspec/meter"

// Grid is how busy each step of the bar is, over all bars of one meter.
type Grid struct {
	Meter  meter.Meter
	Bars   int  // how many bars were counted
	Thirds bool // the steps are thirds of the beat, not sixteenths or, in halves, eighths: the band swings
	Steps  []Step
}

// Step is one step of the bar. The figures say in how many bars of a hundred the voice or a
// player attacks there.
type Step struct {
	Count   string // "2&"
	Voice   int
	Players []int // by timeline.Player
	// Free says that voice and pitched players attack in fewer than one bar of four,
	// taken together. The kit does not count, because it takes no pitch.
	Free bool
}

// freeBelow is the limit of Free in attacks a hundred bars.
const freeBelow = 25

// measureGrid counts attacks on the steps of the bar between two absolute ticks, over the
// bars of the most common meter.
func (r *Report) measureGrid(start, end int64) Grid {
	m, bars := r.commonMeter(start, end)
	if len(bars) == 0 {
		return Grid{}
	}
	g := Grid{Meter: m, Bars: len(bars)}
	step := int64(meter.TicksPerQuarter / 4)
	if m.Den == 2 { // the counts are halves, and their e and a the eighths
		step = m.UnitTicks() / 4
	}
	if m.Den == 4 && r.bandSwings(start, end) {
		g.Thirds, step = true, meter.TicksPerQuarter/3
	}
	from := start - step // an onset that falls on the first step may lie before it
	attacks := func(notes []meant) []int {
		return attacksByStep(beginningIn(notes, from, end), bars, m.BarTicks(), step)
	}
	voice := attacks(r.sung)
	players := make([][]int, len(r.meant))
	for who := range r.meant {
		players[who] = attacks(r.meant[who])
	}
	for k := range voice {
		s := Step{Count: m.CountAt(int64(k) * step), Voice: voice[k], Players: make([]int, len(players))}
		for who := range players {
			s.Players[who] = players[who][k]
		}
		taken := s.Voice
		for _, p := range playerRows {
			if p.pitched {
				taken += s.Players[p.who]
			}
		}
		s.Free = taken < freeBelow
		g.Steps = append(g.Steps, s)
	}
	return g
}

// commonMeter is the most common meter of the bars that begin from start on and before end,
// of equals the first, with the start ticks of its bars.
func (r *Report) commonMeter(start, end int64) (meter.Meter, []int64) {
	starts := map[meter.Meter][]int64{}
	var meters []meter.Meter // of the bars
	for i := max(0, r.tl.PassAt(start)); i < len(r.tl.Passes) && r.tl.Passes[i].Start < end; i++ {
		p := &r.tl.Passes[i]
		for j := range p.Bars {
			if m, at := p.Bars[j].Meter, p.Start+p.Bars[j].Start; at >= start && at < end {
				meters, starts[m] = append(meters, m), append(starts[m], at)
			}
		}
	}
	var most meter.Meter
	for _, m := range meters {
		if len(starts[m]) > len(starts[most]) {
			most = m
		}
	}
	return most, starts[most]
}

// attacksByStep is in how many bars of a hundred one of the notes begins on each step. bars
// are the start ticks of bars of one length.
func attacksByStep(notes []meant, bars []int64, length, step int64) []int {
	counts := make([]int, (length+step-1)/step)
	for _, at := range bars {
		seen := make([]bool, len(counts))
		for _, n := range beginningIn(notes, at-step/2, at+length-step/2) {
			if k := int((n.tick - at + step/2) / step); !seen[k] {
				seen[k] = true
				counts[k]++
			}
		}
	}
	for k := range counts {
		counts[k] = counts[k] * 100 / len(bars)
	}
	return counts
}

// bandSwings reports whether the band's off-beats lie on the last third of the beat more
// than twice as often as on its half and its quarters.
func (r *Report) bandSwings(start, end int64) bool {
	late, straight := 0, 0
	for who := range r.meant {
		for _, n := range beginningIn(r.meant[who], start, end) {
			p := &r.tl.Passes[max(0, r.tl.PassAt(n.tick))]
			at := n.tick - p.Start
			switch at = (at - p.Bars[p.BarAt(at)].Start) % meter.TicksPerQuarter; {
			case at == meter.TicksPerQuarter*2/3:
				late++
			case at > meter.TicksPerQuarter/5 && at <= meter.TicksPerQuarter*4/5:
				straight++
			}
		}
	}
	return late > 2*straight
}
