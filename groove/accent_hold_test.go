package groove_test

import (
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// A hit under a fermata rings through it, alone in its bar or in the time, and after it a hit alone is
// as short as ever. A fermata holds the note that it stands on (common practice, no single source).
func TestHitUnderAFermataRings(t *testing.T) {
	for _, word := range []string{"", "alone = true", "weight = 3", "weight = 1"} {
		for _, name := range []string{"ballad-eighths", "swing", "bossa", "tight-sixteenths"} {
			tl := songfiletest.Song(t, `
looseness = 0
feel = "`+name+`"
section "a" {
  energy = 3
  chords = "| C6 | F7 | Bbmaj7 | G7 |"
  accent "2: 1 3" { `+word+` }
  hold "2: 1" { beats = 3 }
}
form {
  play "a" {}
  play "a" {}
}
`)
			perf := groove.Perform(tl, library.Builtin())
			const hit, heldTo = 4 * quarter, 5 * quarter
			for who := timeline.Bass; who <= timeline.Piano; who++ {
				struck := 0
				for _, n := range perf.Passes[0].Notes[who] {
					if n.Tick < hit-quarter/8 || n.Tick > hit+quarter/8 {
						continue
					}
					if struck++; n.Tick+n.Length < heldTo-quarter/16 {
						t.Errorf("%s, %q: player %d holds key %d for %d ticks", name, word, who, n.Key, n.Length)
					}
				}
				if struck == 0 {
					t.Errorf("%s, %q: player %d does not strike", name, word, who)
				}
			}
		}
	}
}
