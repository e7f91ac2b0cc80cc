package songspec

import (
	"strings"
	"testing"
)

// heredoc is a section with a chart of several lines.
func heredoc(lines string) string {
	return "section \"a\" {\n  chords = <<-EOT\n" + lines + "\n  EOT\n}\n"
}

// chartMistakes are slips in the signs of a chart.
var chartMistakes = []mistake{
	// Endings.
	{"ending outside a repeat", "nothing says where it goes back to", one("|: C :| F |1. G :|2. Am |")},
	{"ending without bars before it", "bars that are numbered", one("| 1. C | 2. F | 3. G |")},
	{"ending that does not go back", "the bar line is a repeat's", one("|: C |1. F |2. G |")},
	{"ending before a double bar that does not go back", "likewise", one("|: C |1. F ||2. G ||")},
	{"ending over lines that does not go back", "no bar line is there", heredoc("    |: C\n    1. F\n    2. G")},
	{"first ending alone", "nothing is played instead the second time", one("|: C |1. F :| G |")},
	{"first ending alone at the end", "likewise", one("|: C |1. F :|")},
	{"first ending that is never closed", "likewise", one("|: C |1. F | G |")},
	{"ending missing between", "the second is", one("|: C |1. F :|3. G |")},
	{"ending missing in front", "the first is", one("|: C |2. F :|3. G |")},
	{"ending missing in a list", "the second is", one("|: C |1,3. F :| G |")},
	{"ending twice", "the second is meant", one("|: C |1. F :|1. G |")},
	{"ending twice in a range", "the fourth is meant", one("|: C |1-3. F :|3. G |")},
	{"last ending that is not the last time", "it goes back, too", one("|: C |1,3. F :|2. G |")},
	{"last ending for several times", "it goes back, too", one("|: C |1,3. F :|2,4. G ||")},
	{"last ending that is too long", "a repeat without its start", one("|: C |1. F :|2. G | Am | Dm :|")},
	{"figure against the endings", "they are for two", one("|: C |1. F :|x3 2. G |")},
	{"ending without its full stop", "no chord is a number before another", one("|: C |1 F :|2 G | Am |")},
	{"endings of many times without a full stop", "likewise", one("|: C |1,2 F :|3 G@2& |")},
	{"ending with a dash of a word processor", "it looks like the right one", one("|: C |1–2. F :|3. G |")},
	{"ending number nought", "they begin with 1", one("|: C |0. F :|1. G |")},
	{"ending number out of bounds", "64 times", one("|: C |1-65. F :|66. G |")},
	{"range of endings the wrong way round", "upwards", one("|: C |2-1. F :|3. G |")},
	{"ending without bars", "its chords are missing", one("|: C |1. :|2. G |")},
	{"last ending without bars", "likewise", one("|: C |1. F :|2. :|")},
	{"percent that begins a second ending", "two bars are before it", one("|: C |1. F :|2. % |")},
	{"ending in an open repeat", "it is closed first", one("|: C |1. F |: G :|")},
	{"ending with a bracket", "a bar line does", one("|: C |[1. F :|[2. G ]|")},

	// Bars as they are printed.
	{"only from inside a repeat", "the numbers of a printed chart",
		onlyOf("|: C | F | G | Am |1. Dm | G7 :|2. G6 | C | E |", "3-8")},
	{"only one bar, inside a repeat", "likewise", onlyOf("|: C | F :| G | Am |", "4")},
	{"many bars from inside a repeat", "not all of them are shown", onlyOf("|: C | F :|x6 "+
		strings.Repeat("| G | Am ", 6)+"|", "4-13")},

	// Chords off the beat.
	{"count outside the bar", "4/4 has four", one("| C F@5 |")},
	{"count outside an odd bar", "2/4 has two", one("| (2/4) C F@3& | G |")},
	{"counts the wrong way round", "they ascend", one("| C F@3 G@2& |")},
	{"count of the chord before", "1 is taken", one("| C F@1 |")},
	{"slash beside a count", "one or the other", one("| C / F@3& |")},
	{"chord without its count", "only the first may", one("| C F@2& G |")},
	{"no chord in front", "bar 1 has none before it", one("| F@2 G@3 | C |")},
	{"no chord in front, in a repeat", "the first time", one("|: F@2& :|")},
	{"count apart from its chord", "no blank", one("| C G7 @2& |")},
	{"count without a chord", "nothing is there", one("| @2& |")},
	{"count without a figure", "what is meant is not known", one("| C F@ |")},
	{"half of a count with a plus", "it is written with &", one("| C F@2+ G@3and |")},
	{"count that is none", "a place is no count", one("| C F@2.5 G@x |")},
	{"slash with a count", "it needs none", one("| C /@2 |")},
	{"percent with a count", "it stands alone", one("| C | %@2 |")},
	{"percent of counts in another meter", "they would be others", one("| C F@2& | (6/8) % |")},
	{"too many chords for the beats", "they say their counts", one("| C F G Am Dm |")},
	{"mistakes in a bar that is repeated", "said once", one("| C F@5 | % |")},
	{"bad chord with a count", "the chord alone is shown", one("| C Hm@2& |")},

	// Where other charts repeat the bar before, or leave it empty.
	{"dash for a bar", "the dash is shown, and what to write", one("| Bb7 | - | F |")},
	{"dots for a bar", "likewise", one("| Bb7 | . | .. | . . . . |")},
	{"letter x for a bar", "likewise", heredoc("    | Bb7 | x |\n    | F | X |")},
	{"dash for the first bar", "there is nothing to repeat", one("| - | F |")},
	{"simile signs", "a percent sign does",
		heredoc("    | C | ./. |\n    | C | '' |\n    | C | \" |\n    | C | sim. |\n" +
			"    | C | 𝄎 |\n    | C | .% | .\n")},
	{"simile sign in the first bar", "there is nothing to repeat", one("| ./. | F |")},
	{"slashes for a bar", "a percent sign or four", one("| C | / | // | F |")},

	// A bar line that may be missing.
	{"two chords in one of seven bars", "a bar each is meant", one("| C | Am | Dm | G | Em7 A7 | Dm | G |")},
	{"two chords in one of seven bars of two beats", "the count says that they are meant",
		"meter = \"6/8\"\n" + one("| C | Am | Dm | G | Em7 A7 | Dm | G |")},
}

// onlyOf is a song of which some bars of a chart are played.
func onlyOf(chart, bars string) string {
	return one(chart) + "form {\n  play \"a\" { only = \"" + bars + "\" }\n}\n"
}

// TestOnlyAsMeant: bars that are the same counted as they are printed, at the borders of a repeat's
// rounds, or beyond the printed bars.
func TestOnlyAsMeant(t *testing.T) {
	const chart = "|: C | F | G | Am |1. Dm | G7 :|2. G6 | C |"
	for _, bars := range []string{"1-4", "3-6", "2", "1-6", "7-12", "7-", "9-12", "1-2, 11-12"} {
		good(t, onlyOf(chart, bars))
	}
}

// TestBarsAsMeant: charts of an odd number of bars in which no bar line is missing.
func TestBarsAsMeant(t *testing.T) {
	for _, chart := range []string{
		"| C | Am | Dm | G | Em7 / A7 / | Dm | G |",
		"| C | Am | Dm | G | Em7 A7@3 | Dm | G |",
		"| C | Am | Dm | G | Em7 A7 | Dm G | G |",
		"| C | Am | Dm | G | Em7 A7 | Dm |",
		"| C | Am | Dm | G | Em7 A7 | Dm | G | C |",
		"| C | Am | Dm | G | Em7 | Dm | G |",
		"| C | Am | Dm | G | C N.C. | Dm | G |",
		"| C | Am | (2/4) Dm | G | Em7 A7 | Dm | G |",
		"| C | Am | Dm | G | Em7 A7 | % | G |",
	} {
		good(t, one(chart))
	}
}
