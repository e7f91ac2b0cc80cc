package songspec

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/hcltext"
	"plinth/songspec/hcltext/sliptest"
)

// fixable are slips of kinds that the mistakes above do not have.
var fixable = []mistake{
	{"curly quotes round two texts", "each has its partner", one("| C |", "tacet = [“drums”, “bass”]")},
	{"curly quote without a partner", "where it ends nobody knows", "title = “Mill\n" + one("| C |")},
	{"semicolon at the end", "it goes", "tempo = 72;\n" + one("| C |")},
	{"semicolon in front of no value", "what follows is not known", "tempo = 72; 3\n" + one("| C |")},
	{"minus sign of a typesetter", "the keyboard's", one("| C |") + "form {\n  play \"a\" { lift = −2 }\n}\n"},
	{"decimal comma of a list", "two numbers are meant, not 2.4", "energy = 2,4\n" + one("| C |")},
	{"blank without a width", "it goes, and no blank comes", "tempo\u200b = 72\n" + one("| C |")},
	{"two odd blanks", "both", "tempo\u00a0=\u00a072\n" + one("| C |")},
	{"number without a point in front", "a tempo is whole", "tempo = .5\n" + one("| C |")},
	{"quoted name with a colon", "an equals sign comes, and the comma goes", "\"tempo\": 72,\n" + one("| C |")},
	{"name without a form", "drums need none", "drums: {\n  kit = \"brushes\"\n}\n" + one("| C |")},
	{"block without its name and with a colon", "the name is still missing", "section: {\n  chords = \"| C |\"\n}\n"},
	{"drums as a value", "they have no name", "drums = {\n  kit = \"brushes\"\n}\n" + one("| C |")},
	{"name of a block without one", "it goes", "drums \"x\" {\n  kit = \"brushes\"\n}\n" + one("| C |")},
	{"bare chords", "the quotes and the sign", "section \"a\" {\n  chords | C# | F |\n}\n"},
	{"opening quote alone", "the other comes at the line's end", "title = \"Mill\n" + one("| C |")},
	{"opening quote alone before a number", "a tempo is no text", "tempo = \"72\n" + one("| C |")},
	{"rit without braces", "it wants to know where to", one("| C | F |", "rit \"2\"")},
	{"play without braces in an open form", "a brace is missing besides", one("| C |") + "form {\n  play \"a\"\n"},
	{"sound called otherwise", "the name that it has here", "bass {\n  sound = \"Upright\"\n}\n" + one("| C |")},
	{"kit misspelt", "the nearest", "drums {\n  kit = \"brush\"\n}\n" + one("| C |")},
	{"option misspelt", "the nearest", one("| C |", `accent "1" { wieght = 2 }`)},
	{"setting misspelt that stands besides", "it would stand twice", "tempo = 70\ntempoo = 80\n" + one("| C |")},
	{"block misspelt that stands besides", "it would stand twice", "drums {}\ndrumz {}\n" + one("| C |")},
	{"setting with nearly the name of a block", "it is none", "forms = 2\n" + one("| C |")},
	{"event misspelt", "the nearest", one("| C |", `acent "1" {}`)},
	{"feel of another meter misspelt", "it would not fit", "feel = \"walz\"\n" + one("| C |")},
	{"feel by one style", "the one that it means", "feel = \"medium swing\"\n" + one("| C |")},
	{"like its own name", "a circle", "section \"verse\" {\n  like = \"vers\"\n}\n"},
	{"like one that is like this", "a circle", "section \"verse\" {\n  like = \"chorus\"\n}\n" +
		"section \"chorus\" {\n  like = \"vers\"\n}\n"},
	{"name with quotes in it", "they get their backslashes",
		"section \"the \\\"Mill\\\"\" {\n  chords = \"| C |\"\n}\n" +
			"form {\n  play \"the Mill\" {}\n}\n"},
	{"bare name of a section", "it gets quotes",
		"section \"chorus\" {\n  chords = \"| C |\"\n}\nform {\n  play chorus2 {}\n}\n"},
	{"truth in quotes", "without", one("| C |", `fills = "false"`)},
	{"lead in quotes", "without", one("| C |", `lead = "false"`)},
	{"backslash for a slash", "the chord is one", "section \"a\" {\n  chords = <<-EOT\n    | C\\G | F |\n  EOT\n}\n"},
	{"note in German that is too low", "it would be out of bounds", "piano {\n  highest = \"As2\"\n}\n" +
		one("| C |")},
	{"opening brace below a bare name", "one fix for both", "section verse\n{\n  chords = \"| C |\"\n}\n"},
	{"key by a mode", "major or minor is for the musician", "key = \"D dorian\"\n" + one("| Dm |")},
	{"small letters in a minor key", "capitals", "key = \"Am\"\n" + one("| am | e7 |")},
	{"chord of a mark and CRLF", "the bytes hold", "\xef\xbb\xbf" +
		strings.ReplaceAll(one("| é | Cmajj7 |"), "\n", "\r\n")},
}

// secondMistakes are mistakes with another behind them, which shows only when the first
// is mended: what it is.
var secondMistakes = map[string]string{
	"bare word":           `The feel "waltz" is not written for 4/4`,
	"colon before a word": `The feel "waltz" is not written for 4/4`,
	"unknown block":       "A section without chords",
	"several":             "Out of bounds",
}

// mended is the text with a fix in it, and the first error that has come with it or
// has not gone; nil when there is none.
func mended(src string, before hcl.Diagnostics, d *hcl.Diagnostic, fix hcltext.Fix) (string, *hcl.Diagnostic) {
	said := func(d *hcl.Diagnostic) string { return fmt.Sprintf("%d %s: %s", d.Severity, d.Summary, d.Detail) }
	left := map[string]int{}
	for _, b := range before {
		left[said(b)]++
	}
	left[said(d)]--
	after := string(fix.Apply([]byte(src)))
	_, diags := build(after)
	for _, a := range diags {
		if left[said(a)]--; left[said(a)] < 0 && (a.Severity == hcl.DiagError || said(a) == said(d)) {
			return after, a
		}
	}
	return after, nil
}

// TestFixes: what each fix does to the text stands in testdata/fixes.txt, and it mends
// what it is a fix of.
func TestFixes(t *testing.T) {
	var b strings.Builder
	second := map[string]bool{}
	kinds := map[string]bool{}
	for _, m := range slices.Concat(mistakes, fixable) {
		_, diags := build(m.src)
		if len(diags) == 0 {
			t.Errorf("%s (%s): nothing was said", m.name, m.reason)
		}
		for _, d := range diags {
			fix, ok := hcltext.FixOf(d)
			if !ok {
				if slices.ContainsFunc(fixable, func(f mistake) bool { return f.name == m.name }) {
					fmt.Fprintf(&b, "=== %s: %s\n%s: none\n", m.name, m.reason, d.Summary)
				}
				continue
			}
			kinds[strings.Split(d.Summary, `"`)[0]] = true
			after, worse := mended(m.src, diags, d, fix)
			if worse != nil && secondMistakes[m.name] == worse.Summary {
				second[m.name] = true
			} else if worse != nil {
				t.Errorf("%s: %q\n%smakes\n%s", m.name, fix.Title, written(m.src, hcl.Diagnostics{d}),
					written(after, hcl.Diagnostics{worse}))
			}
			fmt.Fprintf(&b, "=== %s: %s\n%s: %s\n%s", m.name, m.reason, d.Summary, fix.Title, changed(m.src, after))
		}
	}
	if len(kinds) < 45 {
		t.Errorf("only %d kinds of mistakes have a fix", len(kinds))
	}
	if len(second) != len(secondMistakes) {
		t.Errorf("of the second mistakes only %v are left", second)
	}
	golden(t, "testdata/fixes.txt", b.String())
}

var visible = strings.NewReplacer("\n", "", "\r", `\r`, "\ufeff", `\ufeff`, "\u00a0", `\u00a0`, "\u200b", `\u200b`)

// changed are the lines that differ.
func changed(before, after string) string {
	a, b := strings.SplitAfter(before, "\n"), strings.SplitAfter(after, "\n")
	for len(a) > 0 && len(b) > 0 && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	var out strings.Builder
	for i, lines := range [][]string{a, b} {
		for _, l := range lines {
			fmt.Fprintf(&out, "%c %s\n", "-+"[i], visible.Replace(l))
		}
	}
	return out.String()
}

// TestFixesOfSlips: every fix of a single slip mends it.
func TestFixesOfSlips(t *testing.T) {
	n := 0
	sliptest.Mutants(slipped, func(m string) {
		_, diags := build(m)
		for _, d := range diags {
			if fix, ok := hcltext.FixOf(d); ok {
				n++
				if after, worse := mended(m, diags, d, fix); worse != nil {
					t.Errorf("%q\n%smakes\n%s", fix.Title, written(m, hcl.Diagnostics{d}),
						written(after, hcl.Diagnostics{worse}))
				}
			}
		}
	})
	if n < 500 {
		t.Errorf("only %d fixes were tried", n)
	}
}

// golden holds a text against a file, or writes it.
func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	compare(t, string(want), got)
}
