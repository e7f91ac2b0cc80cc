package timeline_test

import (
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

func formOf(names string) []timeline.Pass {
	var passes []timeline.Pass
	count := map[string]int{}
	for _, n := range strings.Fields(names) {
		passes = append(passes, timeline.Pass{Section: n, Ordinal: count[n]})
		count[n]++
	}
	return passes
}

// Of two passes in a row the hands play other fills, and of four in a row none has the
// variant of another.
func TestVaryFillsKeepsNeighboursApart(t *testing.T) {
	for take := 1; take <= 200; take++ {
		passes := formOf("intro verse chorus verse chorus solo verse chorus chorus tag tag tag")
		timeline.VaryFills(passes, "Lanterns", take)
		for i := range passes {
			for back := 1; back <= min(3, i); back++ {
				a, b := passes[i-back].FillVariant, passes[i].FillVariant
				if a == b || back == 1 && a%3 == b%3 {
					t.Fatalf("take %d: passes %d and %d have the variants %d and %d", take, i-back, i, a, b)
				}
			}
		}
	}
}

// Songs of the same form have other fills at the same place: every variant is dealt out
// there, none to more than a third of the titles.
func TestVaryFillsByTitle(t *testing.T) {
	count := map[int]int{}
	for song := range 120 {
		passes := formOf("intro verse chorus verse")
		timeline.VaryFills(passes, fmt.Sprint("Song ", song), 1)
		count[passes[2].FillVariant]++
	}
	for v := 1; v <= timeline.FillVariants; v++ {
		if count[v] == 0 || count[v] > 40 {
			t.Errorf("variant %d closes the chorus of %d songs in 120", v, count[v])
		}
	}
}
