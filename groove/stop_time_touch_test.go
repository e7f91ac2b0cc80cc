package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// Written hits with nothing between them are struck evenly: what a player strikes most of them on has
// velocities within 8 of each other, at looseness 0.4. Common practice, no single source.
func TestStopTimeIsEven(t *testing.T) {
	const snare, kick = 38, 36
	for _, name := range []string{"swing", "backbeat-eighths", "ballad-eighths"} {
		for energy := 3; energy <= 5; energy++ {
			for take := 1; take <= 4; take++ {
				tl := songfiletest.Song(t, fmt.Sprintf(`
looseness = 0.4
take = %d
feel = %q
energy = %d
section "hits" {
  chords = "| Gm7 | C7 | F6 | D7 | Gm7 | C7 | F6 | F6 |"
  accent "1-8: 1 2&" { alone = true }
}
form {
  play "hits" {}
  play "hits" {}
}
`, take, name, energy))
				perf := groove.Perform(tl, library.Builtin())
				for who := timeline.Drums; who <= timeline.Piano; who++ {
					low, high := map[uint8]uint8{}, map[uint8]uint8{}
					top := map[int64]uint8{}
					for _, n := range perf.Passes[0].Notes[who] {
						key := uint8(0)
						if who == timeline.Drums {
							if key = n.Key; key != snare && key != kick {
								continue
							}
						}
						if who == timeline.Piano { // the top of the chord
							if top[n.Tick] = max(top[n.Tick], n.Velocity); top[n.Tick] > n.Velocity {
								continue
							}
						}
						if low[key] == 0 || n.Velocity < low[key] {
							low[key] = n.Velocity
						}
						high[key] = max(high[key], n.Velocity)
					}
					for key := range low {
						if high[key]-low[key] > 8 {
							t.Errorf("%s at %d, take %d, player %d, key %d: from %d to %d", name, energy, take, who,
								key, low[key], high[key])
						}
					}
				}
			}
		}
	}
}
