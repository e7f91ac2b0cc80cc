package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// Where a shuffle's row has a note that would sound together with an accent on the "&", the accent is
// what is played.
func TestAccentOnSwungOffBeatIsPlayed(t *testing.T) {
	const song = `
key = "E major"
looseness = 0
take = %d
section "a" {
  feel   = %q
  chords = "|: G13 N.C.@1a Cmaj7/E@3l | V7/3 |1. (7/8) Eb/F :|2. (7/8) Em |"
  tempo  = 70.5
  energy = [4, 5]
  accent "4&" { weight = 3 }
}
form {
  play "a" {}
  play "a" {
    times = 3
    bars "1-3" { chords = "| Cmaj7/E | V7/V@2a Abdim7@3 C@3& bVI@4& | (7/8) Gsus4 |" }
  }
}
`
	for _, feel := range []string{"shuffle", "swing"} {
		for take := 1; take <= 5; take++ {
			tl := songfiletest.Song(t, fmt.Sprintf(song, take, feel))
			for i, part := range groove.Perform(tl, library.Builtin()).Passes {
				played := map[int]bool{}
				for _, n := range part.Notes[timeline.Bass] {
					played[int(n.Meant)] = true
				}
				for k, n := range part.Score.Parts[timeline.Bass].Notes {
					if n.Art.Has(score.Accent) && !played[k] {
						t.Errorf("%s, take %d, pass %d: the accent at %d is not played", feel, take, i, n.At)
					}
				}
			}
		}
	}
}
