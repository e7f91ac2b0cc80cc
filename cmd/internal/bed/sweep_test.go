package bed

import (
	"fmt"
	"testing"

	"plinth/groove/library"
)

// thick is a song in which everything happens: pushes over bar lines and section
// ends, stops, accents, fills, a fermata, a ritardando, a lift and players
// who are silent.
const thick = `looseness = %d
take      = %d
meter     = %q
feel      = %q
tempo     = %d
count_in  = %d

section "verse" {
  energy = %d
  chords = "| C | Am7 | %% | %s | Cmaj7/E | N.C. | Dm7b5/Ab | G7 |"
  push "2: 1&" {}
  push "last: 2&" {}
  accent "3: 1" {}
  stop "6: 2" {}
  hold "7: 1" { beats = 1 }
  rit "7-8" { to = 60 }
}

section "chorus" {
  like   = "verse"
  energy = [%d, 5]
  tacet  = ["piano"]
}

form {
  play "verse" {}
  play "chorus" {}
  play "verse" { lift = 1 }
  play "chorus" { tacet = [] }
}
`

// At every feel, energy and take the band plays what a file can hold: no note before tick 0
// or past the end, no pitch twice at a time. midi.Write checks that.
func TestEveryFeelFitsAFile(t *testing.T) {
	built := 0
	for _, e := range library.Index() {
		sig, two := e.Meters, "F G7/B"
		switch sig {
		case "any":
			sig, two = "9/8", "F / G7/B"
		case "3/4", "5/4", "7/8": // an uneven bar says how long each chord lasts
			two = "F"
		}
		for energy := 1; energy <= 5; energy++ {
			for take := 1; take <= 2; take++ {
				text := fmt.Sprintf(thick, take%2, take, sig, e.Name, e.TempoLow+take*(e.TempoHigh-e.TempoLow)/4,
					take%2, energy, two, energy)
				res, err := Build(memory("thick.hcl", map[string]string{"thick.hcl": text}))
				switch {
				case err != nil:
					t.Errorf("%s, energy %d, take %d: %v", e.Name, energy, take, err)
				case res.Failed():
					t.Fatalf("%s in %s: %v\n%s", e.Name, sig, res.Diags, text)
				default:
					built++
				}
			}
		}
	}
	if built < 26*10 {
		t.Errorf("only %d songs were built", built)
	}
}
