package bassist

import "plinth/songspec/harmony"

// scale is the notes of a key: which pitch classes it has, and the letters of each, as bits.
type scale [12]uint8

// scaleOf is the scale of a key; in minor the raised seventh is one of its notes.
func scaleOf(k harmony.Key) scale {
	var out scale
	add := func(n harmony.Name) { out[n.PC()] |= 1 << n.Step }
	for _, n := range k.Scale() {
		add(n)
	}
	add(k.LeadingTone())
	return out
}

// keyOf is the key that a note is in: where a push brings a chord early, the chord's.
func (b *Bassist) keyOf(n *bassNote) harmony.Key {
	return b.Pass.KeyAt(max(n.tick, b.changes[n.change].Nominal))
}

// scaleFor is the scale of the key that a note is in.
func (b *Bassist) scaleFor(n *bassNote) *scale {
	if k := b.keyOf(n); k != b.keyNow {
		b.keyNow, b.scaleNow = k, scaleOf(k)
	}
	return &b.scaleNow
}

// has reports whether a pitch class is in the key.
func (s *scale) has(pc int) bool { return s[pc] != 0 }

// clashes reports whether the note of the key is on the letter of a tone of the chord and not
// that tone: G under G#dim7.
func (s *scale) clashes(c *harmony.Chord, pc int) bool {
	for i := range c.ToneCount() {
		t := c.Tone(i)
		letter := (int(c.Root.Step) + int(t.Degree) - 1) % 7
		if s[pc]&(1<<letter) != 0 && (c.Root.PC()+int(t.Semitones))%12 != pc {
			return true
		}
	}
	return false
}
