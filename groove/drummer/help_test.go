package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/songspec/timeline"
)

// drummerOf is a drummer who has taken up a pass of a song.
func drummerOf(tl *timeline.Timeline, pass int, set *feel.Set) *Drummer {
	d := &Drummer{}
	d.Prepare(plan.New(tl, &tl.Passes[pass], set))
	return d
}
