package bassist

import (
	"slices"

	"plinth/songspec/harmony"
)

// scale is the notes of a key: which pitch classes it has, and the letters of each, as bits.
type scale [12]uint8

// scaleOf is the scale of a key; in minor the raised seventh is one of its notes.
func scaleOf(k harmony.Key) scale {
	semitones := [][2]int{{0, 0}, {1, 2}, {2, 4}, {3, 5}, {4, 7}, {5, 9}, {6, 11}}
	if k.Minor {
		semitones = [][2]int{{0, 0}, {1, 2}, {2, 3}, {3, 5}, {4, 7}, {5, 8}, {6, 10}, {6, 11}}
	}
	var out scale
	for _, s := range semitones {
		out[(k.Tonic.PC()+s[1])%12] |= 1 << ((int(k.Tonic.Step) + s[0]) % 7)
	}
	return out
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

// inScale reports whether a pitch class is in a key as its signature has it.
func inScale(k harmony.Key, pc int) bool {
	names := k.Scale()
	return slices.ContainsFunc(names[:], func(n harmony.Name) bool { return n.PC() == pc })
}
