package library

import (
	"testing"

	"plinth/groove/feel"
)

// TestShowTwoStandsOnTheBeats: in cut time root and fifth stand on the two beats, and snare
// and chords keep off them; of the piano only the left hand is there
// (common practice, no single source).
func TestShowTwoStandsOnTheBeats(t *testing.T) {
	f := Builtin().Feels["show-two"]
	for i := range f.Levels {
		for _, lv := range []feel.Level{f.Levels[i], f.Levels[i].Answered()} {
			snare := rowOf(&lv, []string{"snare", "cross_stick"})
			for at := 0; at < len(lv.Bass); at += f.Grid / 2 {
				if lv.Bass[at].Touch <= feel.Sound {
					t.Errorf("energy %d: no bass at step %d", i+1, at)
				}
				if snare[at] > feel.Sound {
					t.Errorf("energy %d: the snare on the beat at step %d", i+1, at)
				}
				for _, fig := range lv.Comp {
					if s := fig.Right[at]; s.Touch > feel.Sound && i > 0 {
						t.Errorf("energy %d: the right hand on the beat at step %d", i+1, at)
					}
				}
			}
		}
	}
}

// TestBalladInTwoIsHeld: the slow two is legato, so that the bass has no rest at any energy, and up
// to energy 4 nothing moves quicker than quarters (common practice, no single source).
func TestBalladInTwoIsHeld(t *testing.T) {
	f := Builtin().Feels["ballad-in-two"]
	quarter := f.Grid / 4
	for i := range f.Levels {
		for _, lv := range []feel.Level{f.Levels[i], f.Levels[i].Answered()} {
			for at := range lv.Bass {
				if lv.Bass[at].Touch == feel.Rest {
					t.Errorf("energy %d: a rest at step %d", i+1, at)
				}
				moves := lv.Bass[at].Touch > feel.Sound
				for k := range lv.Comp {
					moves = moves || lv.Comp[k].Strikes(at)
				}
				if moves && at%quarter != 0 && i < 4 {
					t.Errorf("energy %d: a stroke between the quarters at step %d", i+1, at)
				}
			}
		}
	}
}
