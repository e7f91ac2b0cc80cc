package library

import (
	"math/bits"
	"testing"

	"plinth/groove/feel"
)

// The figures of the comp that a level deals out. Where no source is named the bounds are
// common practice or judgement.

// ballads are the slow songs, in which the comp breaks its chords.
var ballads = []string{"ballad-eighths", "ballad-sixteenths", "brushes-ballad", "slow-twelve", "gospel-six"}

// places are the steps of a figure's first bar at which a hand strikes.
func places(f *feel.Feel, fig *feel.Figure) uint64 {
	var out uint64
	_, grid := f.Layout()
	for i := range grid {
		if fig.Strikes(f.Index(0, i)) {
			out |= 1 << i
		}
	}
	return out
}

// overlap is the share of their places that two figures have in common, in per cent.
func overlap(a, b uint64) int {
	if a|b == 0 {
		return 100
	}
	return 100 * bits.OnesCount64(a&b) / bits.OnesCount64(a|b)
}

func meanOf(list []int) int {
	sum := 0
	for _, n := range list {
		sum += n
	}
	return sum / max(1, len(list))
}

// listed are the levels from energy 2 up that deal figures out. At 1 the comp only holds.
func listed(t *testing.T, check func(t *testing.T, f *feel.Feel, lv *feel.Level)) {
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		if len(lv.Comp) > 1 && lv.Energy > 1 {
			check(t, f, lv)
		}
	})
}

// TestEveryLevelHasFigures: from energy 2 up a level has four figures and a close at least. Two
// feels of any meter only hold, or only beat time.
func TestEveryLevelHasFigures(t *testing.T) {
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		if n := len(lv.Comp); lv.Energy > 1 && n < 5 && len(f.Meters) > 0 {
			t.Errorf("%d figures", n)
		}
	})
}

// TestFiguresAreOfOneMind: figures of a level share most of their places, so that each bar is
// heard as the one before it; none is the same as another; the close stands out. In people's
// playing a bar shares .72 of its places with the next (30 songs of POP909, from C3 up), and
// the eighth bar .10 less.
func TestFiguresAreOfOneMind(t *testing.T) {
	listed(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		n := len(lv.Comp)
		var pairs, last []int
		for i := range lv.Comp {
			for j := range i {
				a, b := places(f, &lv.Comp[i]), places(f, &lv.Comp[j])
				if i == n-1 {
					last = append(last, overlap(a, b))
				} else {
					pairs = append(pairs, overlap(a, b))
				}
				if figureText(&lv.Comp[i]) == figureText(&lv.Comp[j]) {
					t.Errorf("figures %d and %d are the same", j+1, i+1)
				}
			}
		}
		least := 60
		if f.Changes == feel.Ahead { // a comp that converses has fewer places of its own (judgement)
			least = 50
		}
		if m := meanOf(pairs); m < least || m > 90 {
			t.Errorf("two figures share %d %% of their places, want %d to 90", m, least)
		}
		if m := meanOf(pairs) - meanOf(last); m < 8 {
			t.Errorf("the close shares %d %% fewer places with the others than they do among themselves, want 8", m)
		}
	})
}

// figureText is a figure as it is written.
func figureText(fig *feel.Figure) string {
	out := signsOf(fig.Right, compSign)
	if fig.Left != nil {
		out += "/" + signsOf(fig.Left, compSign)
	}
	return out
}

// TestFiguresKeepTheirDensity: no figure but the close has fewer than two thirds of its
// level's attacks or more than half again as many, and the close has no more than most.
func TestFiguresKeepTheirDensity(t *testing.T) {
	listed(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		var each []int
		for i := range lv.Comp[:len(lv.Comp)-1] {
			each = append(each, strikesPerBar(f, &lv.Comp[i]))
		}
		m := meanOf(each)
		for i, n := range each {
			if n*3 < m*2-1000 || n*2 > m*3+1000 {
				t.Errorf("figure %d has %d attacks in a thousand bars, the others %d", i+1, n, m)
			}
		}
		if last := strikesPerBar(f, &lv.Comp[len(lv.Comp)-1]); last > m {
			t.Errorf("the close has %d attacks in a thousand bars, the others %d", last, m)
		}
	})
}

// TestBalladsBreakTheirChords: the share of attacks of one note, in per cent, by energy.
// People's is 42 to 97 in 30 songs of POP909, playing alone.
func TestBalladsBreakTheirChords(t *testing.T) {
	bounds := [5][2]int{{0, 100}, {35, 75}, {30, 70}, {15, 50}, {5, 35}}
	for _, name := range ballads {
		f := Builtin().Feels[name]
		for e := 1; e < 5; e++ {
			lv := &f.Levels[e]
			all, single := 0, 0
			for i := range lv.Comp {
				fig := &lv.Comp[i]
				for k := range fig.Right {
					if !fig.Strikes(k) {
						continue
					}
					all++
					right, left := byte(0), byte(0)
					if fig.Right[k].Touch > feel.Sound {
						right = fig.Right[k].Part
					}
					if fig.Left != nil && fig.Left[k].Touch > feel.Sound {
						left = fig.Left[k].Part
					}
					if oneVoice(right) && left == 0 || oneVoice(left) && right == 0 {
						single++
					}
				}
			}
			if share := 100 * single / max(1, all); share < bounds[e][0] || share > bounds[e][1] {
				t.Errorf("%s at %d: %d %% of the attacks are of one note, want %v", name, e+1, share, bounds[e])
			}
		}
	}
}

// oneVoice reports whether a part of a figure is one voice.
func oneVoice(part byte) bool {
	return part >= '1' && part <= '5' || part == 'm' || part == 'o'
}
