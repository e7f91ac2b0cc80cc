package drummer

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/touch"
)

// A fill rises evenly, stroke by stroke, to fillUnder under the backbeat that it leads to:
// fillStep at most from one stroke of the drums to the next, and fillSwell in all. Drummers'
// fills (Groove MIDI Dataset): the last third is 18 louder than the first.
const (
	fillSwell    = 18
	fillStepMost = 8
	fillUnder    = 4
)

// finalHit is how much louder than in the time the last hit before a dead stop is.
const finalHit = 10

// Shapes let a push be as strong as a downbeat, and each fill rise; they hold the proportions
// of the time: kicks by their beat, 4 a hair over 2, and cymbals under the backbeat.
func (d *Drummer) Shapes(notes []score.Note) []touch.Shape {
	out := make([]touch.Shape, len(notes))
	ones := make(map[int]feel.Touch, len(d.Pass.Bars)) // how hard the kick on 1 is, by bar
	fills := map[uint32][]int64{}                      // where a fill strikes the drums, in order, by group
	for i := range notes {
		n := &notes[i]
		if n.Voice.Limb() == feel.RightFoot {
			if bar := d.BarAt(n.At); n.At == d.Pass.Bars[bar].Start {
				ones[bar] = n.Touch
			}
		}
		if at := fills[n.Group]; isDrumOfFill(n) && !slices.Contains(at, n.At) {
			fills[n.Group] = append(at, n.At)
		}
	}
	for i := range notes {
		n := &notes[i]
		bar := d.BarAt(n.At)
		switch {
		case n.Art.Has(score.Pushed):
			out[i].Swell = d.lossOffBeat(n, bar)
		case n.Art.Has(score.Accent):
		case n.Cue >= 0 && n.Cue == d.Cues.FinalHit:
			out[i].Swell = finalHit
		case isDrumOfFill(n):
			out[i] = d.rise(n, fills[n.Group])
		case inFill(n) && n.Voice.Limb() == feel.Hand:
			out[i].Most = d.ceilingOf(n, bar)
		default:
			out[i] = d.inProportion(n, bar, ones[bar])
		}
		out[i].Stays = inFill(n) && d.inRow[n.Cue]
	}
	return out
}

// rise is the shape of a drum's stroke in a fill that strikes the drums at some places, in order.
func (d *Drummer) rise(n *score.Note, fill []int64) touch.Shape {
	last := len(fill) - 1
	after := last - slices.Index(fill, n.At)
	bar := d.BarAt(n.At)
	most := d.ceilingOf(n, bar)
	under := fillUnder
	if last > 0 {
		under += min(after*fillStepMost, after*fillSwell/last)
	}
	level := instruments[kindFill].Levels.Of(n.Touch) + plan.BandLift.At(d.Energy(bar))
	return touch.Shape{Swell: most - under - level, Most: most}
}

// isDrumOfFill reports whether a note is a stroke of a fill that rises with it: the hands on
// snare, stick and toms.
func isDrumOfFill(n *score.Note) bool {
	return inFill(n) && n.Roll == 0 && n.Touch > feel.Ghost && n.Voice.Limb() == feel.Hand && isDrum(n.Key)
}

// The kick: how much softer than on 1 it is on the other strong beat, on any other beat, and
// off the beat.
const kickOnThree, kickOnBeat, kickOff = 10, 14, 18

// ghostMost is the loudest ghost stroke of the snare.
const ghostMost = 30

// inProportion is the shape of a stroke of the time. The kick on the half bar is a little softer
// than on 1, and softer again elsewhere, however the row is written. Common practice, no single
// source.
func (d *Drummer) inProportion(n *score.Note, bar int, one feel.Touch) touch.Shape {
	b := &d.Pass.Bars[bar]
	half := (n.At-b.Start)*2 == b.Length
	place := d.MetricPlace(bar, n.At)
	k := kindOf(n.Key)
	switch {
	case n.At == b.Start && k == kindKick || n.Roll != 0:
		return touch.Shape{}
	case k == kindKick && one > feel.Ghost && n.Touch > feel.Ghost:
		in := &instruments[kindKick]
		under := kickOff
		switch {
		case half:
			under = kickOnThree
		case place == 0:
			under = kickOnBeat
		}
		lift := plan.BandLift.At(d.Energy(bar))
		full := in.Levels.Of(one) + lift
		own := (in.Levels.Of(n.Touch) + lift) * in.Places[place] / 100
		if own > full-under || half {
			return touch.Shape{Swell: full - under - own}
		}
	case n.Touch == feel.Ghost && k == kindSnare:
		return touch.Shape{Most: ghostMost}
	case k == kindSnare || k == kindStick:
		if place == 0 && !half && n.At > b.Start {
			if (n.At-b.Start)*2 > b.Length {
				return touch.Shape{Swell: 1}
			}
			return touch.Shape{Swell: -1}
		}
	case k == kindRide || k == kindCrash:
		most := cymbalMost.At(d.Energy(bar))
		level, marked := d.backbeatLevel(bar, d.Energy(bar))
		if k == kindRide || marked { // without a backbeat a crash has nothing that it has to stay under
			most = min(most, level)
		}
		return touch.Shape{Most: most}
	}
	return touch.Shape{}
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

// fillLeadsTo is the energy that a stroke of a fill in a bar leads to, so that a fill before a chorus is
// not louder than the chorus. A solo does not fall away into a softer section.
func (d *Drummer) fillLeadsTo(n *score.Note, bar int) int {
	own := d.Energy(bar)
	a := d.Pass.After
	if a == nil || a.Energy == 0 || bar != len(d.Pass.Bars)-1 || a.Energy < own && d.inRow[n.Cue] {
		return own
	}
	return a.Energy
}

// ceilingOf is the greatest velocity of a stroke of the hands in a fill: the backbeat that it leads to.
// Where no backbeat is marked, a fill that the song asks for is as strong as a snare's, where it leads to
// energy 4 or 5.
func (d *Drummer) ceilingOf(n *score.Note, bar int) int {
	energy := d.fillLeadsTo(n, bar)
	most, marked := d.backbeatLevel(bar, energy)
	if n.Cue >= 0 && plan.Forceful.At(energy) && !d.BrushesIn(bar) && !marked {
		most = max(most, instruments[kindSnare].Levels.Of(feel.Normal)+plan.BandLift.At(energy))
	}
	return most
}

// backbeatLevel is the velocity of the backbeat at an energy, in the feel of a bar: of the strongest stroke of the
// level's snare, or else of what marks the backbeat. It is marked by more than soft strokes; where there are
// none, as in swing, the velocity is a soft snare's.
func (d *Drummer) backbeatLevel(bar, energy int) (velocity int, marked bool) {
	best, voice := feel.Soft, snareVoice
	for _, r := range d.FeelIn(bar).Levels[energy-1].Drums {
		if !r.Voice.Backbeat() {
			continue
		}
		for _, s := range r.Steps {
			if s.Touch > best || s.Touch == best && !isSnare(voice) {
				best, voice = s.Touch, r.Voice
			}
		}
	}
	return instruments[kindOf(voice.Key)].Levels.Of(best) + plan.BandLift.At(energy), best > feel.Soft
}
