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
		f := set.Feels[pass.Feel]
		if f == nil || pass.Tacet.Has(timeline.Drums) {
			continue
		}
		for e := min(pass.EnergyFrom, pass.EnergyTo); e <= max(pass.EnergyFrom, pass.EnergyTo); e++ {
			if len(f.Levels[e-1].Drums) > 0 {
				return f.Kit
			}
		}
	}
	return "standard"
}
