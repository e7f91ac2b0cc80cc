package outline_test

import (
	"fmt"
	"os"
	"strings"

	"plinth/songspec"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
)

// resolved is a song of one section with these chords and this event.
func resolved(chords, event string) *timeline.Timeline {
	src := fmt.Sprintf(`key = "C"
section "verse" {
  chords = %q
  %s
}
form {
  play "verse" {}
}
`, chords, event)
	f, _ := songspec.Parse("demo.song.hcl", []byte(src))
	tl, _ := f.Resolve(songspec.Env{})
	return tl
}

func ExampleWrite() {
	var text strings.Builder
	if err := outline.Write(&text, resolved("| C | F / / G | vi |", `accent "2: 4" { weight = 3 }`)); err != nil {
		fmt.Println(err)
	}
	_, bars, _ := strings.Cut(text.String(), "players")
	fmt.Print(bars)
	// Output:
	// drums, bass, piano
	//      1 | C                       |
	//      2 | F / / G                 |  accent 4, weight 3
	//      3 | Am                      |  written vi
}

func ExampleDiff() {
	old := resolved("| C | F / / G | vi |", `accent "2: 4" {}`)
	now := resolved("| C | Fm / / G | Am |", `accent "2: 4" { weight = 3 }`)
	changes := outline.Diff(old, now)
	if err := outline.WriteDiff(os.Stdout, changes); err != nil {
		fmt.Println(err)
	}
	fmt.Println(outline.Summary(changes))
	// Output:
	// verse
	//   bar 2      F / / G to Fm / / G
	//   bar 2      accent 4 to accent 4, weight 3
	// verse: chords of bar 2, accent in bar 2
}
