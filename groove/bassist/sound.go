package bassist

import (
	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// acoustic is the word for an acoustic bass in song files and groove files.
const acoustic = "acoustic"

// AcousticProgram is General MIDI's Acoustic Bass, counted from 0.
const AcousticProgram = 32

// Acoustic reports whether the song is played on an acoustic bass: the song file says so, or
// else the feel of the first pass that has a bass.
func Acoustic(tl *timeline.Timeline, set *feel.Set) bool {
	if tl.Bass.Sound != "" {
		return tl.Bass.Sound == acoustic
	}
	for i := range tl.Passes {
		pass := &tl.Passes[i]
		for bar := range pass.Bars {
			if f := set.Feels[pass.FeelAt(bar)]; f != nil && !pass.TacetAt(bar).Has(timeline.Bass) {
				return f.BassSound == acoustic
			}
		}
	}
	return false
}

// letsGo reports whether walking notes are let go a little early in a bar, as on an acoustic
// bass.
func (b *Bassist) letsGo(bar int) bool {
	if sound := b.Song.BandAt(b.Pass, bar).Bass.Sound; sound != "" {
		return sound == acoustic
	}
	return b.FeelIn(bar).BassSound == acoustic
}
