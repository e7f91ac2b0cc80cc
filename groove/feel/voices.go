package feel

import "slices"

// Voices is the kit by the words of groove files, top of the kit first: the
// order in which rows are kept and shown. Keys are those of the General MIDI
// Level 1 percussion map; the audible meaning of the three brush words is the
// exception:
//
//   - "tap", "slap" and "sweep" are keys 38, 39 and 40, which the brush kit of
//     GM2 and GS (program 41, wire value 40, on channel 10; from memory) plays as
//     tap, slap and swirl. A player that knows the General MIDI Level 1 kit alone
//     sounds them as acoustic snare, hand clap and electric snare. So our own
//     grooves use slap nowhere and sweep at ghost and soft strength only: there
//     they become very soft snare strokes on the beats.
//
// Which limb plays what is common practice, no single source.
var voices = [...]Voice{
	{"crash", 49, Hand},
	{"ride_bell", 53, Hand},
	{"ride", 51, Hand},
	{"hat_open", 46, Hand},
	{"hat", 42, Hand},
	{"tambourine", 54, Hand},
	{"maracas", 70, Hand},
	{"cabasa", 69, Hand},
	{"claves", 75, Hand},
	{"cowbell", 56, Hand},
	{"triangle", 81, Hand},
	{"clap", 39, Hand},
	{"tap", 38, Hand},
	{"slap", 39, Hand},
	{"sweep", 40, Hand},
	{"cross_stick", 37, Hand},
	{"snare", 38, Hand},
	{"tom_high", 50, Hand},
	{"tom_mid", 47, Hand},
	{"tom_low", 43, Hand},
	{"kick", 36, RightFoot},
	{"hat_foot", 44, LeftFoot},
}

// Voices returns a copy of the table of voices, top of the kit first.
func Voices() []Voice { return slices.Clone(voices[:]) }

// VoiceNamed looks a voice up by its word.
func VoiceNamed(word string) (Voice, bool) {
	i := VoiceOrder(word)
	if i < 0 {
		return Voice{}, false
	}
	return voices[i], true
}

// VoiceOrder is the voice's place in the table, from the top of the kit; -1
// when there is no such voice.
func VoiceOrder(word string) int {
	return slices.IndexFunc(voices[:], func(v Voice) bool { return v.Word == word })
}

// VoiceAt is the voice at a place in the table.
func VoiceAt(place int) Voice { return voices[place] }

// Brush reports whether only a kit with brushes has the voice.
func (v Voice) Brush() bool {
	return v.Word == "tap" || v.Word == "slap" || v.Word == "sweep"
}

// Backbeat reports whether the voice is the snare drum struck in one of its
// ways: what syncopation is measured on, together with the kick.
func (v Voice) Backbeat() bool {
	return v.Word == "snare" || v.Word == "cross_stick" || v.Word == "tap" || v.Word == "slap"
}

// HatFamily reports whether the voice is the hi-hat: one instrument, which can
// do only one thing at a time.
func (v Voice) HatFamily() bool {
	return v.Word == "hat" || v.Word == "hat_open" || v.Word == "hat_foot"
}
