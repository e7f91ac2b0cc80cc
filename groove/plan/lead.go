package plan

// LeadBars is how many bars of a pass, before the border, may know the energy of the next.
const LeadBars = 2

// LeadsTo is the energy that the band leads to in a bar: in the last two bars of a pass the
// energy of the next pass, unless the song wants no leading there, and in all other bars the
// bar's own. A pass before a border says with it how the band crosses: upwards, down, or as
// it is.
func (p *Plan) LeadsTo(bar int) int {
	if a := p.Pass.After; a != nil && p.Pass.Lead && bar >= len(p.Pass.Bars)-LeadBars {
		return a.Energy
	}
	return p.Energy(bar)
}
