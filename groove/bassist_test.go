package groove_test

import (
	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/songspec/timeline"
	"testing"
)

func TestBassCompassAndOneNoteAtATime(t *testing.T) {
	// The compass is that of the design: E1 to G3, B0 with five strings.
	for _, row := range []struct{ strings, low int }{{4, 28}, {5, 23}} {
		for energy := 1; energy <= 5; energy++ {
			for take := 1; take <= 20; take++ {
				tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: groovetest.WildChords, Energy: energy},
					groovetest.Section{Name: "b", Chords: "B|Bb", Energy: energy})
				tl.Take, tl.Looseness, tl.Bass.Strings = take, 1000, row.strings
				notes := groove.Perform(tl, groovetest.Set(nil)).Parts[timeline.Bass]
				for i, n := range notes {
					if int(n.Key) < row.low || n.Key > 55 {
						t.Fatalf("%d strings: key %d", row.strings, n.Key)
					}
					if i > 0 && notes[i-1].Tick+notes[i-1].Length > n.Tick {
						t.Fatalf("energy %d, take %d: two notes at once at %d", energy, take, n.Tick)
					}
				}
			}
		}
	}
}
