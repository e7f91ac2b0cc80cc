package voicing

// lowLimits[i] is the lowest MIDI note under an interval of i semitones that
// still sounds clear, 0 where there is no limit. It is the strictest of the
// columns in testdata/reference/low_interval_limits.csv: Lindsay's "Jazz
// Arranging Techniques" as a general theory library passes it on, and a
// retailer's glossary. An octave and whatever is wider than a tenth have none.
var lowLimits = [...]int{
	0:  0,
	1:  52, // minor second, from E3
	2:  51, // major second, from Eb3
	3:  48, // minor third, from C3
	4:  47, // major third, from B2
	5:  46, // fourth, from Bb2
	6:  47, // tritone, from B2
	7:  37, // fifth, from C#2
	8:  43, // minor sixth, from G2
	9:  41, // major sixth, from F2
	10: 41, // minor seventh, from F2
	11: 41, // major seventh, from F2
	12: 0,
	13: 40, // minor ninth, from E2
	14: 39, // major ninth, from Eb2
	15: 36, // minor tenth, from C2
	16: 34, // major tenth, from Bb1
}

// Muddy reports whether two notes (MIDI numbers) stand under the limit of
// their interval.
func Muddy(a, b int) bool {
	if a > b {
		a, b = b, a
	}
	i := b - a
	return i < len(lowLimits) && a < lowLimits[i]
}
