package songtest

import "slices"

// LeastMotion is the least total motion in semitones between two sets of pitch classes
// (0 to 11), each note of both taking part in at least one pair: a note may be doubled.
// Each motion is the short way round the octave, the taxicab metric of Tymoczko, "The
// Geometry of Musical Chords", Science 313 (2006).
func LeastMotion(a, b []int) int {
	a, b = distinct(a), distinct(b)
	if len(a) < len(b) {
		a, b = b, a
	}
	// Each note of the larger set goes to one of the smaller; best holds the least cost
	// for every set of notes reached so far.
	best := map[int]int{0: 0}
	for _, from := range a {
		next := map[int]int{}
		for reached, cost := range best {
			for j, to := range b {
				with, c := reached|1<<j, cost+step(from, to)
				if old, ok := next[with]; !ok || c < old {
					next[with] = c
				}
			}
		}
		best = next
	}
	const far = 1 << 20
	least := far
	for reached, cost := range best {
		for j, to := range b {
			if reached&(1<<j) == 0 { // a note not reached takes its nearest
				near := far
				for _, from := range a {
					near = min(near, step(from, to))
				}
				cost += near
			}
		}
		least = min(least, cost)
	}
	return least
}

func distinct(pcs []int) []int {
	pcs = slices.Clone(pcs)
	slices.Sort(pcs)
	return slices.Compact(pcs)
}

// step is the way between two pitch classes, 0 to 6.
func step(a, b int) int {
	d := max(a-b, b-a)
	return min(d, 12-d)
}
