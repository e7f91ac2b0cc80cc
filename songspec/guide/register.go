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

// Singing is what one singer has in a pass: the notes that begin there.
type Singing struct {
	Singer uint8 // which of the song's vocals
	Register
	Ticks int64 // how long the notes last, in all
}

// SungIn is what each singer has in a pass, in the order of the song's vocals, without those
// who begin no note in it.
func SungIn(p *timeline.Pass) (out []Singing) {
	var keys [timeline.MaxVocals][]int
	var ticks [timeline.MaxVocals]int64
	for _, n := range p.Sung {
		if n.Tick >= 0 && n.Tick < p.Length {
			keys[n.Singer] = append(keys[n.Singer], int(n.Key))
			ticks[n.Singer] += n.Length
		}
	}
	for i := range keys {
		if len(keys[i]) > 0 {
			out = append(out, Singing{uint8(i), RegisterOf(keys[i]), ticks[i]})
		}
	}
	return out
}

// Singers are the names of those who sing in a pass, in the order of the song's vocals.
func Singers(tl *timeline.Timeline, p *timeline.Pass) []string {
	names := []string{}
	for _, s := range SungIn(p) {
		names = append(names, tl.Vocals[s.Singer].Called())
	}
	return names
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
