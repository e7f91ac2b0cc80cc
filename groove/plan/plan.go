// Package plan makes a pass ready to be played: in goes a pass of the timeline with the
// grooves, out comes what every player has to know of it, whatever the instrument: the cues,
// which level of the feel is in force in each bar, where the steps of its tab fall, how it
// swings, how much energy there is, and what chance decides.
package plan

import (
	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// Plan is one pass made ready for the players. It is the only thing that they see, so
// that a pass depends on nothing but itself and its two neighbours. It belongs to one
// goroutine.
type Plan struct {
	Song *timeline.Timeline
	Pass *timeline.Pass
	Set  *feel.Set // every feel of the song: a bar's and a neighbour's may be another
	Cues *cue.Cues // what the song asks for in this pass

	// The fields below are worked out when they are first needed. Every note needs them.
	clock   *timeline.Clock
	bars    []barFacts
	here    cue.Stretch // the bar that BarAt found last
	hereBar int
	answer  map[*feel.Level]*feel.Level // a level with its answer's rows
	steps   []Step                      // the last result of Steps
}

// New makes a pass ready. It panics when the set does not have the pass's feel or a bar's: names
// are checked when the song is resolved.
func New(tl *timeline.Timeline, pass *timeline.Pass, set *feel.Set) *Plan {
	p := &Plan{Song: tl, Pass: pass, Set: set, Cues: cue.Of(pass)}
	if len(pass.Bars) > 0 {
		p.facts(0)
	}
	return p
}

// Clock converts between the ticks of the pass and microseconds.
func (p *Plan) Clock() *timeline.Clock {
	if p.clock == nil {
		p.clock = timeline.NewClock(p.Pass.Tempos)
	}
	return p.clock
}

// BrushesIn reports whether the drummer plays a bar with brushes: the song's kit decides, or
// the feel's where the song file names none.
func (p *Plan) BrushesIn(bar int) bool {
	if k := p.Song.BandAt(p.Pass, bar).Drums.Kit; k != "" {
		return k == "brushes"
	}
	return p.FeelIn(bar).Kit == "brushes"
}

// ShortHit is the length of a hit that is cut off dry, at a tick: a quarter of a beat, a sixteenth
// in 4/4. It is written as half a beat. Common practice, no single source.
func (p *Plan) ShortHit(tick int64) int64 { return p.Pass.Bars[p.BarAt(tick)].Meter.PlayedBeat() / 4 }

// AccentWeight is the weight, 1 to 3, of the accent that a note answers; 0 for other notes.
func (p *Plan) AccentWeight(n *score.Note) int {
	if !n.Art.Has(score.Accent) {
		return 0
	}
	return int(p.Cues.List[n.Cue].Weight)
}
