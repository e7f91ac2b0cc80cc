package songspec

import (
	"math/bits"

	"plinth/songspec/harmony"
)

// keyMargin is how much better, in hundredths of their tones, the letters of a chart must fit
// another key before the key that stands there is doubted.
const keyMargin = 15

// doubtKey warns of a section's key where its letters are those of another key: of the section
// that it is like, or of the song. Who writes a key there may expect it to move the letters, as
// the key of a play does.
func (r *resolver) doubtKey(s *section) {
	if s.key == nil || s.chords == nil || s.loan != nil {
		return
	}
	other := or(r.f.key, harmony.Key{})
	if s.like != nil {
		if from := r.f.byName[s.like.v]; from != nil {
			if from.key == s.key {
				return // it is taken over, and doubted there
			}
			other = or(from.key, other)
		}
	}
	here, there := r.keyFit(s.chords, s.key.v), r.keyFit(s.chords, other)
	if there-here < keyMargin {
		return
	}
	r.rep.Warnf(s.key.rng, "A key that moves no letters",
		"The letters of section %q read as %s and stay as they are: a section's key is its signature, and the key of "+
			"its numerals. To move the section to %s, write key = %q in its play instead.",
		s.name, other, s.key.v, s.key.v)
}

// keyFit is how many in a hundred of the tones of a chart's letter symbols are in a key; 0 for a
// chart without letters.
func (r *resolver) keyFit(c *chart, key harmony.Key) int {
	in, all := 0, 0
	for _, w := range c.writtenChords() {
		chord, numeral, err := harmony.ParseEither(w.text, key)
		if err != nil || numeral || chord.None {
			continue
		}
		in += bits.OnesCount16(chord.PCSet() & key.PCSet())
		all += bits.OnesCount16(chord.PCSet())
	}
	return 100 * in / max(1, all)
}
