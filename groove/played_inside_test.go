package groove_test

import (
	"fmt"
	"testing"
)

// What the band plays where bars have something of their own.
func TestPlayedInside(t *testing.T) { checkSongs(t, insideSongs()) }

// inBars is a bars block of a section with its lines.
func inBars(place string, lines ...string) string { return at("bars", place, lines...) }

func insideSongs() playedSongs {
	const eight = "| C | Am | F | G | C | Am | F | G |"
	energy := func(n int) string { return fmt.Sprint("energy = ", n) }
	return playedSongs{"inside", []string{
		sketch("A break of two bars, and a rise in the middle", backbeat,
			part("break", 4, eight, inBars("5-6", energy(1))), part("rise", 2, eight, inBars("5-", energy(5))),
			part("end", 3, "| C | C |")),
		sketch("Two bars of swing in straight eighths, with a push into them and out of them", backbeat,
			part("verse", 3, "| C | Am | F | G | C | Am |", inBars("3-4", `feel = "swing"`), at("push", "2: 4&"),
				at("push", "4: 4&"))),
		sketch("Swing that comes to a ballad, with a bar of two", swinging,
			part("verse", 3, "| C | Am | (2/4) F | G | C |", inBars("3-", `feel = "ballad-eighths"`),
				at("fill", "4: 3"))),
		sketch("A pattern of four bars begins where its feel does", ballad,
			part("verse", 3, "| C | Am | F | G | C | Am |", inBars("2-5", `feel = "brushes-ballad"`))),
	}}
}
