package pianist

import (
	"testing"

	"plinth/groove/groovetest"
	"plinth/songspec/timeline"
)

// The line moves by the shorter way, and a bass line going down stays one.
func TestLeftHandLine(t *testing.T) {
	line := func(chart string, energy int) []int {
		pass := groovetest.PassOf(t, chart, energy)
		pass.Tacet = timeline.Only(timeline.Bass)
		var c Pianist
		c.Prepare(groovetest.PlanOf(pass, groovetest.CompFeel("c===============")))
		return c.leftLine()
	}
	// The lament, and a walk up to the dominant: steps all the way.
	for _, chart := range []string{"Am|Am/G|F|E", "C|G/B|Am|C/G|F", "F|F/G|F/A|Bb|Bb/C"} {
		for energy := 1; energy <= 5; energy++ {
			keys := line(chart, energy)
			for i := 1; i < len(keys); i++ {
				if abs(keys[i]-keys[i-1]) > 2 {
					t.Errorf("%s at %d leaps: %v", chart, energy, keys)
				}
			}
		}
	}
}
