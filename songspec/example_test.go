package songspec_test

import (
	"fmt"

	"plinth/songspec"
)

// A song file becomes a timeline: repeats written out, chords read, places turned into
// ticks, 960 a quarter.
func ExampleParse() {
	text := `
key = "F major"
section "verse" {
  chords = "|: F | Bbmaj7 C :|"
  push "2: 4&" {}
}
`
	file, diags := songspec.Parse("small.song.hcl", []byte(text))
	song, more := file.Resolve(songspec.Env{}) // any feel's name is taken
	fmt.Println(len(diags), len(more))
	verse := song.Passes[0]
	for _, c := range verse.Chords {
		fmt.Println(c.Start, c.Chord)
	}
	fmt.Println(verse.Events[0].Kind, "at", verse.Events[0].Tick, "takes the chord of", verse.Events[0].Target)
	// Output:
	// 0 0
	// 0 F
	// 3840 Bbmaj7
	// 5760 C
	// 7680 F
	// 11520 Bbmaj7
	// 13440 C
	// push at 7200 takes the chord of 7680
}

// A mistake is a diagnostic that says what to write instead, at the very place.
func ExampleFile_Resolve() {
	file, _ := songspec.Parse("small.song.hcl", []byte(`section "verse" { chords = "F | Bbmja7" }`))
	_, diags := file.Resolve(songspec.Env{})
	for _, d := range diags {
		fmt.Printf("%d:%d %s: %s\n", d.Subject.Start.Line, d.Subject.Start.Column, d.Summary, d.Detail)
	}
	// Output:
	// 1:36 Not a chord: "Bbmja7": "ja7" is no chord quality here. Write "Bbmaj7".
}
