package guide

import (
	"slices"

	"plinth/songspec/timeline"
)

// Register is how high a line lies, in MIDI note numbers: percentiles of its notes, each of
// which counts once. Quarter is the lower quartile; P5 to P95 is the range that it uses.
type Register struct {
	Notes             int // how many
	Low, P5, Quarter  int
	Median, P95, High int
}

// Percentile is the nearest-rank percentile of keys, which are sorted; p is 0 to 100. Without
// keys it is 0.
func Percentile(keys []int, p int) int {
	if len(keys) == 0 {
		return 0
	}
	rank := (p*len(keys) + 99) / 100
	return keys[min(max(rank, 1), len(keys))-1]
}

// RegisterOf is the register of keys in any order; the zero Register for none.
func RegisterOf(keys []int) Register {
	if len(keys) == 0 {
		return Register{}
	}
	s := slices.Sorted(slices.Values(keys))
	return Register{
		Notes: len(s), Low: s[0], P5: Percentile(s, 5), Quarter: Percentile(s, 25),
		Median: Percentile(s, 50), P95: Percentile(s, 95), High: s[len(s)-1],
	}
}

// SungRegister is the register of the sung notes that begin in a pass. ok is false if there
// are none or no vocal is given.
func SungRegister(p *timeline.Pass) (r Register, ok bool) {
	inPass := slices.DeleteFunc(slices.Clone(p.Sung), func(n timeline.SungNote) bool {
		return n.Tick < 0 || n.Tick >= p.Length
	})
	return RegisterOf(keysOf(inPass, sungKey)), len(inPass) > 0
}

// keysOf are the MIDI note numbers of notes.
func keysOf[N any](notes []N, key func(N) uint8) []int {
	keys := make([]int, len(notes))
	for i, n := range notes {
		keys[i] = int(key(n))
	}
	return keys
}

func sungKey(n timeline.SungNote) uint8 { return n.Key }
