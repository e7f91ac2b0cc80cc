package touch

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
)

// Instrument is how an instrument responds to the hand and strays in time. A drummer has
// many, other players have one.
type Instrument struct {
	Levels Levels
	// Places say how loud it is on a beat, half-way between beats, and elsewhere, in per cent
	// of the level.
	Places [3]int
	// First is how much louder than another beat a bar's first is, in per cent of the level,
	// where the touch does not say so already.
	First int
	// Arch is how far the arch of a phrase takes it over its level, about. Sway and
	// Spread are the standard deviations of its velocity at looseness 0.4: over bars, as it
	// sways slowly, and from stroke to stroke.
	Arch, Sway, Spread int64
	// Phrased is how much of Arch and Sway there is at an energy, in per cent; nil: all of it.
	Phrased *plan.ByEnergy[int64]
	// Slow and Quick are how far it strays from the band's drift, in microseconds of
	// standard deviation at looseness 0.4: from beat to beat, and from stroke to stroke.
	Slow, Quick int64
	// Lift is added to the velocity by energy; nil: plan.BandLift.
	Lift *plan.ByEnergy[int]
	// SwingsLess: where the feel swings it comes late on the beats, see delay.
	SwingsLess bool
}

// Levels are MIDI velocities at energy 3 for a ghost, a soft, a normal and a strong
// stroke.
type Levels [4]int

// Of is the velocity of a touch at energy 3.
func (l Levels) Of(touch feel.Touch) int { return l[touch-feel.Ghost] }

// lift is what each energy adds to the velocities of the instrument.
func (i *Instrument) lift() *plan.ByEnergy[int] {
	if i.Lift != nil {
		return i.Lift
	}
	return &plan.BandLift
}
