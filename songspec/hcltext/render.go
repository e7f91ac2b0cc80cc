package hcltext

import (
	"bufio"
	"bytes"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/apparentlymart/go-textseg/v15/textseg"
	"github.com/hashicorp/hcl/v2"
	"golang.org/x/text/width"

	"plinth/songspec/wording"
)

// DiagOptions say how diagnostics are written.
type DiagOptions struct {
	Color bool
	Max   int // how many are shown, the rest counted; 0: 10, negative: all
}

// snippetColumns is how much of a long source line is shown.
const snippetColumns = 100

// WriteDiagnostics writes diagnostics for a person, each as
//
//	song.hcl:14:12: error: No section named "vers"
//	  14 |   play "vers" {}
//	     |        ^~~~~~
//	  Is it "verse"?
//
// sorted by place, at most Max of them with the rest counted. When there are
// more, errors are shown before warnings. sources are the texts by file name; a
// diagnostic without its source is written without the snippet. Control
// characters of the sources never reach w. The first error of w is returned.
func WriteDiagnostics(w io.Writer, sources map[string][]byte, diags hcl.Diagnostics, opts DiagOptions) error {
	all := slices.Clone(diags)
	SortDiagnostics(all)
	left := cmp.Or(opts.Max, 10)
	if left < 0 {
		left = len(all)
	}
	shown, errors := choose(all, hcl.DiagError, left)
	more, warnings := choose(all, hcl.DiagWarning, left-len(shown))
	shown = append(shown, more...)
	SortDiagnostics(shown)
	out := bufio.NewWriter(w)
	r := renderer{out: out, color: opts.Color, sources: map[string]*Source{}}
	for name, src := range sources {
		r.sources[name] = NewSource(name, src)
	}
	for _, d := range shown {
		r.one(d)
	}
	var rest []string
	if errors > 0 {
		rest = append(rest, wording.Count(errors, "error"))
	}
	if warnings > 0 {
		rest = append(rest, wording.Count(warnings, "warning"))
	}
	if len(rest) > 0 {
		fmt.Fprintf(out, "and %s more\n", wording.And(rest))
	}
	return out.Flush()
}

// choose picks the first of the diagnostics that are errors, or warnings, and counts the
// others of them.
func choose(all hcl.Diagnostics, severity hcl.DiagnosticSeverity, most int) (shown hcl.Diagnostics, others int) {
	for _, d := range all {
		if d.Severity == severity {
			shown = append(shown, d)
		}
	}
	most = min(most, len(shown))
	return shown[:most], len(shown) - most
}

type renderer struct {
	out     *bufio.Writer
	color   bool
	sources map[string]*Source
}

func (r *renderer) paint(code, s string) string {
	if !r.color || s == "" {
		return s
	}
	return "\x1b[" + code + "m" + s + "\x1b[0m"
}

func (r *renderer) one(d *hcl.Diagnostic) {
	word, code := "error", "1;31"
	if d.Severity == hcl.DiagWarning {
		word, code = "warning", "1;33"
	}
	if d.Subject != nil && d.Subject.Filename != "" {
		place := fmt.Sprintf("%s:%d:%d:", plainText(d.Subject.Filename), d.Subject.Start.Line, d.Subject.Start.Column)
		fmt.Fprint(r.out, r.paint("1", place), " ")
	}
	fmt.Fprintf(r.out, "%s %s\n", r.paint(code, word+":"), r.paint("1", plainText(d.Summary)))
	r.snippet(d, code)
	for _, line := range strings.Split(d.Detail, "\n") {
		if line != "" {
			fmt.Fprintf(r.out, "  %s\n", plainText(line))
		}
	}
}

// snippet writes the source line and the caret under it.
func (r *renderer) snippet(d *hcl.Diagnostic, code string) {
	if d.Subject == nil {
		return
	}
	s, n := r.sources[d.Subject.Filename], d.Subject.Start.Line
	if s == nil || len(bytes.TrimSpace(s.LineText(n))) == 0 {
		return
	}
	text, from := s.LineText(n), s.LineStart(n)
	lo := min(max(d.Subject.Start.Byte-from, 0), len(text))
	hi := min(max(d.Subject.End.Byte-from, lo), len(text))
	before, marked, after := window(text, lo, hi)
	gutter := fmt.Sprintf("%4d", n)
	fmt.Fprintf(r.out, "%s | %s%s%s\n", gutter, before, marked, after)
	mark := "^" + strings.Repeat("~", max(0, Columns(marked)-1))
	fmt.Fprintf(r.out, "%s | %s%s\n", strings.Repeat(" ", len(gutter)), blanks(before), r.paint(code, mark))
}

// window cuts a line into what stands before, under and after the mark, made
// printable, and shortens each where the line is long.
func window(text []byte, lo, hi int) (before, marked, after string) {
	before, marked, after = plainText(string(text[:lo])), plainText(string(text[lo:hi])), plainText(string(text[hi:]))
	if Columns(before) > snippetColumns*2/3 {
		before = "…" + tail(before, snippetColumns/2)
	}
	if Columns(marked) > snippetColumns/2 {
		marked = head(marked, snippetColumns/2) + "…"
		after = ""
	}
	if rest := snippetColumns - Columns(before) - Columns(marked); Columns(after) > max(rest, 0) {
		after = head(after, max(rest, 0)) + "…"
	}
	return before, marked, after
}

func head(s string, n int) string {
	r := []rune(s)
	return string(r[:min(n, len(r))])
}

func tail(s string, n int) string {
	r := []rune(s)
	return string(r[max(0, len(r)-n):])
}

// blanks is a string of blanks as wide as s, its tabs kept.
func blanks(s string) string {
	parts := strings.Split(s, "\t")
	for i, part := range parts {
		parts[i] = strings.Repeat(" ", Columns(part))
	}
	return strings.Join(parts, "\t")
}

// Columns is how many Columns of a terminal a text takes: two for wide
// characters, one for each other character as a reader sees it.
func Columns(s string) int {
	if isASCII(s) {
		return len(s)
	}
	n := 0
	for b := []byte(s); len(b) > 0; {
		adv, g, err := textseg.ScanGraphemeClusters(b, true)
		if err != nil || adv == 0 {
			break
		}
		b = b[adv:]
		c, _ := utf8.DecodeRune(g)
		switch width.LookupRune(c).Kind() {
		case width.EastAsianWide, width.EastAsianFullwidth:
			n += 2
		default:
			n++
		}
	}
	return n
}

// plainText makes a text safe for a terminal: control characters, marks that
// turn the direction of writing, and broken UTF-8 are written as escapes.
func plainText(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, `\x%02x`, s[i])
		case unsafe(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteString(s[i : i+n])
		}
		i += n
	}
	return b.String()
}

func unsafe(r rune) bool {
	return r != '\t' && unicode.IsControl(r) || r == utf8.RuneError ||
		r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x200e || r == 0x200f || r == 0xfeff ||
		r == 0x2028 || r == 0x2029
}
