package groove_test

import (
	"fmt"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/songspec"
	"plinth/songspec/timeline"
)

// A timeline becomes notes: those that a player means, on the grid, and those that are
// played.
func ExamplePerform() {
	file, _ := songspec.Parse("small.song.hcl", []byte(`
looseness = 0
feel      = "ballad-eighths"
section "verse" {
  energy = 1
  chords = "F | Dm | Bb | C"
}`))
	song, _ := file.Resolve(songspec.Env{})
	performance := groove.Perform(song, library.Load("ballad-eighths"))
	meant := performance.Passes[0].Score.Parts[timeline.Bass].Notes
	for i, n := range performance.Parts[timeline.Bass] {
		fmt.Printf("tick %d: key %d, written %d and held %d ticks\n", n.Tick, n.Key, meant[i].Value, n.Length)
	}
	// Output:
	// tick 0: key 41, written 3840 and held 3840 ticks
	// tick 3840: key 38, written 3840 and held 3840 ticks
	// tick 7680: key 34, written 3840 and held 3840 ticks
	// tick 11520: key 36, written 3840 and held 3840 ticks
}
