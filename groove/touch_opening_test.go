package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// A later pass of a section opens no softer than the first: what is struck alike in the first
// two bars is as loud, and later the means of bars are no more than a few velocities apart.
func TestLaterPassOpensAsTheFirst(t *testing.T) {
	for _, feel := range touchFeels {
		alike := 0
		for take := 1; take <= 4; take++ {
			tl, perf := taken(t, feel, take, fmt.Sprintf("section \"a\" {\n chords = %q\n energy = 4\n"+
				" fills = false\n}\nform {\n play \"a\" {}\n play \"a\" {}\n play \"a\" {}\n}\n", fourChords(8)))
			for _, who := range []timeline.Player{timeline.Drums, timeline.Bass} { // the piano's chords differ
				first := map[score.Note]float64{}
				stroke := func(n *score.Note) score.Note {
					return score.Note{At: n.At, Key: n.Key, Touch: n.Touch, Voice: n.Voice}
				}
				struck(perf, 0, who, func(v float64, n *score.Note) { first[stroke(n)] = v })
				struck(perf, 1, who, func(v float64, n *score.Note) {
					if was, ok := first[stroke(n)]; ok && n.Bar < 2 && n.Group == 0 {
						alike++
						if v < was-1 {
							t.Errorf("%s, take %d, %s at tick %d: %.0f, and %.0f in the first pass", feel, take, who,
								n.At, v, was)
						}
					}
				})
				a, b := barMeans(tl, perf, 0, who), barMeans(tl, perf, 1, who)
				if x, y := meanOf(a[:4]...), meanOf(b[:4]...); y < x-5 {
					t.Errorf("%s, take %d, %s: four bars at %.1f, and %.1f in the first pass", feel, take, who, y,
						x)
				}
			}
		}
		if alike < 100 {
			t.Errorf("%s: only %d strokes are alike", feel, alike)
		}
	}
}

// No section sags at its door: over the takes the first bar of a pass is no softer than the bar
// before it, of less energy. The bass strikes alike in both.
func TestSectionDoesNotBeginUnderTheBarBefore(t *testing.T) {
	const takes = 12
	for _, feel := range touchFeels {
		for from := 2; from <= 4; from++ {
			before, after := 0.0, 0.0
			for take := 1; take <= takes; take++ {
				tl, perf := taken(t, feel, take, fmt.Sprintf("section \"a\" {\n chords = %q\n energy = %d\n"+
					" fills = false\n}\nsection \"b\" {\n chords = %q\n energy = %d\n}\n", fourChords(8), from,
					fourChords(8), from+1))
				before += barMeans(tl, perf, 0, timeline.Bass)[7] / takes
				after += barMeans(tl, perf, 1, timeline.Bass)[0] / takes
			}
			if after < before {
				t.Errorf("%s, %d to %d: the first bar at %.1f after %.1f", feel, from, from+1, after, before)
			}
		}
	}
}

// In a bar of three the piano's third beat is lighter than its second, where both are struck
// with one touch.
func TestThreeIsTheLightest(t *testing.T) {
	seen := 0
	for energy := 2; energy <= 5; energy++ {
		for take := 1; take <= 4; take++ {
			_, perf := taken(t, "waltz", take, fmt.Sprintf("meter = \"3/4\"\nsection \"a\" {\n chords = %q\n"+
				" energy = %d\n}\nsection \"b\" {\n chords = \"| C | C |\"\n energy = %d\n}\n",
				fourChords(8), energy, energy))
			tops := map[int64]float64{}
			touches := map[int64]score.Note{}
			struck(perf, 0, timeline.Piano, func(v float64, n *score.Note) {
				if n.Voice == score.Right && n.Cue < 0 {
					tops[n.At], touches[n.At] = max(tops[n.At], v), *n
				}
			})
			for at, v := range tops {
				two, ok := tops[at-quarter]
				if at%(3*quarter) != 2*quarter || !ok || touches[at].Touch != touches[at-quarter].Touch {
					continue
				}
				seen++
				if v > two {
					t.Errorf("energy %d, take %d, bar %d: three at %.0f, two at %.0f", energy, take,
						touches[at].Bar+1, v,
						two)
				}
			}
		}
	}
	if seen < 30 {
		t.Errorf("only %d bars", seen)
	}
}

// The piano arrives at a chorus: over the takes its first chord is 6 to 11 over the other chords
// of the bar.
func TestPianoArrivesAtTheChorus(t *testing.T) {
	for _, feel := range []string{"backbeat-eighths", "ballad-eighths", "ballad-sixteenths"} {
		over, many := 0.0, 0.0
		for take := 1; take <= 12; take++ {
			_, perf := taken(t, feel, take, fmt.Sprintf("section \"a\" {\n chords = %q\n energy = 2\n}\n"+
				"section \"b\" {\n chords = %q\n energy = 4\n}\n", fourChords(8), fourChords(8)))
			tops, keys := map[int64]float64{}, map[int64]int{}
			struck(perf, 1, timeline.Piano, func(v float64, n *score.Note) {
				if n.Bar == 0 && n.Voice == score.Right {
					tops[n.At], keys[n.At] = max(tops[n.At], v), keys[n.At]+1
				}
			})
			for at, v := range tops {
				if at > 0 && keys[at] > 1 {
					over, many = over+tops[0]-v, many+1
				}
			}
		}
		if mean := over / many; many < 12 || mean < 6 || mean > 11 {
			t.Errorf("%s: the first chord is %.1f over the %.0f others", feel, mean, many)
		}
	}
}
