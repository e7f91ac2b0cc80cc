// Package bassline knows what makes a line of bass notes, whoever plays it: in go a chord
// and MIDI numbers, out come its tones and what a step of the line costs. A bassist chooses
// his line by it, and a pianist who has no bassist.
package bassline

import "plinth/songspec/harmony"

// Costs of a line, in units of a third of a semitone of motion.
const (
	MotionCost = 3 // a semitone

	leapFrom     = 7 // semitones; beyond, a leap costs more
	leapCost     = 2 // a semitone beyond
	registerCost = 2 // a semitone outside the register
	homeCost     = 1 // a semitone from home
)

// MoveCost is the cost of going from one note to another.
func MoveCost(from, to int) int {
	d := max(to-from, from-to)
	return MotionCost*d + leapCost*max(0, d-leapFrom)
}

// OutsideCost is the cost of a note outside the register from low to high.
func OutsideCost(key, low, high int) int { return registerCost * (max(0, key-high) + max(0, low-key)) }

// HomeCost is the cost of beginning on a note where home is another.
func HomeCost(key, home int) int { return homeCost * max(key-home, home-key) }

// Tone is the pitch class of a chord's root, third, fifth or seventh. A suspended
// chord's fourth or second stands for its third; a sixth for its seventh.
func Tone(c *harmony.Chord, degree byte) (int, bool) {
	var wanted []int8
	switch degree {
	case '1':
		return c.Root.PC(), !c.None
	case '3':
		wanted = thirds[:]
	case '5':
		wanted = fifths[:]
	case '7':
		wanted = sevenths[:]
	}
	for _, d := range wanted {
		for i := range c.ToneCount() {
			if t := c.Tone(i); t.Degree == d {
				return (c.Root.PC() + int(t.Semitones)) % 12, true
			}
		}
	}
	return 0, false
}

// What may stand for a degree, the best first.
var (
	thirds   = [...]int8{3, 4, 2}
	fifths   = [...]int8{5}
	sevenths = [...]int8{7, 6}
)

// HasTone reports whether a pitch class is a tone of the chord.
func HasTone(c *harmony.Chord, pc int) bool { return c.PCSet()&(1<<pc) != 0 }
