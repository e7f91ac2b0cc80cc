package serve

import (
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec"
)

// Mistakes have UTF-16 columns and the lines round them, and of long lines a part.
func TestDiags(t *testing.T) {
	long := strings.Repeat("| C ", 200)
	src := "title = \"𝄞𝄞 é\"\nsection \"a\" {\n  chords = \"" + long + "| Hm𝄞 | " + long + "|\"\n}\n" +
		"section \"𝄞é\" {\n  chords = \"| Isus5 |\"\n}\n"
	_, diags := songspec.Parse("dir/x.song.hcl", []byte(src))
	f, more := songspec.Parse("dir/x.song.hcl", []byte(src))
	if f != nil {
		_, more = f.Resolve(songspec.Env{})
	}
	out, doubts := Diags(append(diags, more...), map[string][]byte{"dir/x.song.hcl": []byte(src)})
	if len(out) < 2 || doubts != nil {
		t.Fatalf("%+v", diags)
	}
	for _, d := range out {
		if d.File != "x.song.hcl" || len(d.Lines) < 2 || d.Severity != "error" {
			t.Errorf("%+v", d)
		}
		for _, l := range d.Lines {
			units := []rune(l.Text)
			marked := l.From != nil && *l.To > *l.From
			if marked != (l.N == d.Line) || len(units) > maxLine+2 {
				t.Errorf("%+v", l)
			}
		}
	}
	text, from, to := cut("𝄞"+strings.Repeat("a", 400)+"BAD"+strings.Repeat("𝄞", 400), 402, 405)
	if units := []rune(text); string(units[from:to]) != "BAD" || units[0] != '…' || units[len(units)-1] != '…' {
		t.Errorf("%q %d %d", text, from, to)
	}
	if text, from, to := cut("short", 1, 3); text != "short" || from != 1 || to != 3 {
		t.Error(text, from, to)
	}
	wrong, doubts := Diags(hcl.Diagnostics{{Severity: hcl.DiagWarning, Summary: "s"}}, nil)
	if wrong != nil || doubts[0].Severity != "warning" || doubts[0].Lines != nil {
		t.Errorf("%+v", doubts)
	}
}
