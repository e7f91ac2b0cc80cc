package touch

import (
	"plinth/groove/feel"
	"plinth/groove/score"
)

// GhostCeiling is the greatest velocity of a ghost stroke: drummers' strokes under 45 count
// as ghosts (Groove MIDI Dataset).
const GhostCeiling = 44

const (
	normalCeiling = 114 // nothing but an accent is louder
	ceilingRoom   = 12  // loud strokes are spread over so much under it
	besideAccents = 5   // in a bar with accents, all else is so much softer
)

// dynamics returns the velocity of every note of a player, 1 to 127. It is the instrument's
// level for the touch, changed by the energy, by the place in the bar, by the phrase and a
// little by chance. A fill swells. An accent is louder than anything else in its bar.
func (t *Playing) dynamics(notes []score.Note) []uint8 {
	t.prepareLevels()
	t.prepareChords(notes)
	out := make([]uint8, len(notes))
	t.heard = t.heard[:0]
	for range t.Pass.Bars {
		t.heard = append(t.heard, heard{})
	}
	for i := range notes {
		if notes[i].Art.Has(score.Accent) {
			t.heard[t.BarAt(notes[i].At)].accents = true
		}
	}
	shapes := t.player.Shapes(notes)
	for i := range notes {
		n := &notes[i]
		if n.Art.Has(score.Accent) {
			continue
		}
		var shape Shape
		if shapes != nil {
			shape = shapes[i]
		}
		shape.Swell += t.inChord(i)
		bar := t.BarAt(n.At)
		v := t.usual(n, bar, shape)
		out[i] = uint8(v)
		t.heard[bar].loudest = max(t.heard[bar].loudest, v)
		// An early hand may bring a downbeat to this side of the bar line.
		if bar > 0 && n.At == t.Pass.Bars[bar].Start {
			t.heard[bar-1].loudest = max(t.heard[bar-1].loudest, v)
		}
	}
	t.smoothRuns(notes, out)
	usual := t.usuallyLoudest()
	for i := range notes {
		if n := &notes[i]; n.Art.Has(score.Accent) {
			out[i] = uint8(t.accented(n, usual, t.inChord(i), t.loudestOfItsKind(notes, out, i)))
		}
	}
	t.restOnTheLast(notes, out)
	t.voiceToTheTop(notes, out)
	return out
}

// heard is what there is of a player in a bar beside accents.
type heard struct {
	loudest int  // velocity
	accents bool // the bar has accents
}

// usual is the velocity of a note that is no accent.
func (t *Playing) usual(n *score.Note, bar int, shape Shape) int {
	in := t.player.Instrument(n)
	spread := in.Spread
	if n.Touch == feel.Strong { // a hand at its limit strikes more evenly
		spread = spread * 2 / 3
	}
	v := int((t.loudness(n, in, n.Touch, spread, shape.Stays)+fine/2)/fine) + shape.Swell
	if t.heard[bar].accents {
		v -= besideAccents
	}
	most := normalCeiling
	if shape.Most > 0 {
		most = shape.Most
	}
	if n.Touch == feel.Ghost {
		v = min(v, GhostCeiling)
	}
	if v > most { // mirrored at the ceiling, so that loud strokes are not all the same
		v = max(2*most-v, most-ceilingRoom)
	}
	return max(v, 1)
}

// loudness is how loud a note is with a touch, in parts of a velocity; stays is Shape.Stays.
func (t *Playing) loudness(n *score.Note, in *Instrument, touch feel.Touch, spread int64, stays bool) int64 {
	bar, at, level := t.meant(n)
	b, lane := &t.Pass.Bars[bar], t.lane(n)
	part := min(max(0, at-b.Start), b.Length)
	lead := t.levels.lead[bar].at(part, b.Length)
	if n.Group != 0 && n.Voice.OnKit() { // a fill rises by itself
		lead = min(0, lead)
	}
	if stays {
		lead = 0
	}
	level += lead
	phrase := t.arches[bar].at(part, b.Length) * in.Arch * fine / 1000
	if lane.sway != nil {
		phrase += ramp{lane.sway[bar], lane.sway[bar+1]}.at(part, b.Length) * in.Sway
	}
	if in.Phrased != nil {
		phrase = phrase * in.Phrased.At(t.Energy(bar)) / 100
	}
	if t.heard[bar].accents {
		phrase /= 2 // the accents make the shape
	}
	fell := t.Pass.Before != nil && t.Pass.Before.Energy > t.Pass.EnergyFrom
	lastHit := n.Cue >= 0 && n.Cue == t.Cues.FinalHit
	chance := t.noise(n, lane, spread)
	switch {
	case lastHit:
		phrase = max(0, phrase)
	case bar == 0 && !fell && (at == b.Start || n.Voice.OnKit()): // an arrival, whatever chance says
		chance = max(0, chance)
	case at == b.Start && bar > 0 && t.heard[bar-1].accents: // the beat that the hits were for
		phrase, chance = max(archFoot*in.Arch*fine/1000, phrase), max(0, chance)
	}
	v := int64(in.Levels.Of(touch)) * fine
	if touch == feel.Ghost {
		v += level/4 + phrase/2
	} else {
		place := in.Places[t.MetricPlace(bar, at)] * t.inThree(bar, at) / 100
		if lastHit || at == b.Start && touch != feel.Strong && !t.heard[bar].accents {
			place += in.First
		}
		v = (v + level) * int64(place) / 100
		v += min(phrase, max(0, normalCeiling*fine-v)) // no phrase goes over the ceiling
	}
	if n.Voice == score.Left {
		v -= leftUnder * fine
	}
	return t.softened(v, bar, part, b.Length) + chance
}

// three are the beats of a bar of three, in per cent: one is the strongest, three the lightest.
var three = [...]int{100, 97, 92}

// inBarOfThree reports whether the bar of a note has three beats.
func (t *Playing) inBarOfThree(n *score.Note) bool {
	return len(t.BeatStarts(t.BarAt(n.At))) == len(three)
}

// inThree is how loud a beat of a bar of three is, in per cent; 100 in other bars.
func (t *Playing) inThree(bar int, at int64) int {
	beats := t.BeatStarts(bar)
	if len(beats) != len(three) {
		return 100
	}
	beat := 0
	for beat+1 < len(beats) && at-t.Pass.Bars[bar].Start >= beats[beat+1] {
		beat++
	}
	return three[beat]
}

// noise is how one stroke differs from the next by chance. Chance moves the keys of a chord
// together, and hardly apart. In a bar of three it moves the chords together, too, so that
// three stays under two. It is the same in the first bars of every pass of a section.
func (t *Playing) noise(n *score.Note, lane *lane, spread int64) int64 {
	if t.loose == 0 {
		return 0
	}
	at, bar, from := n.At, t.BarAt(n.At), lane.touch
	if bar < openBars {
		from = lane.opening
	}
	if t.who.Chords() && at >= 0 && t.inBarOfThree(n) {
		at = t.Pass.Bars[bar].Start
	}
	c := from.At(at)
	v := c.Bell() * spread
	if !n.Voice.OnKit() {
		v += c.At(int64(n.Key)).Bell() * spread / 8
	}
	return t.scaled(v)
}

// meant is where a note stands in the bar, as a bar and a tick, and the level there. A pushed
// note is as strong as the beat that it takes the place of.
func (t *Playing) meant(n *score.Note) (bar int, at, level int64) {
	at = n.At
	if n.Art.Has(score.Pushed) && n.Cue >= 0 {
		at = t.Cues.List[n.Cue].Target
	}
	if at >= t.Pass.Length {
		last := len(t.Pass.Bars) - 1
		return last, t.Pass.Bars[last].Start, t.levels.out
	}
	bar = t.BarAt(at)
	b := &t.Pass.Bars[bar]
	return bar, at, t.levels.bars[bar].at(min(max(0, at-b.Start), b.Length), b.Length)
}
