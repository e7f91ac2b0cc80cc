package plan

// LeadBars is how many bars before a border may know the energy of the next pass, and how many
// before a rise inside a pass that of the bars behind it.
const LeadBars = 2

// leastToLead is how many bars it takes inside a pass to lead anywhere: fewer are a break, and
// stay as they are to their last beat. Common practice, no single source.
const leastToLead = 4

// LeadsTo is the energy that the band leads to in a bar: in the last two bars of a pass the
// energy of the next pass, unless the song wants no leading there, and in all other bars the
// bar's own. A pass before a border says with it how the band crosses: upwards, down, or as
// it is. Inside a pass the band leads in the same way up to bars whose energy is higher all at
// once. Where it is lower all at once nothing leads there: that is to be a surprise.
func (p *Plan) LeadsTo(bar int) int { return p.facts(bar).leadsTo }

// Crosses reports whether a bar is the last one before a border, or before a rise inside the
// pass that the band leads up to.
func (p *Plan) Crosses(bar int) bool {
	if bar == len(p.Pass.Bars)-1 {
		return true
	}
	s := p.SweepAt(bar)
	return bar == s.End-1 && p.LeadsTo(bar) > p.Energy(bar)
}

// Rises and Falls report whether a bar inside the pass is the first one of another energy that
// has come all at once: a higher one, a lower one.
func (p *Plan) Rises(bar int) bool { return p.step(bar) > 0 }
func (p *Plan) Falls(bar int) bool { return p.step(bar) < 0 }

// step is how many levels the energy goes up at the bar line before a bar inside the pass, all
// at once.
func (p *Plan) step(bar int) int {
	if bar == 0 || p.SweepAt(bar).First != bar {
		return 0
	}
	return p.Energy(bar) - p.Energy(bar-1)
}

// leadsTo works out LeadsTo, once the energies of all bars are known.
func (p *Plan) leadsTo(bar int) int {
	own, s, a := p.bars[bar].energy, p.SweepAt(bar), p.Pass.After
	switch {
	case !p.Pass.Lead || bar < s.End-LeadBars || s.First > 0 && s.End-s.First < leastToLead:
	case s.End == len(p.bars):
		if a != nil {
			return a.Energy
		}
	case s.End-s.First >= leastToLead:
		return max(own, p.bars[s.End].energy)
	}
	return own
}
