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
	ride    map[*feel.Level]*feel.Level // and one with a ride under a walking bass
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
func (p *Plan) BrushesIn(bar int) bool { return withBrushes(p.kitIn(bar), p.FeelIn(bar)) }

// kitIn is the kit that the song file names for a bar; "": none.
func (p *Plan) kitIn(bar int) string { return p.Song.BandAt(p.Pass, bar).Drums.Kit }

// withBrushes reports whether a kit of the song file, in a feel, is played with brushes.
func withBrushes(kit string, f *feel.Feel) bool {
	if kit != "" {
		return kit == "brushes"
	}
	return f != nil && f.Kit == "brushes"
}

// ChangesSticks reports whether the song file has the drummer take up brushes, or put them down, at
// the bar line behind a bar.
func (p *Plan) ChangesSticks(bar int) bool {
	kit, f, tacet := "", (*feel.Feel)(nil), timeline.Players(0)
	switch a := p.Pass.After; {
	case bar+1 < len(p.Pass.Bars):
		kit, f, tacet = p.kitIn(bar+1), p.FeelIn(bar+1), p.Pass.TacetAt(bar+1)
	case a == nil:
		return false
	default:
		kit, f, tacet = p.Song.BandOr(a.Band).Drums.Kit, p.Set.Feels[a.Feel], a.Tacet
	}
	return kit != p.kitIn(bar) && withBrushes(kit, f) != p.BrushesIn(bar) && !tacet.Has(timeline.Drums)
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
