package bassist

import (
	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// acoustic is the word for an acoustic bass in song files and groove files.
const acoustic = "acoustic"

// Acoustic reports whether the song is played on an acoustic bass: the song file says so, or
// else the feel of the first pass that has a bass.
func Acoustic(tl *timeline.Timeline, set *feel.Set) bool {
	if tl.Bass.Sound != "" {
		return tl.Bass.Sound == acoustic
	}
	for i := range tl.Passes {
		if f := set.Feels[tl.Passes[i].Feel]; f != nil && !tl.Passes[i].Tacet.Has(timeline.Bass) {
			return f.BassSound == acoustic
		}
	}
	return false
}

// letsGo reports whether walking notes are let go a little early, as on an acoustic bass.
func (b *Bassist) letsGo() bool {
	if b.Song.Bass.Sound != "" {
		return b.Song.Bass.Sound == acoustic
	}
	return b.Feel.BassSound == acoustic
}
