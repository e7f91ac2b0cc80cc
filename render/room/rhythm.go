package room

import (
	"sort"

	"plinth/songspec/meter"
)

// Grid is how busy each step of the bar is, over all bars of one meter.
type Grid struct {
	Meter  meter.Meter
	Bars   int  // how many bars were counted
	Thirds bool // the steps are thirds of the beat, not sixteenths: the band swings
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
	type bar struct {
		at int64
		m  meter.Meter
	}
	var bars []bar
	count := map[meter.Meter]int{}
	for i := max(0, r.tl.PassAt(start)); i < len(r.tl.Passes) && r.tl.Passes[i].Start < end; i++ {
		p := &r.tl.Passes[i]
		for j := range p.Bars {
			if at := p.Start + p.Bars[j].Start; at >= start && at < end {
				bars = append(bars, bar{at, p.Bars[j].Meter})
				count[p.Bars[j].Meter]++
			}
		}
	}
	var g Grid
	for _, b := range bars { // the first of the commonest, not a map's order
		if count[b.m] > g.Bars {
			g.Meter, g.Bars = b.m, count[b.m]
		}
	}
	if g.Bars == 0 {
		return g
	}
	length := g.Meter.BarTicks()
	step := int64(meter.TicksPerQuarter / 4)
	if g.Meter.Den == 4 && r.bandSwings(start, end) {
		g.Thirds, step = true, meter.TicksPerQuarter/3
	}
	n := int((length + step - 1) / step)
	// attacked says in how many bars of a hundred one of the onsets falls on each step.
	attacked := func(onsets []int64) []int {
		counts := make([]int, n)
		for _, b := range bars {
			if b.m != g.Meter {
				continue
			}
			seen := make([]bool, n)
			i := sort.Search(len(onsets), func(i int) bool { return onsets[i] >= b.at-step/2 })
			for ; i < len(onsets) && onsets[i] < b.at+length-step/2; i++ {
				if k := int((onsets[i] - b.at + step/2) / step); !seen[k] {
					seen[k] = true
					counts[k]++
				}
			}
		}
		for k := range counts {
			counts[k] = counts[k] * 100 / g.Bars
		}
		return counts
	}
	from := start - step // an onset that falls on the first step may lie before it
	voice := attacked(sungOnsets(r.sungIn(from, end)))
	players := make([][]int, len(r.meant))
	for who := range r.meant {
		players[who] = attacked(meantOnsets(beginningIn(r.meant[who], from, end)))
	}
	for k := 0; k < n; k++ {
		s := Step{Count: g.Meter.CountAt(int64(k) * step), Voice: voice[k], Players: make([]int, len(players))}
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
