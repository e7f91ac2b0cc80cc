package drummer

import (
	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// Kit is the kit of the song: the kit that it asks for, or else the kit of the first pass
// that has drums.
func Kit(tl *timeline.Timeline, set *feel.Set) string {
	if tl.Drums.Kit != "" {
		return tl.Drums.Kit
	}
	for i := range tl.Passes {
		pass := &tl.Passes[i]
		for bar := range pass.Bars {
			f := set.Feels[pass.FeelAt(bar)]
			if f != nil && !pass.TacetAt(bar).Has(timeline.Drums) && len(f.Levels[pass.EnergyAt(bar)-1].Drums) > 0 {
				return f.Kit
			}
		}
	}
	return "standard"
}
