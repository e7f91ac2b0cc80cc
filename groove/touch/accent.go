package touch

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
)

const (
	accentOver   = 4 // an accent of weight 1 is this much louder than all else in its bar, about
	accentStep   = 5 // each further weight adds this
	accentLeast  = 2 // it is louder than all else by this, whatever chance says
	accentSpread = 4 // the standard deviation from accent to accent, at looseness 0.4
	aloneSpread  = 1 // and among written hits with nothing between them: the band strikes them evenly
	accentKnee   = 118
	accentMost   = 126
)

// nudgeOver and nudgeStep are what accentOver and accentStep are where the band plays softly:
// among soft notes less is heard as an accent, and the section stays under a stronger one.
const nudgeOver, nudgeStep = 2, 2

// nudgeMost is how far such an accent may stand out of what is around it.
const nudgeMost = 6

// accented is the velocity of an accent. usual is how loud the loudest note of a bar with
// accents usually is: accents differ less than what they stand out of. inChord is added for its
// place in a chord. It is no softer than the loudest of its kind in the bars before.
func (t *Playing) accented(n *score.Note, usual, inChord, ofKind int) int {
	bar := t.BarAt(n.At)
	touch, over, step := feel.Strong, accentOver, accentStep
	if !plan.Forceful.At(t.Energy(bar)) {
		touch, over, step = feel.Normal, nudgeOver, nudgeStep
	}
	if n.Voice.OnKit() && t.BrushesIn(bar) {
		touch = feel.Normal
	}
	loudest := max(t.heard[bar].loudest, t.loudestBefore(n))
	in := t.player.Instrument(n)
	chance, v := t.noise(n, t.lane(n), accentSpread), t.loudness(n, in, touch, 0, false)
	if t.Cues.Alone[bar] {
		chance, v = t.noise(n, t.lane(n), aloneSpread), t.loudnessOfHit(n, in, touch)
	}
	if around := max(loudest, usual); touch == feel.Normal && around > 0 {
		v = min(v, int64(around+nudgeMost)*fine)
	}
	v = max(v, int64((loudest+max(loudest, usual))/2+over)*fine, int64(ofKind)*fine)
	v += int64(step*(t.AccentWeight(n)-1))*fine + chance
	out := int((v+fine/2)/fine) + inChord
	if out > accentKnee { // the loudest are closer to each other, and none is clipped
		out = accentKnee + (out-accentKnee)/2
	}
	if n.Voice == score.Left {
		out--
	}
	return min(max(out, loudest+accentLeast, ofKind+inChord, 1), accentMost)
}

// loudnessOfHit is how loud a hit is in a bar of written hits and nothing else, in parts of a velocity:
// neither its place in the bar nor the phrase counts, as in stop time. Common practice, no single source.
func (t *Playing) loudnessOfHit(n *score.Note, in *Instrument, touch feel.Touch) int64 {
	bar, at, level := t.meant(n)
	b := &t.Pass.Bars[bar]
	part := min(max(0, at-b.Start), b.Length)
	v := int64(in.Levels.Of(touch))*fine + level + t.levels.lead[bar].at(part, b.Length)
	if n.Voice == score.Left {
		v -= leftUnder * fine
	}
	return t.softened(v, bar, part, b.Length)
}

// loudestOfItsKind is how loud the instrument of an accent was at its loudest, apart from other
// accents, in the accent's bar and the two before.
func (t *Playing) loudestOfItsKind(notes []score.Note, velocities []uint8, accent int) int {
	n := &notes[accent]
	from, in, loudest := t.Pass.Bars[max(0, t.BarAt(n.At)-2)].Start, t.player.Instrument(n), 0
	for i := accent - 1; i >= 0 && notes[i].At >= from; i-- {
		if b := &notes[i]; b.Voice == n.Voice && !b.Art.Has(score.Accent) && t.player.Instrument(b) == in {
			loudest = max(loudest, int(velocities[i]))
		}
	}
	return loudest
}

// usuallyLoudest is the mean of the loudest notes in bars with accents.
func (t *Playing) usuallyLoudest() int {
	sum, bars := 0, 0
	for i := range t.heard {
		if h := &t.heard[i]; h.accents && h.loudest > 0 {
			sum, bars = sum+h.loudest, bars+1
		}
	}
	return sum / max(1, bars)
}

// loudestBefore is how loud the player may have been in the bar before the pass. A pushed
// accent on the first beat of the pass sounds in that bar. The pass does not know the notes
// there, so this is what the energy there allows. 0 for a note inside the pass.
func (t *Playing) loudestBefore(n *score.Note) int {
	if n.At >= 0 || t.Pass.Before == nil {
		return 0
	}
	energy, touch := t.Pass.Before.Energy, feel.Normal
	if plan.Forceful.At(energy) {
		touch = feel.Strong
	}
	in := t.player.Instrument(n)
	lift := max(in.lift().At(energy), (in.lift().At(energy)+in.lift().At(t.Pass.EnergyFrom))/2) // it may lead here
	stray := int(t.scaled(2*in.Spread+in.Sway) + in.Arch)
	return min((in.Levels.Of(touch)+lift)*(in.Places[0]+in.First)/100+stray, normalCeiling)
}
