package load_test

import (
	"fmt"
	"os"
	"strings"

	"plinth/groove"
	"plinth/groove/load"
	"plinth/render/midi"
)

// A song with a groove of its own and a guide vocal, from text to MIDI.
func ExampleRead() {
	text := `
tempo   = 112
meter   = "3/4"
feel    = "mill-wheel"
grooves = ["grooves/mill-wheel.groove.hcl"]
vocal "voices/lanterns-voice.mid" {}
section "verse" {
  chords = "|: C | Am | F | G :|x4"
  bars "9-12" { feel = "jazz-waltz" }
}
`
	song := load.Read("two-lamps.song.hcl", []byte(text), os.DirFS("../../examples"))
	if song.Diags.HasErrors() {
		fmt.Println(song.Diags)
		return
	}
	performance := groove.Perform(song.Timeline, song.Feels)
	file, err := midi.Write(song.Timeline, performance)
	fmt.Printf("%d bars of %s, %d sung notes, a file that begins with %s, %v\n", song.Timeline.SongBars(),
		strings.Join(song.Timeline.Passes[0].Feels(), " and "), len(song.Timeline.Vocals[0].Notes), file[:4], err)
	for _, d := range song.Diags { // doubts: the song is played all the same
		fmt.Printf("line %d: %s\n", d.Subject.Start.Line, d.Summary)
	}
	// Output:
	// 16 bars of mill-wheel and jazz-waltz, 27 sung notes, a file that begins with MThd, <nil>
	// line 6: The guide's meter is not the song's
	// line 6: The guide's tempo is not the song's
	// line 6: The voice is longer than the form
}
