package songspec

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"
)

// The bounds, each with the figure that its message must name.
func TestBounds(t *testing.T) {
	song := one("| C |")
	sections := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "section \"s%d\" {\n  chords = \"| C |\"\n}\n", i)
		}
		return b.String()
	}
	events := func(n int) string {
		var b strings.Builder
		b.WriteString("section \"a\" {\n  chords = \"| C |\"\n")
		for i := range n {
			fmt.Fprintf(&b, "  accent \"%d%s %d\" {}\n", 1+i%4, []string{"", "e", "&", "a"}[i/4%4], 1+i/16)
		}
		b.WriteString("}\n")
		return b.String()
	}
	plays := func(bars, n int) string {
		return one("| "+strings.Repeat("C | ", bars)) + "form {\n" + strings.Repeat("  play \"a\" {}\n", n) + "}\n"
	}
	for _, row := range []struct{ name, src, says string }{
		{"60,000 brackets", "a = " + strings.Repeat("[", 60000), "64 deep"},
		{"60,000 braces", strings.Repeat("a {\n", 60000), "64 deep"},
		{"brackets of a template", "a = \"" + strings.Repeat("${", 60000), ""},
		{"100,000 signs", "a = " + strings.Repeat("!", 100000) + "true", "16 signs"},
		{"minus after minus", "tempo = " + strings.Repeat("-", 20) + "1\n" + song, "16 signs"},
		{"a long sum", "tempo = 1" + strings.Repeat("+1", 100) + "\n" + song, "64 signs"},
		{"chained conditions", "a = " + strings.Repeat("a?b:", 40000) + "1", "64 signs"},
		{"too many words", strings.Repeat("a\n", 120000), "200000 words"},
		{"257 KiB", song + "#" + strings.Repeat("x", 257<<10), "256 KiB"},
		{"2 MiB", strings.Repeat("# a song\n", 2<<20/9), "256 KiB"},
		{"33 KiB of chords", "section \"a\" {\n  chords = <<-EOT\n" + strings.Repeat("| C | F | G | C |\n",
			1900) + "EOT\n}\n", "32 KiB"},
		{"33 KiB of quoted chords", one(strings.Repeat("C | F | ", 4300)), "32 KiB"},
		{"65 sections", sections(65), "64 sections"},
		{"65 events", events(65), "64 events"},
		{"10,001 bars", plays(73, 137), "10000 bars"},
		{"title of 201", "title = \"" + strings.Repeat("x", 201) + "\"\n" + song, "200 characters"},
		{"name of 65", strings.Replace(song, `"a"`, `"`+strings.Repeat("x", 65)+`"`, 1), "64 characters"},
	} {
		t.Run(row.name, func(t *testing.T) {
			tl, diags := build(row.src)
			if tl != nil || !diags.HasErrors() {
				t.Fatal("it was taken")
			}
			first := slices.IndexFunc(diags, func(d *hcl.Diagnostic) bool { return d.Severity == hcl.DiagError })
			if text := diags[first].Summary + ": " + diags[first].Detail; !strings.Contains(text, row.says) {
				t.Errorf("says %q", text)
			}
		})
	}
	for _, row := range []struct{ name, src string }{
		{"64 sections", sections(64)},
		{"64 events", events(64)},
		{"10,000 bars", plays(100, 100)},
		{"16 KiB of quoted chords", one("| " + strings.Repeat("C | F | ", 2000))},
	} {
		if tl, diags := build(row.src); tl == nil {
			t.Errorf("%s: %v", row.name, diags)
		}
	}
}

func TestTooManyEventsOfASong(t *testing.T) {
	// 64 events in every bar of 10,000 would be 640,000.
	src := "section \"a\" {\n  chords = \"|: " + strings.Repeat("C | ", 50) + "C :|x10 C | C |\"\n"
	for i := range 16 {
		src += fmt.Sprintf("  accent \"1 1e 1& 1a 2 2e 2& 2a 3 3e 3& 3a 4 4e 4& %d\" {}\n  push \"1%s 2 3 4\" {}\n",
			i%4+1, []string{"", "e", "&", "a"}[i%4])
	}
	src += "}\nform {\n" + strings.Repeat("  play \"a\" {}\n", 19) + "}\n"
	tl, diags := build(src)
	if tl != nil || !strings.Contains(written(src, diags), "200000 events") {
		t.Errorf("got %v", diags)
	}
}

// Nothing of a song file is a template: what looks like one is text.
func TestNoTemplates(t *testing.T) {
	tl := good(t, "title = \"100 %{ ${ $${ %%{\"\n"+one("| C | % |"))
	if want := "100 %{ ${ ${ %{"; tl.Title != want {
		t.Errorf("got %q", tl.Title)
	}
}

func TestLineEndsAndMarks(t *testing.T) {
	src := "title = \"x\"\nsection \"a\" {\n  chords = <<-EOT\n    | C | F |\n  EOT\n  accent \"2\" {}\n}"
	want := good(t, src+"\n")
	for name, s := range map[string]string{
		"no final line end": src,
		"CRLF":              strings.ReplaceAll(src+"\n", "\n", "\r\n"),
		"byte-order mark":   "\xef\xbb\xbf" + src + "\n",
		"both":              "\xef\xbb\xbf" + strings.ReplaceAll(src+"\n", "\n", "\r\n"),
	} {
		got := good(t, s)
		if fmt.Sprint(got.Passes[0].Bars, got.Passes[0].Chords, told(&got.Passes[0])) != fmt.Sprint(want.Passes[0].Bars,
			want.Passes[0].Chords, told(&want.Passes[0])) {
			t.Errorf("%s: another song", name)
		}
	}
}
