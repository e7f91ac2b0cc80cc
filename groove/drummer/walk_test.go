package drummer

import (
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/library"
)

// Where the song has the bass walk, swing has its ride at every energy, and at 2 it is softer than at 3.
// Without that line it comes in at 3, with the feel's own walking bass. Common practice, no single source.
func TestRideUnderAWalkingBass(t *testing.T) {
	for _, name := range []string{"swing", "jazz-waltz"} {
		for _, line := range []string{"", "walk"} {
			touches := [6]int{}
			for energy := 1; energy <= 3; energy++ {
				tl := groovetest.Song(t, grooveSection(name, "a", "C|F|G|C", energy),
					grooveSection(name, "b", "C", energy))
				tl.Bass.Line = line
				for _, n := range drummerOf(tl, 0, library.Builtin()).Play(nil).Notes {
					if kindOf(n.Key) == kindRide {
						touches[energy] += int(n.Touch)
					}
				}
			}
			if line == "" && touches[2] > 0 || line != "" && (touches[1] == 0 || touches[2] < touches[1]) ||
				touches[3] < touches[2] || touches[3] == 0 {
				t.Errorf("%s with the line %q: the ride at 1 to 3: %v", name, line, touches[1:4])
			}
		}
	}
}
