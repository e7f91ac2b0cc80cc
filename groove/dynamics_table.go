package groove

import "plinth/groove/feel"

// Figures that touch is calibrated against. "Drummers" are the straight 4/4
// performances of the Groove MIDI Dataset (Google Magenta, CC BY 4.0); their kit
// clips at 127 and they play out, so that the bed takes their proportions and
// stays under their level.

// touchLevels are MIDI velocities at energy 3 for a ghost, a soft, a normal and a
// strong stroke.
type touchLevels [4]int

// levels by instrument. Drummers' medians: cross-stick 64 (5 to 95 %: 25 to 89),
// backbeat snare 118 to 122, snare hits under 45 are ghosts (a third in rock), kick
// on 1 and 3 75 on average, closed hat on the beat 87, ride on the beat 82, pedal
// hat 67, toms 75 to 98, crash 88. Bass and piano lie so that the piano stays under
// the 82 which is the median of 870 pop accompaniments (POP909): it is a bed.
var levels = [numKinds]touchLevels{
	kindKick:  {28, 54, 74, 88},
	kindSnare: {30, 58, 88, 100},
	kindStick: {28, 48, 64, 78},
	kindHat:   {28, 50, 72, 88},
	kindPedal: {30, 48, 60, 72},
	kindOpen:  {40, 58, 76, 92},
	kindRide:  {28, 48, 68, 84},
	kindTom:   {36, 62, 84, 102},
	kindCrash: {44, 66, 86, 104},
	kindBass:  {30, 60, 74, 88},
	kindPiano: {28, 50, 62, 76},
}

// of is the velocity of a touch at energy 3.
func (t touchLevels) of(touch feel.Touch) int {
	switch touch {
	case feel.Ghost:
		return t[0]
	case feel.Soft:
		return t[1]
	case feel.Strong:
		return t[3]
	}
	return t[2]
}

// places are per cents of the level on a beat, half-way between beats, and
// elsewhere. Drummers' closed hat: 87 on the beat, 68 on the "and", 49 to 55 on
// "e" and "a"; ride 82 and 68; kick 75 on 1 and 3, 61 elsewhere. A snare's weight
// is in its touch, not in its place.
var places = [numKinds][3]int{
	kindKick:  {100, 90, 84},
	kindSnare: {100, 100, 97},
	kindStick: {100, 96, 92},
	kindHat:   {100, 78, 64},
	kindPedal: {100, 92, 88},
	kindOpen:  {100, 100, 92},
	kindRide:  {100, 83, 76},
	kindTom:   {100, 97, 94},
	kindCrash: {100, 100, 100},
	kindBass:  {100, 94, 90},
	kindPiano: {100, 94, 90},
}

// touchSpread is the standard deviation of velocity at looseness 0.4: a third of
// what the drummers show within one place of the bar (snare 21, closed hat 18,
// ride 16, kick 12, cross-stick 11), since a bed has no accents of its own to make.
var touchSpread = [numKinds]int64{
	kindKick: 4, kindSnare: 6, kindStick: 4, kindHat: 5, kindPedal: 4, kindOpen: 4,
	kindRide: 5, kindTom: 5, kindCrash: 4, kindBass: 4, kindPiano: 4,
}

const (
	ghostCeiling  = 44  // drummers' strokes under 45 count as ghosts
	normalCeiling = 114 // nothing but an accent is louder
	accentOver    = 4   // an accent of weight 1 is this much over all else in its bar
	accentStep    = 5   // and each weight more adds this
	fillSwell     = 18  // drummers' fills: the last third is 18 louder than the first
)
