package harmony

import "math/bits"

// The size of a voice leading is the sum of its voices' motions in semitones,
// each the short way round the octave: the taxicab metric of Tymoczko,
// "The Geometry of Musical Chords", Science 313 (2006).

// step is the way between two pitch classes, 0 to 6.
func step(a, b int) int {
	d := mod12(a - b)
	return min(d, 12-d)
}

// pcSet turns numbers into a set of pitch classes, ascending.
func pcSet(in []int) (out [12]int, n int) {
	var set uint16
	for _, p := range in {
		set |= 1 << mod12(p)
	}
	for ; set != 0; set &= set - 1 {
		out[n] = bits.TrailingZeros16(set)
		n++
	}
	return out, n
}

// Distance is the least total motion in semitones between two sets of pitch
// classes, every note of each taking part in at least one pair: a note may be
// doubled. Numbers are taken modulo 12 and once each; 0 when a set is empty.
func Distance(a, b []int) int {
	as, na := pcSet(a)
	bs, nb := pcSet(b)
	if na == 0 || nb == 0 {
		return 0
	}
	if nb > na {
		as, na, bs, nb = bs, nb, as, na
	}
	// Each note of the larger set goes to one of the smaller; best holds the
	// least cost for every set of notes reached so far.
	var best, next [1 << 12]int32
	const far = 1 << 20
	size := 1 << nb
	for m := 1; m < size; m++ {
		best[m] = far
	}
	for i := 0; i < na; i++ {
		for m := range next[:size] {
			next[m] = far
		}
		for m, cost := range best[:size] {
			if cost == far {
				continue
			}
			for j := 0; j < nb; j++ {
				to := m | 1<<j
				next[to] = min(next[to], cost+int32(step(as[i], bs[j])))
			}
		}
		best, next = next, best
	}
	// Notes not reached take their nearest.
	var near [12]int32
	for j := 0; j < nb; j++ {
		near[j] = far
		for i := 0; i < na; i++ {
			near[j] = min(near[j], int32(step(as[i], bs[j])))
		}
	}
	least := int32(far)
	for m, cost := range best[:size] {
		for j := 0; j < nb; j++ {
			if m&(1<<j) == 0 {
				cost += near[j]
			}
		}
		least = min(least, cost)
	}
	return int(least)
}

// DistanceOneToOne is the least total motion when every note of a goes to
// another note of b. ok is false when the sets are not of one size.
func DistanceOneToOne(a, b []int) (total int, ok bool) {
	as, na := pcSet(a)
	bs, nb := pcSet(b)
	if na != nb {
		return 0, false
	}
	const far = 1 << 20
	var best [1 << 12]int32
	for m := 1; m < 1<<nb; m++ {
		best[m] = far
		i := bits.OnesCount(uint(m)) - 1 // the note of a that goes last
		for j := 0; j < nb; j++ {
			if m&(1<<j) != 0 {
				best[m] = min(best[m], best[m&^(1<<j)]+int32(step(as[i], bs[j])))
			}
		}
	}
	return int(best[1<<nb-1]), true
}
