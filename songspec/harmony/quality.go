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

// merge keeps one degree for each pitch class, the lower one. The pairs b5 and #11, minor
// third and #9, second and ninth are each one key of the piano.
func (q *quality) merge() {
	var seen uint16
	for d := 1; d <= 13; d++ {
		for bit, alter := dflat, -2; bit <= sharp; bit, alter = bit<<1, alter+1 {
			if q.deg[d]&bit == 0 {
				continue
			}
			pc := uint16(1) << mod12(degreeSemitones(d)+alter)
			if seen&pc != 0 {
				q.deg[d] &^= bit
			}
			seen |= pc
		}
	}
}

// tones are the tones of the quality in the order of their degrees. n is how many there
// are, and more than MaxTones when they do not fit.
func (q *quality) tones() (out [MaxTones]Tone, n int) {
	for d := 1; d <= 13; d++ {
		for bit, alter := dflat, -2; bit <= sharp; bit, alter = bit<<1, alter+1 {
			if q.deg[d]&bit == 0 {
				continue
			}
			if n < MaxTones {
				out[n] = Tone{Degree: int8(d), Alter: int8(alter),
					Semitones: int8(mod12(degreeSemitones(d) + alter))}
			}
			n++
		}
	}
	return out, n
}
