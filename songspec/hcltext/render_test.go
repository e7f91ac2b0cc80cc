package hcltext

import (
	"errors"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"
)

// at makes a diagnostic under the bytes of part in src.
func at(src, part, summary string, sev hcl.DiagnosticSeverity) *hcl.Diagnostic {
	lo := strings.Index(src, part)
	rng := NewSource("t.song.hcl", []byte(src)).Range(lo, lo+len(part))
	return &hcl.Diagnostic{Severity: sev, Summary: summary, Detail: "Write this.", Subject: &rng}
}

func written(src string, diags hcl.Diagnostics) string {
	var b strings.Builder
	_ = WriteDiagnostics(&b, map[string][]byte{"t.song.hcl": []byte(src)}, diags, DiagOptions{Max: -1})
	return b.String()
}

func TestSnippets(t *testing.T) {
	for _, row := range []struct{ name, reason, src, part, want string }{
		{"plain", "the caret and a line under the part", "tempo = 19\n", "19",
			"t.song.hcl:1:9: error: S\n   1 | tempo = 19\n     |         ^~\n  Write this.\n"},
		{"tab", "tabs stay tabs, so that the caret stands right at any width", "\ttempo = 19\n", "19",
			"t.song.hcl:1:10: error: S\n   1 | \ttempo = 19\n     | \t        ^~\n  Write this.\n"},
		{"wide", "a wide character takes two columns and counts as one", "title = \"灯\" 19\n", "19",
			"t.song.hcl:1:13: error: S\n   1 | title = \"灯\" 19\n     |              ^~\n  Write this.\n"},
		{"combining", "a mark on a letter takes no column", "title = \"e\u0301\" 19\n", "19",
			"t.song.hcl:1:13: error: S\n   1 | title = \"e\u0301\" 19\n     |             ^~\n  Write this.\n"},
		{"wide part", "the line under it is as wide", "title = \"灯灯\"\n", "\"灯灯\"",
			"t.song.hcl:1:9: error: S\n   1 | title = \"灯灯\"\n     |         ^~~~~~\n  Write this.\n"},
		{"several lines", "only the first is underlined", "a = <<EOT\nb\nEOT\n", "<<EOT\nb",
			"t.song.hcl:1:5: error: S\n   1 | a = <<EOT\n     |     ^~~~~\n  Write this.\n"},
		{"CRLF", "the line end is not shown", "a = 1\r\nb = 2\r\n", "2",
			"t.song.hcl:2:5: error: S\n   2 | b = 2\n     |     ^\n  Write this.\n"},
		{"turned text", "a mark that turns the writing is shown as what it is", "a = \"\u202ex\" 1\n", "1",
			"t.song.hcl:1:10: error: S\n   1 | a = \"\\u202ex\" 1\n     |               ^\n  Write this.\n"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := written(row.src, hcl.Diagnostics{at(row.src, row.part, "S", hcl.DiagError)})
			if got != row.want {
				t.Errorf("%s:\n got %q\nwant %q", row.reason, got, row.want)
			}
		})
	}
	long := strings.Repeat("x", 60000) + "!" + strings.Repeat("y", 60000) + "\n"
	got := written(long, hcl.Diagnostics{at(long, "!", "S", hcl.DiagError)})
	if len(got) > 400 || !strings.Contains(got, "x!y") {
		t.Errorf("a long line is shown in %d bytes", len(got))
	}
}

func TestTenAreShown(t *testing.T) {
	src := strings.Repeat("ab\n", 30)
	var diags hcl.Diagnostics
	s := NewSource("t.song.hcl", []byte(src))
	for i := 29; i >= 0; i-- {
		rng := s.Range(3*i, 3*i+2)
		sev := hcl.DiagError
		if i < 20 {
			sev = hcl.DiagWarning
		}
		diags = append(diags, &hcl.Diagnostic{Severity: sev, Summary: "S", Subject: &rng})
	}
	var b strings.Builder
	sources := map[string][]byte{"t.song.hcl": []byte(src)}
	if err := WriteDiagnostics(&b, sources, diags[:12], DiagOptions{Max: 5}); err != nil {
		t.Fatal(err)
	}
	// Ten errors and two warnings: five errors are shown, in order.
	got := b.String()
	if strings.Count(got, "error: ") != 5 || strings.Contains(got, "warning:") ||
		!strings.Contains(got, "t.song.hcl:21:1") || !strings.HasSuffix(got, "and 5 errors and 2 warnings more\n") {
		t.Errorf("got\n%s", got)
	}
	b.Reset()
	_ = WriteDiagnostics(&b, nil, diags, DiagOptions{})
	n := strings.Count(b.String(), "\nt.song.hcl:") + 1
	if n != 10 || !strings.HasSuffix(b.String(), "and 20 warnings more\n") {
		t.Errorf("%d are shown when nothing is said:\n%s", n, b.String())
	}
	if diags[0].Subject.Start.Line != 30 {
		t.Error("the caller's list was sorted")
	}
}

func TestColour(t *testing.T) {
	src := "tempo = 19\n"
	d := hcl.Diagnostics{at(src, "19", "S", hcl.DiagError)}
	var b strings.Builder
	_ = WriteDiagnostics(&b, map[string][]byte{"t.song.hcl": []byte(src)}, d, DiagOptions{Color: true})
	if !strings.Contains(b.String(), "\x1b[") || strings.Contains(written(src, d), "\x1b") {
		t.Error("colour where none was asked for, or none where it was")
	}
	// Without its colours it is the same text.
	plain := b.String()
	for _, code := range []string{"\x1b[1;31m", "\x1b[1m", "\x1b[0m"} {
		plain = strings.ReplaceAll(plain, code, "")
	}
	if plain != written(src, d) {
		t.Errorf("got %q", plain)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space") }

func TestWriterErrors(t *testing.T) {
	d := hcl.Diagnostics{{Severity: hcl.DiagError, Summary: "S", Detail: "D."}}
	if err := WriteDiagnostics(full{}, nil, d, DiagOptions{}); err == nil {
		t.Error("the writer's error is lost")
	}
	if got := written("", d); got != "error: S\n  D.\n" {
		t.Errorf("without a place: %q", got)
	}
}
