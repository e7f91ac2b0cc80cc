package timeline

// Sweep is bars of a pass, counted from 0, through which the energy is one or moves evenly
// one way: from First to the bar before End. From and To are its levels there.
type Sweep struct{ First, End, From, To int }

// Sweeps are the sweeps of the pass in order. There is one, unless bars have energies of
// their own: a new one begins where the energy does not go on from the bar before.
func (p *Pass) Sweeps() []Sweep {
	var out []Sweep
	way, reached := 0, 0 // where the energy has gone in the last sweep so far, and to
	for bar := range p.Bars {
		e := p.EnergyIn(bar)
		turns := way*(e.To-e.From) < 0
		if n := len(out); n > 0 && e.From == reached && !turns {
			out[n-1].End, out[n-1].To = bar+1, e.Level
		} else {
			out, way = append(out, Sweep{bar, bar + 1, e.Level, e.Level}), 0
		}
		if e.To != e.From {
			way = e.To - e.From
		}
		reached = e.To
	}
	return out
}
