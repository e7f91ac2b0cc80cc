package groove

import (
	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// Plan is one pass made ready for the players: who plays where, which chord is
// in force for whom, where it is silent. It is the only thing the players see,
// so that a pass depends on nothing but itself and its two neighbours.
type Plan struct {
	Song    *timeline.Timeline
	Pass    *timeline.Pass
	Feel    *feel.Feel
	Fills   []feel.Fill // the feel's family
	Set     *feel.Set   // for the feel of a neighbour
	scratch *scratch
	Cues    *cue.Cues
	groups  [timeline.NumPlayers][]score.Group // of what each player means, as he plays

	// Worked out once, when first asked for: a pass asks for each of them at every
	// note.
	swings  *Swing
	bars    []barFacts
	here    cue.Stretch // the bar that barAt found last
	hereBar int
	answer  [5]*feel.Level // by energy from 0: the level with its answer's rows
	hands   *human
	clocked *Clock
}

// NewPlan makes a pass ready. A feel that the set does not hold is a fault of
// ours: names are checked when the song is resolved.
func NewPlan(tl *timeline.Timeline, pass *timeline.Pass, set *feel.Set) *Plan {
	f := set.Feels[pass.Feel]
	if f == nil {
		panic("groove: no feel " + pass.Feel)
	}
	p := &Plan{Song: tl, Pass: pass, Feel: f, Set: set, scratch: &scratch{}, Cues: cue.Of(pass)}
	p.Fills = family(set.Fills, f.Fills)
	return p
}

// Clock is the time of the pass.
func (p *Plan) Clock() Clock {
	if p.clocked == nil {
		c := NewClock(p.Pass.Tempos)
		p.clocked = &c
	}
	return *p.clocked
}

// family is the fills of one family. They stand together as a rule, and then
// nothing is copied.
func family(fills []feel.Fill, name string) []feel.Fill {
	from := 0
	for from < len(fills) && fills[from].Family != name {
		from++
	}
	to := from
	for to < len(fills) && fills[to].Family == name {
		to++
	}
	out := fills[from:to:to]
	for i := to; i < len(fills); i++ {
		if fills[i].Family == name {
			out = append(out, fills[i])
		}
	}
	return out
}

// Weight is the Weight of the accent that a note answers, 1 to 3; 0 where it answers none.
func (p *Plan) Weight(n *score.Note) int {
	if !n.Art.Has(score.Accent) {
		return 0
	}
	return int(p.Cues.List[n.Cue].Weight)
}
