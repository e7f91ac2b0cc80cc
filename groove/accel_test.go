package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// In an accel the drummer drives on as at a steady tempo, ghost strokes and all, and no two bars of
// three are alike; a rit is played plainly.
func TestDrummerPlaysOnInAnAccel(t *testing.T) {
	strokes := func(name, line string) (n int, bars map[string]bool) {
		tl := songfiletest.Song(t, sketch("Drives", fmt.Sprintf("feel = %q\ntempo = 120\n", name), part("verse", 3,
			"| C | Am | F | G | C | Am | F | G |", line), part("end", 3, "| C | C |")))
		perf := groove.Perform(tl, library.Builtin())
		text := map[int]string{}
		for _, s := range perf.Passes[0].Score.Parts[timeline.Drums].Notes {
			bar := int(s.At / (4 * quarter))
			if bar >= 1 && bar < 7 {
				text[bar] += fmt.Sprint(s.At%(4*quarter), s.Key, " ")
				n++
			}
		}
		bars = map[string]bool{}
		for _, s := range text {
			bars[s] = true
		}
		return n, bars
	}
	for _, name := range []string{"swing", "backbeat-eighths", "bossa"} {
		plain, ways := strokes(name, "")
		driven, drivenWays := strokes(name, `accel "1-8" { to = 150 }`)
		slowed, _ := strokes(name, `rit "1-8" { to = 90 }`)
		if driven != plain || len(drivenWays) != len(ways) || len(ways) < 2 {
			t.Errorf("%s: %d strokes in %d ways in an accel, %d in %d at a steady tempo", name, driven, len(drivenWays),
				plain, len(ways))
		}
		if name == "swing" && slowed >= plain {
			t.Errorf("%s: %d strokes in a rit, %d at a steady tempo", name, slowed, plain)
		}
	}
}
