package groove_test

import (
	"fmt"
	"strings"
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
		sketch("Another key in the middle, walking", swinging+`key = "C major"`,
			part("verse", 4, "| Dm7 | Dm7 | G7 | C | Fm7 | Fm7 | Bb7 | Eb |", inBars("5-", `key = "Eb major"`))),
		sketch("Brushes, an acoustic bass in two and an electric piano in bars 3 and 4", backbeat,
			part("verse", 3, "| C | Am | F | G | C | Am |", inBars("3-4", playerBlock("drums", `kit = "brushes"`),
				playerBlock("bass", `sound = "acoustic"`, `line = "two"`), playerBlock("piano", `sound = "electric"`))),
			part("end", 3, "| C | C |")),
		sketch("A bass in two in 4/4, with a bar of two, and in a waltz", ballad+playerBlock("bass", `line = "two"`),
			part("four", 2, "| C | Am | (2/4) F | G |"), part("more", 4, "| C | Am | F | G |"),
			part("waltz", 3, "| C | Am | F | G |", `meter = "3/4"`, `feel = "waltz"`, "tempo = 120")),
		sketch("A bass that walks in eighths and in twelve", backbeat+playerBlock("bass", `line = "walk"`),
			part("four", 2, "| C | Am | F | G |"), part("more", 5, "| C | Am | F | G |"),
			part("twelve", 3, "| C | Am | F | G |", `meter = "12/8"`, `feel = "slow-twelve"`, "tempo = 60")),
	}}
}

// playerBlock is a player's block.
func playerBlock(player string, lines ...string) string {
	return player + " {\n    " + strings.Join(lines, "\n    ") + "\n  }\n"
}
