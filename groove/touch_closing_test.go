package groove_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// The chord on which the song comes to rest is quieter than the two bars before it, of which
// one may be silent, for each player, at every energy.
func TestLastChordIsQuieter(t *testing.T) {
	for _, feel := range touchFeels {
		for energy := 1; energy <= 5; energy++ {
			for take := 1; take <= 3; take++ {
				tl, perf := taken(t, feel, take, fmt.Sprintf("section \"a\" {\n chords = \"%s C |\"\n energy = %d\n}\n",
					fourChords(8), energy))
				for who := range timeline.Player(len(timeline.PlayerNames)) {
					var before, last []float64
					struck(perf, 0, who, func(v float64, n *score.Note) {
						switch bar := tl.Passes[0].BarAt(n.At); {
						case bar == 8:
							last = append(last, v)
						case bar >= 6:
							before = append(before, v)
						}
					})
					if len(before) > 0 && meanOf(last...) >= meanOf(before...) {
						t.Errorf("%s at %d, %s: the last chord at %.0f after %.0f", feel, energy, who, last, before)
					}
				}
			}
		}
	}
}

// Through a rit everybody softens, bar by bar, by 12 velocities at most. A tempo that
// quickens softens nothing, nor does a rit that broadens: before a louder section, while the
// energy rises, or before a last hit.
func TestRitSoftens(t *testing.T) {
	const next = "section \"b\" {\n chords = \"| C | C |\"\n energy = %d\n}\n"
	same, louder := fmt.Sprintf(next, 3), fmt.Sprintf(next, 4)
	for _, row := range []struct {
		name, energy, rit, more string
		softens                 bool
	}{
		{"a rit", "3", `rit "5-8" { to = 60 }`, same, true},
		{"at the end of the song", "3", `rit "5-8" { to = 60 }`, "", true},
		{"an accelerando", "3", `rit "5-8" { to = 150 }`, same, false},
		{"into a louder section", "3", `rit "5-8" { to = 60 }`, louder, false},
		{"while the energy rises", "[3, 4]", `rit "5-8" { to = 60 }`, louder, false},
		{"before a last hit", "5", "stop \"8: 2\" {}\n rit \"5-8\" { to = 60 }", "", false},
	} {
		played := func(rit string) (out [][]float64) {
			tl, perf := taken(t, "backbeat-eighths", 1, fmt.Sprintf("looseness = 0\nsection \"a\" {\n chords = %q\n"+
				" energy = %s\n fills = false\n %s\n}\n%s", fourChords(8), row.energy, rit, row.more))
			for who := range timeline.Player(len(timeline.PlayerNames)) {
				out = append(out, barMeans(tl, perf, 0, who))
			}
			return out
		}
		without := ""
		if row.name == "before a last hit" {
			without = `stop "8: 2" {}`
		}
		plain, slowed := played(without), played(row.rit)
		for who := range slowed {
			if timeline.Player(who) == timeline.Drums {
				continue // in a rit the drummer leaves strokes out
			}
			down := 0.0
			for bar := 4; bar < 7; bar++ {
				d := plain[who][bar] - slowed[who][bar]
				if row.softens && (d <= down || d > 12) || !row.softens && math.Abs(d) > 0.5 {
					t.Errorf("%s, %s: bar %d is %.1f softer than without", row.name, timeline.Player(who), bar+1, d)
				}
				down = d
			}
		}
	}
}

// A rit softens from the tempo that bars set, and where bars set the tempo anew, or an accel leads
// back, nobody is softer any more.
func TestRitSoftensFromTheTempoThatBarsSet(t *testing.T) {
	const back = "bars \"7-\" { tempo = \"a tempo\" }"
	for _, row := range []struct {
		name, plain, lines string
		soft, loud         []int // bars that are softer than in plain, and bars that are as loud
	}{
		{"a tempo behind a rit", back, "rit \"3-6\" { to = 60 }\n" + back, []int{4, 5, 6}, []int{1, 2, 7, 8}},
		{"a rit from a tempo that bars set", "bars \"1-\" { tempo = 180 }",
			"bars \"1-\" { tempo = 180 }\n rit \"5-8\" { to = 130 }", []int{6, 7}, []int{1, 4}},
		{"an accel from a tempo that bars set", "bars \"1-\" { tempo = 60 }",
			"bars \"1-\" { tempo = 60 }\n accel \"5-8\" { to = 90 }", nil, []int{5, 6, 7, 8}},
		{"an accel behind a rit", "", "rit \"2-3\" { to = 60 }\n accel \"5-6\" { to = 120 }", []int{3, 4, 5},
			[]int{1, 7}},
	} {
		played := func(lines string) (out [][]float64) {
			tl, perf := taken(t, "backbeat-eighths", 1, fmt.Sprintf("looseness = 0\nsection \"a\" {\n chords = %q\n"+
				" energy = 3\n fills = false\n %s\n}\nsection \"b\" {\n chords = \"| C | C |\"\n energy = 3\n}\n",
				fourChords(8), lines))
			for who := range timeline.Player(len(timeline.PlayerNames)) {
				out = append(out, barMeans(tl, perf, 0, who))
			}
			return out
		}
		plain, slowed := played(row.plain), played(row.lines)
		for _, who := range []timeline.Player{timeline.Bass, timeline.Piano} { // the drummer leaves out strokes
			down := func(bar int) float64 { return plain[who][bar-1] - slowed[who][bar-1] }
			for _, bar := range row.soft {
				if down(bar) < 1 {
					t.Errorf("%s, %s: bar %d is %.1f softer", row.name, who, bar, down(bar))
				}
			}
			for _, bar := range row.loud {
				if math.Abs(down(bar)) > 0.5 {
					t.Errorf("%s, %s: bar %d is %.1f softer", row.name, who, bar, down(bar))
				}
			}
		}
	}
}

// The pianist's left hand is a little softer than the right where both strike, and never
// louder.
func TestLeftHandIsUnderTheRight(t *testing.T) {
	under, ticks := 0.0, 0.0
	for energy := 1; energy <= 5; energy++ {
		for take := 1; take <= 4; take++ {
			_, perf := taken(t, "ballad-eighths", take, fmt.Sprintf("section \"a\" {\n chords = %q\n energy = %d\n"+
				" tacet = [\"bass\"]\n accent \"3: 2 4\" {}\n}\nsection \"b\" {\n chords = \"| C | C |\"\n}\n",
				fourChords(8), energy))
			left, right := map[int64]float64{}, map[int64]float64{}
			struck(perf, 0, timeline.Piano, func(v float64, n *score.Note) {
				if n.Voice == score.Left {
					left[n.At] = max(left[n.At], v)
				} else if r, ok := right[n.At]; !ok || v < r {
					right[n.At] = v
				}
			})
			for at, l := range left {
				r, both := right[at]
				if !both {
					continue
				}
				if l > r {
					t.Errorf("energy %d, tick %d: the left hand at %.0f, the right at %.0f", energy, at, l, r)
				}
				under, ticks = under+r-l, ticks+1
			}
		}
	}
	if ticks < 50 || under/ticks < 2 || under/ticks > 6 {
		t.Errorf("the left hand is %.1f softer, at %.0f places", under/ticks, ticks)
	}
}

// A chord is voiced to its top: from below, no note of a hand is louder than the next, and each
// is about one softer, whatever chance does to the chord. At energy 1 there are hardly any.
func TestChordIsVoicedToItsTop(t *testing.T) {
	for energy := 2; energy <= 5; energy++ {
		_, perf := taken(t, "ballad-eighths", 1, fmt.Sprintf("looseness = 1\nsection \"a\" {\n chords = %q\n"+
			" energy = %d\n accent \"3: 2 4\" {}\n}\nsection \"b\" {\n chords = \"| C | C |\"\n}\n",
			fourChords(16), energy))
		type hand struct {
			at    int64
			voice score.Voice
		}
		chords := map[hand]map[uint8]float64{}
		struck(perf, 0, timeline.Piano, func(v float64, n *score.Note) {
			h := hand{n.At, n.Voice}
			if chords[h] == nil {
				chords[h] = map[uint8]float64{}
			}
			chords[h][n.Key] = v
		})
		steps, pairs := 0.0, 0.0
		for h, chord := range chords {
			keys := slices.Sorted(maps.Keys(chord))
			for i := 1; i < len(keys); i++ {
				step := chord[keys[i]] - chord[keys[i-1]]
				if step < 0 || step > 4 {
					t.Errorf("energy %d, tick %d: %v", energy, h.at, chord)
				}
				steps, pairs = steps+step, pairs+1
			}
		}
		if pairs < 15 || steps/pairs < 0.6 || steps/pairs > 1.6 {
			t.Errorf("energy %d: a voice is %.2f softer than the next, of %.0f", energy, steps/pairs, pairs)
		}
	}
}
