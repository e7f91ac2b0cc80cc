package songspec

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"
)

// slips are slips in how a section is written, and what is told of each.
var slips = []struct{ section, says string }{
	{"section \"z\" {\n  chords = \"| C |\"\n  tempo: 72\n}\n", "A colon for an equals sign"},
	{"section 'z' {\n  chords = \"| C |\"\n}\n", "A name without quotes"},
	{"section \"z\" {\n  chords = \"| C |\n}\n", "A text is never closed"},
	{"section \"z\" {\n  chords = | C |\n}\n", "Chord text needs quotes"},
	{"section \"z\" {\n  chords = <<-EOT\n    | C |\n}\n", "A text is never closed"},
	{"section \"z\" {\n  chords = \"| C |\"\n  accent 2 4 {}\n}\n", "A place without quotes"},
	{"section \"z\" {\n  chords = \"| C |\"\n  accent \"2\" {\n    by = [\"drums\"\n  }\n}\n",
		"A list is never closed"},
	{"section \"z\" {\n  chords = \"| C |\"\n  accent \"2\" {\n    weight = 2\n}\n", "A brace is never closed"},
	{"section \"z\" {\n  chords = \"| C |\"\n  tempo = 72 bpm\n}\n", "Something after the number"},
	{"section \"z\" {\n  chords = \"| C |\"\n}\n}\n", "A closing brace too many"},
	{"section \"z\" {\n  chords = \"| C |\"\n  energy = {2, 4}\n}\n", "Braces where a value belongs"},
}

// hidden are the mistakes that wait until a slip is mended: what they say of the whole song is not
// known before.
var hidden = []string{"The vocal starts after the song", "The vocal starts nowhere",
	"A song without a section",
	// When a place comes depends on all that is before it.
	"Too far from the tempo", "Times out of order", "Two times for one place"}

// TestSlipHidesNothing: with a slip in one section, the mistakes in all others are told as they
// are without it.
func TestSlipHidesNothing(t *testing.T) {
	n := 0
	for _, m := range slices.Concat(mistakes, fixable) {
		f, _ := Parse("t.song.hcl", []byte(m.src))
		if f == nil || f.slipped || strings.HasPrefix(m.src, "\ufeff") {
			continue
		}
		_, alone := build(m.src)
		for _, s := range slips {
			for _, src := range []string{s.section + m.src, m.src + s.section} {
				tl, both := build(src)
				if !says(both, s.says) || tl != nil {
					t.Errorf("%s: %q is not told:\n%s", m.name, s.says, written(src, both))
				}
				for _, d := range alone {
					if d.Severity != hcl.DiagError || slices.Contains(hidden, d.Summary) {
						continue
					}
					if n++; !says(both, d.Summary) {
						t.Errorf("%s: %q is hidden by %q", m.name, d.Summary, s.says)
					}
				}
			}
		}
	}
	if n < 2000 {
		t.Errorf("only %d pairs were tried", n)
	}
}

// TestSlipsTogether: of several slips each is told once, and nothing else.
func TestSlipsTogether(t *testing.T) {
	src, want := "", map[string]int{}
	for i, s := range slips {
		src += strings.Replace(s.section, "z", fmt.Sprint("z", i), 1)
		want[s.says]++
	}
	_, diags := build(src + one("| C | F |") + "form {\n  play \"z1\" {}\n  play \"a\" {}\n}\n")
	got := map[string]int{}
	for _, d := range diags {
		got[d.Summary]++
	}
	if !maps.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// TestSlipsAreBounded: however many slips there are, the work is in proportion to the text.
func TestSlipsAreBounded(t *testing.T) {
	for _, line := range []string{"x {\n", "section \"a\" {\n", "a = [\n", "chords = <<-EOT\n", "\"\n", "}\n", "{}}\n",
		"/*\n", "tempo: 72\n", "play \"a\n", "section a\n", "a {\n b {\n  c {\n"} {
		src := strings.Repeat(line, 60000/len(line))
		if _, diags := build(src); !diags.HasErrors() || len(diags) > 120 {
			t.Errorf("%q: %d messages", line, len(diags))
		}
	}
}

func says(diags hcl.Diagnostics, summary string) bool {
	for _, d := range diags {
		if d.Summary == summary {
			return true
		}
	}
	return false
}
