package songspec

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
)

// chart is a chart in a meter, with the lengths of its chords in eighths.
type chartRow = struct{ name, reason, meter, chords, want string }

// endingCharts are written as engravers print endings. In what order the bars are played is
// common practice, no single source.
var endingCharts = []chartRow{
	{"two endings", "as in print", "4/4", "|: Am7 | D7 |1. Gmaj7 :|2. G6 |",
		"Am7 8, D7 8, Gmaj7 8, Am7 8, D7 8, G6 8"},
	{"blank before the figure", "likewise", "4/4", "|: C | 1. F :| 2. G |", "C 8, F 8, C 8, G 8"},
	{"blank after the figure left out", "likewise", "4/4", "|: C |1.F :|2.G |", "C 8, F 8, C 8, G 8"},
	{"bar line after the repeat", "as repeats side by side", "4/4", "|: C |1. F :| |2. G |", "C 8, F 8, C 8, G 8"},
	{"last ending closed as a repeat", "the number of times is known", "4/4", "|: C |1. F :|2. G :|",
		"C 8, F 8, C 8, G 8"},
	{"last ending before a double bar", "and on after it", "4/4", "|: C |1. F :|2. G || Am |",
		"C 8, F 8, C 8, G 8, Am 8"},
	{"last ending and on", "what follows is played once", "4/4", "|: C |1. F :|2. G | Am | Dm |",
		"C 8, F 8, C 8, G 8, Am 8, Dm 8"},
	{"endings before a repeat", "the next one begins", "4/4", "|: C |1. F :|2. G |: Am :|",
		"C 8, F 8, C 8, G 8, Am 8, Am 8"},
	{"last ending closed on both sides", "likewise", "4/4", "|: C |1. F :|2. G :|: Am :|",
		"C 8, F 8, C 8, G 8, Am 8, Am 8"},
	{"from the front", "a repeat needs no start there", "4/4", "| C |1. F :|2. G |", "C 8, F 8, C 8, G 8"},
	{"after a bar", "it goes back to its start", "4/4", "| N.C. |: C |1. F :|2. G |", "N.C. 8, C 8, F 8, C 8, G 8"},
	{"endings of several bars", "each its own length", "4/4", "|: C |1. F | Am | B :|2. G | Dm :| D |",
		"C 8, F 8, Am 8, B 8, C 8, G 8, Dm 8, D 8"},
	{"three endings", "in turn", "4/4", "|: C |1. F :|2. G :|3. Am |", "C 8, F 8, C 8, G 8, C 8, Am 8"},
	{"first and third", "the third time has the first ending again", "4/4",
		"|: C |1,3. F :|2. G :|4. Am |",
		"C 8, F 8, C 8, G 8, C 8, F 8, C 8, Am 8"},
	{"first and third, and no fourth", "the third is the last", "4/4", "|: C |1,3. F :|2. G :| Am |",
		"C 8, F 8, C 8, G 8, C 8, F 8, Am 8"},
	{"range", "one to three", "4/4", "|: C |1-3. F :|4. G |", "C 8, F 8, C 8, F 8, C 8, F 8, C 8, G 8"},
	{"range in print", "a full stop each", "4/4", "|: C |1.-3. F :|4. G |",
		"C 8, F 8, C 8, F 8, C 8, F 8, C 8, G 8"},
	{"list in print", "a full stop each", "4/4", "|: C |1. 2. F :|3. G |", "C 8, F 8, C 8, F 8, C 8, G 8"},
	{"list with blanks", "they do not matter", "4/4", "|: C |1., 3. F :|2, 4. G :|",
		"C 8, F 8, C 8, G 8, C 8, F 8, C 8, G 8"},
	{"figure that agrees", "said twice", "4/4", "|: C |1-2. F :|x3 3. G |", "C 8, F 8, C 8, F 8, C 8, G 8"},
	{"one ending for all times", "a repeat like others", "4/4", "|: C |1,2. F :| G |", "C 8, F 8, C 8, F 8, G 8"},
	{"two repeats with endings", "each has its own", "4/4", "|: C |1. F :|2. G |: Am |1. Dm :|2. Em |",
		"C 8, F 8, C 8, G 8, Am 8, Dm 8, Am 8, Em 8"},
	{"percent in an ending", "the bar before, which is of the ending", "4/4", "|: C |1. F | % :|2. G | % |",
		"C 8, F 8, F 8, C 8, G 8, G 8"},
	{"percent begins the first ending", "the bar before is the one that is shared", "4/4", "|: C |1. % :|2. G |",
		"C 8, C 8, C 8, G 8"},
	{"percent after the endings", "the bar that is played before", "4/4", "|: C |1,3. F :|2. G :| % |",
		"C 8, F 8, C 8, G 8, C 8, F 8, F 8"},
	{"odd bar in an ending", "its meter belongs to it", "4/4", "|: C |1. (2/4) F :|2. G |", "C 8, F 4, C 8, G 8"},
	{"slashes begin an ending", "the chord that was played goes on", "4/4", "|: C |1. F :|2. / / G / |",
		"C 8, F 8, C 12, G 4"},
	{"a line each", "the line's end is a bar line", "4/4", "|: C\\n1. F :|\\n2. G |", "C 8, F 8, C 8, G 8"},
}

// countCharts have chords that say their count.
var countCharts = []chartRow{
	{"off the beat", "each lasts until the next", "4/4", "| Dm7 G7@2& C@4 |", "Dm7 3, G7 3, C 2"},
	{"the first with its count", "1 may be said", "4/4", "| Dm7@1 G7@4& |", "Dm7 7, G7 1"},
	{"no chord on 1", "the chord before goes on", "4/4", "| C | F@2& | G |", "C 11, F 5, G 8"},
	{"sixteenths", "e and a", "4/4", "| C F@2e G@3a |", "C 2.5, F 3, G 2.5"},
	{"triplets", "one-trip-let", "4/4", "| C F@3t G@3l |",
		"C 4.666666666666667, F 0.6666666666666666, G 2.6666666666666665"},
	{"counts of eighths", "in 6/8 they are the eighths", "6/8", "| C F@3 G@6& |", "C 2, F 3.5, G 0.5"},
	{"counts of twelve", "likewise", "12/8", "| C F@6 |", "C 5, F 7"},
	{"counts of seven", "likewise", "7/8", "| C F@4 |", "C 3, F 4"},
	{"counts of halves", "in 2/2 they are the halves", "2/2", "| C F@2& |", "C 6, F 2"},
	{"percent of a bar with counts", "it is like the bar", "4/4", "| C F@2& | % |", "C 3, F 5, C 3, F 5"},
	{"percent of a bar that goes on", "likewise", "4/4", "| C | F@2& | % |", "C 11, F 8, F 5"},
	{"no chord off the beat", "as any chord", "4/4", "| C N.C.@3& |", "C 5, N.C. 3"},
	{"numerals off the beat", "as any chord", "4/4", "| ii7 V7/V@2& bVI@4 |", "Dm7 3, D7 3, Ab 2"},
	{"brackets before the count", "blanks in them, too", "4/4", "| C C7(b9, #11)@3& |", "C 5, C7b9#11 3"},
	{"odd bar with counts", "those of its meter", "4/4", "| (6/8) C F@6 | G |", "C 5, F 1, G 8"},
	{"repeat with counts", "the second time the chord before goes on", "4/4", "| C |: F@2 G@4& :|",
		"C 10, F 5, G 3, F 5, G 1"},
	{"endings with counts", "likewise", "4/4", "|: C |1. F@1& :|2. G@4& |", "C 9, F 7, C 15, G 1"},
}

// TestEndingsOverLines: fmt keeps the figure of an ending, and the colon of a repeat, at their bar
// lines, and lines the bar lines up.
func TestEndingsOverLines(t *testing.T) {
	src := "section \"a\" {\n  chords = <<-EOT\n" + `
|: Am7 | D7 | 1. Gmaj7:| 2. G6|
|| C|F
 |: G :|x2
|: C | F |1., 2. Bb :| x3 3. G |
|: C
  1. Am :|
  2. Am7 | E || B |: G :| Db
` + "  EOT\n}\n"
	want := "section \"a\" {\n  chords = <<-EOT\n" + `
    |: Am7  | D7 |1.    Gmaj7 :|2.    G6  |
    || C    | F
    |: G   :|x2
    |: C    | F  |1.,2. Bb    :|x3 3. G   |
    |: C
    1. Am  :|
    2. Am7  | E  ||     B      |:     G  :| Db
` + "  EOT\n}\n"
	got, _ := Format("t", []byte(src))
	if string(got) != want {
		t.Errorf("got\n%s", got)
	}
	sameSong(t, src, string(got))
}

// TestChartsOfTheReadme: what the README says of charts is so.
func TestChartsOfTheReadme(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, m := range regexp.MustCompile(`(?m)^(\|.*\S) {2,}(is|has) (.*)$`).FindAllStringSubmatch(string(text), -1) {
		n++
		pass := &good(t, one(m[1])).Passes[0]
		got, want := lengths(pass), m[3]
		if m[2] == "is" {
			want = lengths(&good(t, one(m[3])).Passes[0])
		} else {
			var at []string
			for _, s := range pass.Chords {
				i := pass.BarAt(s.Start)
				count := pass.Bars[i].Meter.CountAt(s.Start - pass.Bars[i].Start)
				at = append(at, fmt.Sprintf("%s at %d: %s", s.Chord, i+1, count))
			}
			got = strings.Join(at, ", ")
		}
		if got != want {
			t.Errorf("%s: %s, not %s", m[1], got, want)
		}
	}
	if n < 7 {
		t.Errorf("only %d examples", n)
	}
}
