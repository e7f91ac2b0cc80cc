package groove_test

import (
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// Out of written hits, a stop or a drum break the bass comes into the next section by a fifth at most;
// but from Eb to G there is no other way, as the section opens on G1 and E1 is the lowest string.
// Common practice, no single source.
func TestBassComesOutOfABreak(t *testing.T) {
	names := []string{"C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"}
	for _, brk := range []string{
		`accent "5-8: 1" { alone = true }`,
		`accent "7-8: 1 2&" { alone = true }`,
		`stop "8: 2" {}`,
		`bars "7-8" { tacet = ["bass", "piano"] }`,
	} {
		for _, name := range []string{"swing", "backbeat-eighths"} {
			for _, from := range names {
				for _, to := range names {
					if from == "Eb" && to == "G" {
						continue
					}
					tl := songfiletest.Song(t, `
looseness = 0
tempo = 140
energy = 4
feel = "`+name+`"
section "a" {
  chords = "| C6 | Am7 | Dm7 | G7 | C6 | Am7 | Dm7 | `+from+`7 |"
  `+brk+`
}
section "b" { chords = "| `+to+`6 | Am7 | Dm7 | G7 |" }
`)
					perf := groove.Perform(tl, library.Builtin())
					before, after := perf.Passes[0].Notes[timeline.Bass], perf.Passes[1].Notes[timeline.Bass]
					leap := int(after[0].Key) - int(before[len(before)-1].Key)
					if leap > 7 || leap < -7 {
						t.Errorf("%s, %s, %s to %s: %d semitones", name, brk, from, to, leap)
					}
				}
			}
		}
	}
}
