package groove_test

import (
	"fmt"
	"reflect"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
)

// A cue is for the booth: in every bar of two phrases it moves no note.
func TestCueMovesNoNote(t *testing.T) {
	const song = `
section "a" {
  chords = "|: C | Am | F | G | C | Am | F | G :|"
  feel   = %q
  energy = %d
  %s
}
form {
  play "a" {}
  play "a" {}
}
`
	for _, feel := range []string{"backbeat-eighths", "two-beat", "swing"} {
		for energy := 1; energy <= 5; energy++ {
			var parts []any
			for _, event := range []string{"", `cue "1 2& 4" { text = "lights" }`} {
				tl := songfiletest.Song(t, fmt.Sprintf(song, feel, energy, event))
				parts = append(parts, groove.Perform(tl, library.Builtin()).Parts)
			}
			if !reflect.DeepEqual(parts[0], parts[1]) {
				t.Errorf("%s at %d: cues move notes", feel, energy)
			}
		}
	}
}
