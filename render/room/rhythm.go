package room

import (
	"sort"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Grid is how busy each step of the bar is, over the bars in one meter.
type Grid struct {
	Meter  meter.Meter
	Bars   int  // how many bars were counted
	Thirds bool // the steps are thirds of the beat, not sixteenths: the band swings
	Steps  []Step
}

// Step is one step of the bar. The figures say in how many of a hundred bars
// somebody attacks there.
type Step struct {
	Count                     string
	Voice, Piano, Bass, Drums int
	// Free: in fewer than one bar of four does voice, piano or bass attack. The
	// kit does not count: it takes no pitch.
	Free bool
}

// freeBelow is the limit of Free in attacks a hundred bars.
const freeBelow = 25

// grid counts attacks on the steps of the commonest meter of a stretch.
func (r *Report) grid(start, end int64) Grid {
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
	if g.Meter.Den == 4 && r.swings(start, end) {
		g.Thirds, step = true, meter.TicksPerQuarter/3
	}
	n := int((length + step - 1) / step)
	for i := 0; i < n; i++ {
		g.Steps = append(g.Steps, Step{Count: g.Meter.CountAt(int64(i) * step)})
	}
	field := [...]func(*Step) *int{
		func(s *Step) *int { return &s.Drums }, func(s *Step) *int { return &s.Bass },
		func(s *Step) *int { return &s.Piano }, func(s *Step) *int { return &s.Voice },
	}
	lines := r.onsets(start-step, end)
	for who, ticks := range lines {
		for _, b := range bars {
			if b.m != g.Meter {
				continue
			}
			seen := make([]bool, n)
			i := sort.Search(len(ticks), func(i int) bool { return ticks[i] >= b.at-step/2 })
			for ; i < len(ticks) && ticks[i] < b.at+length-step/2; i++ {
				if k := int((ticks[i] - b.at + step/2) / step); !seen[k] {
					seen[k] = true
					*field[who](&g.Steps[k])++
				}
			}
		}
	}
	for i := range g.Steps {
		s := &g.Steps[i]
		for _, f := range field {
			*f(s) = *f(s) * 100 / g.Bars
		}
		s.Free = s.Voice+s.Piano+s.Bass < freeBelow
	}
	return g
}

// onsets are the onsets of drums, bass, piano and voice in a stretch.
func (r *Report) onsets(start, end int64) [len(timeline.PlayerNames) + 1][]int64 {
	var out [len(timeline.PlayerNames) + 1][]int64
	for who := range r.meant {
		for _, n := range within(r.meant[who], start, end) {
			out[who] = append(out[who], n.tick)
		}
	}
	for _, n := range r.sung(start, end) {
		out[len(timeline.PlayerNames)] = append(out[len(timeline.PlayerNames)], n.Tick)
	}
	return out
}

// swings reports whether the band's off-beats lie on the last third of the beat
// rather than on its half or quarters.
func (r *Report) swings(start, end int64) bool {
	late, straight := 0, 0
	for who := range r.meant {
		for _, n := range within(r.meant[who], start, end) {
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
