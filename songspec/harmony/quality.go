package harmony

// quality is the tones of a chord without its root's name: for each degree 1 to 13 the
// alterations in which it is there. Qualities can be compared with ==, and each has one
// canonical suffix.
type quality struct {
	deg [14]uint8
	alt bool // written "7alt": the player's choice of altered tones
}

// The bits of quality.deg: double flat, flat, natural and sharp, measured from
// the major scale on the root.
const (
	dflat uint8 = 1 << iota
	flat
	natural
	sharp
)

func (q *quality) has(degree int, bits uint8) bool { return q.deg[degree]&bits != 0 }

// degreeSemitones is a degree's distance from the root in the major scale,
// within an octave.
func degreeSemitones(degree int) int { return majorScale[(degree-1)%7] }

// all are the tones in the order of their degrees, each with its bit.
func (q *quality) all(yield func(t Tone, bit uint8) bool) {
	for d := 1; d <= 13; d++ {
		for bit, alter := dflat, -2; bit <= sharp; bit, alter = bit<<1, alter+1 {
			semitones := mod12(degreeSemitones(d) + alter)
			if q.has(d, bit) && !yield(Tone{int8(d), int8(alter), int8(semitones)}, bit) {
				return
			}
		}
	}
}

// merge keeps one degree for each pitch class, the lower one. The pairs b5 and #11, minor
// third and #9, second and ninth are each one key of the piano.
func (q *quality) merge() {
	var seen [12]bool
	for t, bit := range q.all {
		if seen[t.Semitones] {
			q.deg[t.Degree] &^= bit
		}
		seen[t.Semitones] = true
	}
}

// tones are the tones of the quality in the order of their degrees. n is how many there
// are, and more than MaxTones when they do not fit.
func (q *quality) tones() (out [MaxTones]Tone, n int) {
	for t := range q.all {
		if n < MaxTones {
			out[n] = t
		}
		n++
	}
	return out, n
}
