package groove_test

import (
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

func TestLoosenessZeroIsTheGrid(t *testing.T) {
	set := groovetest.Set(func(f *feel.Feel) { f.LagMS = map[string]int{"snare": 20, "bass": -15, "piano": 30} })
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|Am F|G|C", Energy: 5, BPM: 137},
		groovetest.Section{Name: "b", Chords: "F|G", Energy: 2})
	for i, part := range groove.Perform(tl, set).Passes {
		for who, notes := range part.Notes {
			for _, n := range notes {
				if part.Score.Parts[who].Notes[n.Meant].Art.Has(score.Rolled) {
					continue // the last chord, whose roll is written in milliseconds
				}
				if n.Tick%(quarter/4) != 0 {
					t.Errorf("pass %d, %s: a note at %d is off the sixteenths", i, timeline.Player(who), n.Tick)
				}
			}
		}
	}
}
