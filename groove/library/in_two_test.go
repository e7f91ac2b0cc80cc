package library

import (
	"testing"

	"plinth/groove/feel"
)

// TestShowTwoStandsOnTheBeats: in cut time root and fifth stand on the two beats, and snare
// and chords keep off them; only the last chorus has the piano's left hand there, too
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
				if s := lv.Comp[at]; s.Touch > feel.Sound && i > 0 && s.Part != 'l' {
					t.Errorf("energy %d: the whole chord on the beat at step %d", i+1, at)
				}
			}
		}
	}
}

// TestBalladInTwoIsHeld: the slow two is legato, so that comp and bass have no rest at any
// energy, and up to energy 4 nothing moves quicker than quarters (common practice, no single
// source).
func TestBalladInTwoIsHeld(t *testing.T) {
	f := Builtin().Feels["ballad-in-two"]
	quarter := f.Grid / 4
	for i := range f.Levels {
		for _, lv := range []feel.Level{f.Levels[i], f.Levels[i].Answered()} {
			for at := range lv.Bass {
				if lv.Bass[at].Touch == feel.Rest || lv.Comp[at].Touch == feel.Rest {
					t.Errorf("energy %d: a rest at step %d", i+1, at)
				}
				moves := lv.Bass[at].Touch > feel.Sound || lv.Comp[at].Touch > feel.Sound
				if moves && at%quarter != 0 && i < 4 {
					t.Errorf("energy %d: a stroke between the quarters at step %d", i+1, at)
				}
			}
		}
	}
}
