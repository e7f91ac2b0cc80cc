package songspec

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// lengths writes a pass's chords with their lengths in eighths: "C 8, F 4".
func lengths(p *timeline.Pass) string {
	var out []string
	for _, s := range p.Chords {
		out = append(out, fmt.Sprintf("%s %g", s.Chord, float64(s.End-s.Start)/480))
	}
	return strings.Join(out, ", ")
}

var charts = []struct{ name, reason, meter, chords, want string }{
	{"a bar each", "one chord fills its bar", "4/4", "| C | F |", "C 8, F 8"},
	{"two share", "evenly, in whole beats", "4/4", "| C F |", "C 4, F 4"},
	{"four share", "one a beat", "4/4", "| C F G Am |", "C 2, F 2, G 2, Am 2"},
	{"three in three", "one a beat", "3/4", "| C F G |", "C 2, F 2, G 2"},
	{"slashes", "three beats and one", "4/4", "| Ab / / Abm6 |", "Ab 6, Abm6 2"},
	{"slashes written in full", "two and two", "4/4", "| Ab / Abm6 / |", "Ab 4, Abm6 4"},
	{"slashes glued", "as charts have them", "4/4", "| C/// | F // G |", "C/// 8"},
	{"slashes alone", "the chord goes on, not struck again", "4/4", "| C | / / / / | F |", "C 16, F 8"},
	{"slash across", "it goes on until the next chord", "4/4", "| C | / / F / |", "C 12, F 4"},
	{"two in six", "dotted quarters", "6/8", "| C F |", "C 3, F 3"},
	{"six in six", "a chord or slash a count", "6/8", "| C / / F / G |", "C 3, F 2, G 1"},
	{"two in twelve", "halves of the bar", "12/8", "| C F |", "C 6, F 6"},
	{"four in twelve", "one a dotted quarter", "12/8", "| C F / G |", "C 3, F 6, G 3"},
	{"five", "with slashes, as the song says", "5/4", "| C / / F / |", "C 6, F 4"},
	{"seven", "three felt beats: two, two and three eighths", "7/8", "| C F G |", "C 2, F 2, G 3"},
	{"seven in its counts", "a chord or slash an eighth", "7/8", "| C / / / F / / |", "C 4, F 3"},
	{"percent", "the bar before again, struck again", "4/4", "| C F | % |", "C 4, F 4, C 4, F 4"},
	{"percent twice", "it reaches back over a percent", "4/4", "| C | % | % |", "C 8, C 8, C 8"},
	{"repeat", "twice", "4/4", "|: C | F :| G |", "C 8, F 8, C 8, F 8, G 8"},
	{"repeat with a figure", "three times", "4/4", "|: C :|x3 G |", "C 8, C 8, C 8, G 8"},
	{"figure after a blank", "as some write it", "4/4", "|: C :| x3 | G |", "C 8, C 8, C 8, G 8"},
	{"repeat from the front", "without a start it goes back to the front", "4/4", "| C | F :| G |",
		"C 8, F 8, C 8, F 8, G 8"},
	{"repeats back to back", "one ends where the other begins", "4/4", "|: C :|: F :|", "C 8, C 8, F 8, F 8"},
	{"repeats side by side", "likewise", "4/4", "|: C :| |: F :|", "C 8, C 8, F 8, F 8"},
	{"double bar", "a bar line like others", "4/4", "| C || F ||", "C 8, F 8"},
	{"no outer bar lines", "they may be left out", "4/4", "C | F", "C 8, F 8"},
	{"odd bar", "its meter holds for it alone", "4/4", "| C | (2/4) G | F |", "C 8, G 4, F 8"},
	{"odd bar glued", "a blank is not needed", "4/4", "| (2/4)G | F |", "G 4, F 8"},
	{"percent after an odd bar", "one chord fills any bar", "4/4", "| (2/4) G | % |", "G 4, G 8"},
	{"no chord", "silence of the harmony", "4/4", "| C | N.C. | C |", "C 8, N.C. 8, C 8"},
	{"numerals", "relative to the key, C here", "4/4", "| vi7 | IVmaj7 | bVI | I/5 |",
		"Am7 8, Fmaj7 8, Ab 8, C/G 8"},
	{"mixed", "letters and numerals in one chart", "4/4", "| C iv6 |", "C 4, Fm6 4"},
	{"figures and basses after a slash", "a figure is added, a letter is the bass", "4/4",
		"| C7/9 Am7/11 | C7/b9/E Csus4/7 | C13(no9) C7M | Cm(#7) Cm+7 |",
		"C9 4, Am7add11 4, C7b9/E 4, C7sus4 4, C7add13 4, Cmaj7 4, Cm(maj7) 4, Cm(maj7) 4"},
	{"added tones of numerals", "as for letters", "4/4", "| V7/9 V7/b9 |", "G9 4, G7b9 4"},
	{"figured bass", "inversions and a suspended fourth", "4/4", "| I64 V65 | V43 V42 | V54 V |",
		"C/G 4, G7/B 4, G7/D 4, G7/F 4, Gsus4 4, G 4"},
	{"chords with names", "in C", "4/4", "| N6 Cad64 | It6 Fr43 | Ger65 V |",
		"Db/F 4, C/G 4, Ab7no5 4, Ab7b5 4, Ab7 4, G 4"},
	{"inversions and added tones by name", "not doubted", "4/4", "| I/3 V42 | Iadd6 Vadd2 |",
		"C/E 4, G7/F 4, C6 4, Gadd2 4"},
	{"square brackets", "as some charts have them", "4/4", "| C7[b9] F |", "C7b9 4, F 4"},
	{"percent sign before a brace", "no template", "4/4", "| C %{ |", ""},
}

func TestCharts(t *testing.T) {
	for _, row := range slices.Concat(charts, endingCharts, countCharts) {
		t.Run(row.name, func(t *testing.T) {
			src := "meter = \"" + row.meter + "\"\n" + one(row.chords)
			tl, diags := build(src)
			if laid, _ := Format("t", []byte(src)); laid != nil {
				sameSong(t, src, string(laid))
			}
			switch {
			case row.name == "slashes glued":
				// C/// is a broken slash chord, F // G is two slashes.
				if tl != nil || len(diags) != 1 || !strings.Contains(diags[0].Summary, "C///") {
					t.Errorf("got %v", diags)
				}
			case row.want == "":
				if len(diags) == 0 || strings.Contains(diags[0].Summary, "emplate") {
					t.Errorf("got %v", diags)
				}
			case tl == nil:
				t.Errorf("%s: %v", row.reason, diags)
			default:
				if got := lengths(&tl.Passes[0]); got != row.want {
					t.Errorf("%s: got %s, want %s", row.reason, got, row.want)
				}
			}
		})
	}
}

func TestHeredocCharts(t *testing.T) {
	want := "C 8, F 4, G 4, Am 8, F 8, C 8"
	for _, row := range []struct{ name, reason, text string }{
		{"plain", "bar lines at both ends", "    | C | F G |\n    | Am | F | C |\n"},
		{"tabs and blanks mixed", "indentation means nothing", "\t| C | F G |\n    | Am | F | C |\n"},
		{"no bar line at the line's end", "the line's end is one", "    | C | F G\n    | Am | F | C\n"},
		{"no bar lines at the ends", "likewise", "    C | F G\n    Am | F | C\n"},
		{"comments", "a line of // or # and a blank", "    // first\n    | C | F G |\n    # second, C#m7\n    | Am " +
			"| F | C |\n"},
		{"blank lines", "between", "\n    | C | F G |\n\n    | Am | F | C |\n\n"},
		{"Windows", "line ends do not matter", "    | C | F G |\r\n    | Am | F | C |\r\n"},
	} {
		for _, open := range []string{"<<-EOT", "<<EOT"} {
			tl := good(t, "section \"a\" {\n  chords = "+open+"\n"+row.text+"EOT\n}\n")
			if got := lengths(&tl.Passes[0]); got != want {
				t.Errorf("%s (%s): got %s", row.name, row.reason, got)
			}
		}
	}
	tl := good(t, "section \"a\" {\n  chords = \"| C | F G |\\n| Am | F | C |\"\n}\n")
	if got := lengths(&tl.Passes[0]); got != want {
		t.Errorf("\\n in a quoted chart: got %s", got)
	}
	// #ivo7 at the start of a line is a chord, not a comment.
	tl = good(t, "section \"a\" {\n  chords = <<-EOT\n    #ivo7 | I |\n  EOT\n}\n")
	if got := lengths(&tl.Passes[0]); got != "F#dim7 8, C 8" && got != "F#o7 8, C 8" {
		t.Errorf("#ivo7: got %s", got)
	}
}

func TestBarsKnowTheirPlace(t *testing.T) {
	tl := good(t, "section \"a\" {\n  chords = <<-EOT\n    |: C   F | %  :|\n    | (3/4) G |\n  EOT\n}\n")
	var got []string
	for _, b := range tl.Passes[0].Bars {
		got = append(got, fmt.Sprintf("%s@%d %s line %d", b.Text, b.Start, b.Meter, b.Line))
	}
	want := "C F@0 4/4 line 3; C F@3840 4/4 line 3; C F@7680 4/4 line 3; C F@11520 4/4 line 3; G@15360 3/4 line 4"
	if s := strings.Join(got, "; "); s != want {
		t.Errorf("got %s", s)
	}
}
