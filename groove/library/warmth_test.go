package library

import (
	"slices"
	"testing"

	"plinth/groove/feel"
)

// TestSlowChorusRocks: at energy 4 a slow song's comp does not come down with the
// whole chord on every beat: that marches, and leaves energy 5 nothing to add. The
// hands take turns (common practice, no single source).
func TestSlowChorusRocks(t *testing.T) {
	for _, name := range []string{"ballad-eighths", "ballad-sixteenths", "slow-twelve", "gospel-six"} {
		f := Builtin().Feels[name]
		lv := &f.Levels[3]
		for _, fig := range slices.Concat(lv.Comp, lv.Answered().Comp) {
			comp := fig.Right
			m, grid := f.Layout()
			step := int(m.BarTicks() / int64(grid))
			blocks, parts := 0, 0
			for _, at := range m.Beats() {
				if s := comp[int(at)/step]; s.Touch > feel.Sound && s.Part == 'c' && fig.Left == nil {
					blocks++
				}
			}
			for i, s := range comp[:grid] {
				if s.Touch > feel.Sound && s.Part != 'c' || fig.Left != nil && fig.Left[i].Touch > feel.Sound {
					parts++
				}
			}
			if n := len(m.Beats()); n > 2 && (blocks == n || parts == 0) {
				t.Errorf("%s: the whole chord on %d of %d beats, %d strokes of one hand", name, blocks, n, parts)
			}
		}
	}
}

// TestVerseBassRests: in the verse of the plain ballad, energy 2, the bass says where
// the chord is and no more: it is struck with the kick and nowhere else (common
// practice, no single source).
func TestVerseBassRests(t *testing.T) {
	lv := &Builtin().Feels["ballad-eighths"].Levels[1]
	kick := rowOf(lv, []string{"kick"})
	for i, s := range lv.Bass {
		if s.Touch > feel.Sound && kick[i] <= feel.Sound {
			t.Errorf("the bass moves at step %d, where no kick is", i)
		}
	}
}

// TestSustainGrows: sustain has no more strokes to add, so that each energy takes
// more voices or a firmer touch than the one below it.
func TestSustainGrows(t *testing.T) {
	f := Builtin().Feels["sustain"]
	for i := 1; i < 5; i++ {
		low, high := &f.Levels[i-1], &f.Levels[i]
		if high.Voices <= low.Voices && high.Comp[0].Right[0].Touch <= low.Comp[0].Right[0].Touch {
			t.Errorf("energy %d is struck as energy %d is: %d voices, touch %d", i+1, i, high.Voices,
				high.Comp[0].Right[0].Touch)
		}
	}
}

// TestCompoundFillsFlow: fills for dotted beats are in the eighths that the beat is
// made of. One full fill of each length may end in a pair of sixteenths; even
// sixteenths across a dotted beat are another meter's fill (common practice, no single
// source).
func TestCompoundFillsFlow(t *testing.T) {
	pairs := map[int]int{}
	for _, f := range LoadFills("compound") {
		if f.Grid%3 != 0 {
			t.Fatalf("%q: %d steps a beat", f.Name, f.Grid)
		}
		eighth, steps := f.Grid/3, f.Beats*f.Grid
		for i := 0; i < steps; i++ {
			for _, r := range f.Rows {
				if r.Steps[i].Touch <= feel.Sound || i%eighth == 0 {
					continue
				}
				if i != steps-1 || f.Suits(3) {
					t.Errorf("%q: step %d is off the eighths", f.Name, i)
				}
				pairs[f.Beats]++
			}
		}
	}
	for beats, n := range pairs {
		if n > 1 {
			t.Errorf("%d fills of %d beats end in a pair", n, beats)
		}
	}
}
