package bassist

import (
	"slices"

	"plinth/groove/feel"
)

// style is what the bass of a feel is like.
type style struct {
	ballad     bool // the bass hardly leads at all
	alternates bool // it goes from root to fifth of its own
	keepsRow   bool // and its notes stay on their places
	semitones  bool // it leads by semitones, as in a bossa
}

// balladBPM: a feel is a ballad where the middle of its range of tempi, of the players' beat, is
// slower.
const balladBPM = 85

func styleOf(f *feel.Feel) style {
	s := style{ballad: (f.TempoLow+f.TempoHigh)*int(f.QuartersAsOne()) < 2*balladBPM, semitones: leadsBySemitones(f)}
	s.alternates = !s.ballad && slices.ContainsFunc(f.Levels[1].Bass, func(s feel.BassStep) bool {
		return s.Degree == '5'
	})
	inTwo := len(f.Meters) > 0 && f.Meters[0].Den == 2
	s.keepsRow = (s.alternates || inTwo) && keepsItsPlaces(f)
	return s
}

// keepsItsPlaces reports whether a feel's bass is a figure whose notes keep their places: on the beats
// with a fifth among them, or one that leads by semitones.
func keepsItsPlaces(f *feel.Feel) bool {
	row := f.Levels[2].Bass
	if len(f.Meters) == 0 || f.Meters[0].BarTicks() != 4*quarter || f.Grid%3 == 0 {
		return false
	}
	if leadsBySemitones(f) {
		return true
	}
	if !slices.ContainsFunc(row, func(s feel.BassStep) bool { return s.Degree == '5' }) {
		return false
	}
	for i, s := range row {
		if at := int64(i%f.Grid) * 4 * quarter / int64(f.Grid); s.Touch > feel.Sound && !isApproach(s.Degree) &&
			at%f.Meters[0].PlayedBeat() != 0 {
			return false
		}
	}
	return true
}

// leadsBySemitones reports whether a feel's bass leads by semitones, as in a bossa.
func leadsBySemitones(f *feel.Feel) bool {
	return slices.ContainsFunc(f.Levels[2].Bass, func(s feel.BassStep) bool { return s.Degree == 'c' })
}
