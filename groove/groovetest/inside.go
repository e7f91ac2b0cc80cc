package groovetest

import "plinth/songspec/timeline"

// Inside is a change of a pass for bars from one to another, counted from 1: what a bars
// block does.
func Inside(from, to int, change func(b *timeline.Bar)) func(p *timeline.Pass) {
	return func(p *timeline.Pass) {
		for bar := from - 1; bar < min(to, len(p.Bars)); bar++ {
			change(&p.Bars[bar])
		}
	}
}

// EnergyInside gives bars from one to another, counted from 1, an energy of their own, which
// may move.
func EnergyInside(from, to, energy, energyTo int) func(p *timeline.Pass) {
	return func(p *timeline.Pass) {
		for bar := range p.Bars {
			e := p.EnergyIn(bar)
			if bar >= from-1 && bar < to {
				e = timeline.EvenEnergy(energy, energyTo, bar-from+1, to-from+1)
			}
			p.Bars[bar].Energy = e
		}
		p.EnergyFrom, p.EnergyTo = p.EnergyAt(0), p.EnergyAt(len(p.Bars)-1)
	}
}
