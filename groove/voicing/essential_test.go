package voicing

import "plinth/songspec/harmony"

// essential reports whether a tone makes the chord what it is: the third or what is
// suspended in its place, the seventh, the sixth, and every altered tone. Common
// practice, no single source.
func essential(c harmony.Chord, t harmony.Tone) bool {
	switch t.Degree {
	case 1:
		return false
	case 3, 6, 7:
		return true
	case 2, 4: // added beside a third, or suspended
		for _, other := range c.Tones() {
			if other.Degree == 3 {
				return false
			}
		}
		return true
	}
	return t.Alter != 0
}
