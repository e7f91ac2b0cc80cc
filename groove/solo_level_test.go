package groove_test

import (
	"fmt"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// A solo that the song asks for keeps its level to the end, also before a softer section: the loudest
// strokes of snare and toms in its last bar are as loud as those of the bar before, within 8. Common
// practice, no single source.
func TestWrittenSoloKeepsItsLevel(t *testing.T) {
	for _, name := range []string{"backbeat-eighths", "swing", "ballad-eighths", "bossa"} {
		for take := 1; take <= 4; take++ {
			for after := 1; after <= 3; after++ {
				tl := songfiletest.Song(t, fmt.Sprintf(`
looseness = 0
take = %d
feel = %q
section "break" {
  energy = 4
  chords = "| C | F | G | C |"
  tacet = ["bass", "piano"]
  fill "1-4: 1" {}
}
section "a" {
  energy = %d
  chords = "| C | F | G | C |"
}
`, take, name, after))
				pass := &tl.Passes[0]
				var most [4]int
				for _, n := range groove.Perform(tl, library.Builtin()).Passes[0].Notes[timeline.Drums] {
					if !strings.Contains("38 41 43 45 47 48 50", fmt.Sprint(n.Key)) {
						continue // General MIDI: 38 is the snare, 41, 43, 45, 47, 48 and 50 are the toms
					}
					most[pass.BarAt(n.Tick)] = max(most[pass.BarAt(n.Tick)], int(n.Velocity))
				}
				if most[3] < most[2]-8 {
					t.Errorf("%s, take %d, before energy %d: the bars are at most %d", name, take, after, most)
				}
			}
		}
	}
}
