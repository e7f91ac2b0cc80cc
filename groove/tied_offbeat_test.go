package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// A chord that the chart has off the beat is tied over the next beat: bass and piano strike it there only
// where a hit is written, and hold it over. Common practice, no single source.
func TestChordOffTheBeatIsTiedOver(t *testing.T) {
	const quarter = meter.TicksPerQuarter
	for _, name := range []string{"backbeat-eighths", "swing", "ballad-eighths", "bossa"} {
		for _, alone := range []string{"", "tacet = [\"bass\"]"} {
			for energy := 2; energy <= 5; energy++ {
				for _, hit := range []string{"", "accent \"2: 3\" {}"} {
					tl := songfiletest.Song(t, fmt.Sprintf(`
looseness = 0
feel = %q
section "a" {
  energy = %d
  %s
  chords = "| Am7 | Am7 Dm7@2& | Am7 G7@4& | G7 | C |"
  %s
}
`, name, energy, alone, hit))
					parts := groove.Perform(tl, library.Builtin()).Passes[0].Score.Parts
					for _, who := range []timeline.Player{timeline.Bass, timeline.Piano} {
						for _, change := range []int64{4*quarter + 3*quarter/2, 8*quarter + 7*quarter/2} {
							struck, again, held := false, false, false
							for _, n := range parts[who].Notes {
								struck = struck || n.At == change
								again = again || n.At > change && n.At <= change+quarter/2
								held = held || n.At == change && n.At+int64(n.Held) > change+quarter/2
							}
							hits := hit != "" && change < 8*quarter
							if alone != "" && who == timeline.Bass {
								continue
							}
							if !struck || again != hits || !held && !hits {
								t.Errorf("%s at %d, %q, %q, player %d: the chord at %d is struck %v, again %v, held %v",
									name, energy, alone, hit, who, change, struck, again, held)
							}
						}
					}
				}
			}
		}
	}
}
