package groove_test

import (
	"fmt"

	"plinth/groove/library"
	"plinth/songspec/meter"
)

// fillSongs: fills that are written, and those with which sections close.
func fillSongs() playedSongs {
	g := playedSongs{"fill", []string{
		sketch("Written fills of a bar, of two beats, of one, of a half, and two running", backbeat,
			part("fills", 4, "| C | F | G7 | Am7 | F | G7 |",
				at("fill", "1: 1"), at("fill", "2: 3"), at("fill", "3: 4"), at("fill", "4: 4&"), at("fill", "5: 2"),
				at("fill", "6: 1"))),
		sketch("The fills with which sections close, up and down the energies, and none where none is wanted",
			backbeat,
			part("one", 1, "| C |", "fills = true"), part("two", 2, "| F |", "fills = true"),
			part("three", 3, "| G7 |", "fills = true"),
			part("four", 4, "| C |", "fills = true"), part("five", 5, "| F |", "fills = true"),
			part("none", 5, "| C |"),
			steps("one", "two", "three", "four", "five", "five", "four", "four", "three", "three", "two", "two",
				"one", "one", "three", "five", "one", "none", "three")),
		sketch("The same below 80 beats a minute", ballad,
			part("two", 2, "| C |", "fills = true"), part("three", 3, "| F |", "fills = true"),
			part("four", 4, "| G7 |", "fills = true"),
			steps("two", "three", "four", "three", "two", "four", "four")),
		sketch("No fill into a section without drums, a written one all the same", backbeat,
			part("loud", 4, "| C | G7 |", "fills = true"), part("asked", 4, "| C | G7 |", "fills = true",
				at("fill", "last: 3")),
			part("quiet", 2, "| C |", tacet("drums")), steps("loud", "quiet", "asked", "quiet")),
	}}
	// Each family in a feel that has it: inside and at the end, quiet and loud.
	seen := map[string]bool{"": true}
	for _, name := range library.Names() {
		f := library.Builtin().Feels[name]
		if seen[f.Fills] {
			continue
		}
		seen[f.Fills] = true
		m := meter.Common
		if len(f.Meters) > 0 {
			m = f.Meters[0]
		}
		last := m.Num - m.Num/len(m.Beats()) + 1 // the last beat
		half := m.Num/2 + 1
		g.songs = append(g.songs, sketch("The fills called "+f.Fills+", in "+name,
			top(name, (f.TempoLow+f.TempoHigh)/2, fmt.Sprintf("meter = %q", m)),
			part("fills", 3, "| C | F | G7 | C |", "fills = true", tacet("bass", "piano"),
				at("fill", fmt.Sprintf("1: %d", last)), at("fill", fmt.Sprintf("2: %d", half)), at("fill", "3: 1")),
			part("last", 5, "| C |"),
			form(`play "fills" {}`, `play "fills" { energy = 5 }`, `play "last" {}`)))
	}
	return g
}
