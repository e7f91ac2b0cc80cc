package nearsort

import (
	"math/rand"
	"sort"
	"testing"
)

// By gives what a stable sort gives, whatever the notes: in order already, a
// little out of order, in order bar by bar, or not at all.
func TestBy(t *testing.T) {
	type pair struct{ key, was int }
	r := rand.New(rand.NewSource(3))
	for _, shape := range []struct {
		name string
		key  func(i int) int
	}{
		{"in order", func(i int) int { return i }},
		{"jitter", func(i int) int { return i + r.Intn(5) }},
		{"backwards", func(i int) int { return -i }},
		{"row by row", func(i int) int { return i/40*40 + i%8 }},
		{"a few at the end", func(i int) int { return i % 290 }},
		{"at random, before 0 too", func(i int) int { return r.Intn(200) - 100 }},
		{"all alike", func(int) int { return 7 }},
	} {
		for n := 0; n < 400; n += 1 + n/3 {
			got := make([]pair, n)
			for i := range got {
				got[i] = pair{shape.key(i), i}
			}
			want := append([]pair(nil), got...)
			sort.SliceStable(want, func(i, j int) bool { return want[i].key < want[j].key })
			By(got, func(p *pair) int64 { return int64(p.key) })
			for i := range got {
				if got[i] != want[i] {
					t.Fatalf("%s, %d notes: at %d stands %v instead of %v", shape.name, n, i, got[i], want[i])
				}
			}
		}
	}
}
