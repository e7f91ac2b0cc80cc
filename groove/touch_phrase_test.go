package groove_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// At one place of the bar one instrument of the kit is struck with a standard deviation of
// 12 to 21 by people, and of 4.5 to 9 here, since the bed has no accents of its own to
// make. It moves as people's does: two fifths of the variance or more stay when four bars
// are taken together, where of noise a quarter would. Groove MIDI Dataset.
func TestKitMovesInPhrases(t *testing.T) {
	const bars = 16
	type place struct {
		key uint8
		at  int64
	}
	for energy := 2; energy <= 5; energy++ {
		var deviations, slow []float64
		for _, feel := range touchFeels {
			for take := 1; take <= 4; take++ {
				tl, perf := taken(t, feel, take, fmt.Sprintf("section \"a\" {\n chords = %q\n energy = %d\n}\n"+
					"section \"b\" {\n chords = \"| C | C |\"\n energy = %d\n}\n", fourChords(bars), energy, energy))
				places := map[place][]float64{}
				struck(perf, 0, timeline.Drums, func(v float64, n *score.Note) {
					if n.Group == 0 && !n.Art.Has(score.Grace) && n.At >= 0 {
						at := place{n.Key, n.At - tl.Passes[0].Bars[n.Bar].Start}
						places[at] = append(places[at], v)
					}
				})
				for _, x := range places {
					if len(x) < bars-1 {
						continue
					}
					var fours []float64
					for i := range x[3:] {
						fours = append(fours, meanOf(x[i:i+4]...))
					}
					deviations = append(deviations, math.Sqrt(variance(x)))
					slow = append(slow, variance(fours)/max(1, variance(x)))
				}
			}
		}
		d, s := median(deviations), meanOf(slow...)
		t.Logf("energy %d: %d places, deviation %.1f, slow share %.2f", energy, len(slow), d, s)
		if d < 4.5 || d > 9 || s < 0.4 || len(slow) < 100 {
			t.Errorf("energy %d: deviation %.1f, slow share %.2f of %d places", energy, d, s, len(slow))
		}
	}
}

// The phrase is meant and the rest is chance: with no looseness the passes of a section have
// the same dynamics, and other sections others; the phrase grows to its second half and
// eases at its end. With looseness no two passes are alike, and the phrase is still there.
func TestPassesShareTheirPhrase(t *testing.T) {
	set := groovetest.Set(nil)
	long := groovetest.Long(8, 3)
	other := long
	other.Name = "other"
	tl := groovetest.Song(t, long, long, other, groovetest.Section{Name: "end", Chords: "C|C", Energy: 3})
	of := func(pass int) []float64 { return barMeans(tl, groove.Perform(tl, set), pass, timeline.Bass) }
	a, c := of(0), of(2)
	if slices.Equal(a, c) {
		t.Errorf("two sections are alike: %.0f", a)
	}
	// What is struck varies from pass to pass. The last bar of the phrase leads to what follows.
	perf, alike := groove.Perform(tl, set), 0
	first := map[score.Note]float64{}
	struck(perf, 0, timeline.Bass, func(v float64, n *score.Note) { first[stroke(n)] = v })
	struck(perf, 1, timeline.Bass, func(v float64, n *score.Note) {
		if was, ok := first[stroke(n)]; ok && n.Bar < 7 {
			alike++
			if v != was {
				t.Errorf("at tick %d the passes have %.0f and %.0f", n.At, was, v)
			}
		}
	})
	if alike < 14 {
		t.Errorf("the passes share %d strokes: too few to show anything", alike)
	}
	if top := slices.Max(a[4:7]); top < a[0]+4 || a[7] > top-1 {
		t.Errorf("the phrase does not grow and ease: %.0f", a)
	}
	tl.Looseness = 400
	loose, again := of(0), of(1)
	if slices.Equal(loose, again) {
		t.Errorf("two passes are alike: %.0f", loose)
	}
}

// stroke is where and with what touch a note is struck.
func stroke(n *score.Note) score.Note { return score.Note{At: n.At, Touch: n.Touch} }

// Within eight bars the comp's attacks have a standard deviation of 4.5 to 12, as people's
// have. A quarter to two thirds of the variance is the place in the bar, and .06 to .30 is
// the bar. POP909: 78 windows of eight bars.
func TestCompMovesAsPeoples(t *testing.T) {
	for energy := 2; energy <= 5; energy++ {
		var deviations, byPlace, byBar []float64
		for _, feel := range []string{"backbeat-eighths", "ballad-eighths", "ballad-sixteenths"} {
			for take := 1; take <= 8; take++ {
				_, perf := taken(t, feel, take, fmt.Sprintf("section \"a\" {\n chords = %q\n energy = %d\n}\n"+
					"section \"b\" {\n chords = \"| C | C |\"\n energy = %d\n}\n", fourChords(8), energy, energy))
				attacks := map[[2]int64][]float64{}
				struck(perf, 0, timeline.Piano, func(v float64, n *score.Note) {
					at := [2]int64{int64(n.Bar), n.At % groovetest.Bar44}
					attacks[at] = append(attacks[at], v)
				})
				var all []float64
				bars, places := map[int64][]float64{}, map[int64][]float64{}
				for at, keys := range attacks {
					v := meanOf(keys...)
					all = append(all, v)
					bars[at[0]], places[at[1]] = append(bars[at[0]], v), append(places[at[1]], v)
				}
				deviations = append(deviations, math.Sqrt(variance(all)))
				byBar = append(byBar, between(bars, all))
				byPlace = append(byPlace, between(places, all))
			}
		}
		d, place, bar := median(deviations), median(byPlace), median(byBar)
		t.Logf("energy %d: deviation %.1f, by place %.2f, by bar %.2f", energy, d, place, bar)
		if d < 4.5 || d > 12 || place < 0.25 || place > 0.65 || bar > 0.30 || bar < 0.06 {
			t.Errorf("energy %d: deviation %.1f, by place %.2f, by bar %.2f", energy, d, place, bar)
		}
	}
}

// between is the share of the variance of all figures that is between groups of them.
func between(groups map[int64][]float64, all []float64) float64 {
	mean, sum := meanOf(all...), 0.0
	for _, x := range groups {
		sum += float64(len(x)) * (meanOf(x...) - mean) * (meanOf(x...) - mean)
	}
	return sum / float64(len(all)) / variance(all)
}
