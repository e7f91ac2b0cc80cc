package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/touch"
)

// fillSwell is how much louder the end of a fill is than its beginning, in velocities.
// Drummers' fills (Groove MIDI Dataset): the last third is 18 louder than the first.
const fillSwell = 18

// Shapes let a push be as strong as a downbeat, and each fill swell, from half of fillSwell
// softer at its first stroke in a bar to half of it louder at its last, and keep a fill's
// hands under a ceiling.
func (d *Drummer) Shapes(notes []score.Note) []touch.Shape {
	type reach struct{ first, last int64 }
	bars := map[int]reach{} // the first and last stroke of the fill, by bar
	for i := range notes {
		if n := &notes[i]; inFill(n) {
			r, ok := bars[d.BarAt(n.At)]
			if !ok {
				r.first = n.At
			}
			bars[d.BarAt(n.At)] = reach{r.first, n.At}
		}
	}
	out := make([]touch.Shape, len(notes))
	for i := range notes {
		n := &notes[i]
		bar := d.BarAt(n.At)
		if n.Art.Has(score.Pushed) {
			out[i].Swell = d.lossOffBeat(n, bar)
		}
		if !inFill(n) {
			continue
		}
		r := bars[bar]
		if length := r.last - r.first; length > 0 {
			out[i].Swell = int((n.At-r.first)*fillSwell/length) - fillSwell/2
		}
		if n.Voice.Limb() == feel.Hand {
			out[i].Most = d.fillCeiling(bar)
		}
	}
	return out
}

// lossOffBeat is how much softer a stroke is off the beat than on it. A push has it added: it
// is as strong as the downbeat that it takes the place of.
func (d *Drummer) lossOffBeat(n *score.Note, bar int) int {
	in := d.Instrument(n)
	full := in.Levels.Of(n.Touch) + plan.BandLift.At(d.Energy(bar))
	return full - full*in.Places[d.MetricPlace(bar, n.At)]/100
}

// inFill reports whether a note is a stroke of a fill.
func inFill(n *score.Note) bool { return n.Group != 0 }

// fillCeiling is the greatest velocity of the hands in a fill: hardly more than the backbeat
// that it leads to. So a fill before a chorus is not louder than the chorus.
func (d *Drummer) fillCeiling(bar int) int {
	energy, weight := d.Energy(bar), feel.Normal
	if a := d.Pass.After; a != nil && bar == len(d.Pass.Bars)-1 {
		energy = max(energy, a.Energy)
	}
	if fullForce.At(energy) {
		weight = feel.Strong
	}
	return touch.JustOver(instruments[kindSnare].Levels.Of(weight) + plan.BandLift.At(energy))
}
