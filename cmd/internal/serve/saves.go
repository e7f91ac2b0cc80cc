package serve

import (
	"path/filepath"
	"slices"
	"unicode/utf16"

	"github.com/hashicorp/hcl/v2"

	"plinth/groove"
	"plinth/render/page"
	"plinth/songspec/hcltext"
	"plinth/songspec/timeline"
)

// Good tells the page of a save that was built. says is the line that is printed for it.
func (s *Server) Good(tl *timeline.Timeline, perf *groove.Performance, says string, doubts []page.Diag) {
	bed := page.NewBed(tl, perf, s.Sounds)
	s.lost = nil
	s.story.tell(func(st *page.State) {
		st.Says, st.OK, st.Wrong, st.Doubts, st.Bed = says, true, nil, doubts, bed
	})
}

// Wrong tells the page of a save that could not be built. The last good bed stays.
func (s *Server) Wrong(says string, wrong, doubts []page.Diag) {
	s.lost = nil
	s.story.tell(func(st *page.State) { st.Says, st.OK, st.Wrong, st.Doubts = says, false, wrong, doubts })
}

// Lost tells the page that there is no song to build, until Back, Good or Wrong.
func (s *Server) Lost(says, what string) {
	s.story.tell(func(st *page.State) {
		if s.lost == nil {
			before := *st
			s.lost = &before
		}
		st.Says, st.OK, st.Doubts = says, false, nil
		st.Wrong = []page.Diag{{Severity: "error", Summary: what}}
	})
}

// Back tells the page that the song is there again as it was.
func (s *Server) Back() {
	if before := s.lost; before != nil {
		s.lost = nil
		s.story.tell(func(st *page.State) {
			st.Says, st.OK, st.Wrong, st.Doubts = before.Says, before.OK, before.Wrong, before.Doubts
		})
	}
}

// maxDiags is how many mistakes, and how many doubts, a page is told.
const maxDiags = 50

// contextLines is how many lines a page is shown before and after one with a mistake, maxLine how
// many UTF-16 units of a line.
const (
	contextLines = 1
	maxLine      = 240
)

// Diags are mistakes and doubts as the page gets them. sources are the texts by file name.
func Diags(all hcl.Diagnostics, sources map[string][]byte) (wrong, doubts []page.Diag) {
	all = slices.Clone(all)
	hcltext.SortDiagnostics(all)
	texts := map[string]*hcltext.Source{}
	for _, d := range all {
		to := &wrong
		if d.Severity == hcl.DiagWarning {
			to = &doubts
		}
		if len(*to) < maxDiags {
			*to = append(*to, diag(d, sources, texts))
		}
	}
	return wrong, doubts
}

// diag is a mistake or a doubt. texts are the sources that are read already.
func diag(d *hcl.Diagnostic, sources map[string][]byte, texts map[string]*hcltext.Source) page.Diag {
	out := page.Diag{Severity: "error", Summary: d.Summary, Detail: d.Detail}
	if d.Severity == hcl.DiagWarning {
		out.Severity = "warning"
	}
	if d.Subject == nil || d.Subject.Filename == "" {
		return out
	}
	name := d.Subject.Filename
	if src, ok := sources[name]; ok && texts[name] == nil {
		texts[name] = hcltext.NewSource(name, src)
	}
	out.File, out.Line, out.Column = filepath.Base(name), d.Subject.Start.Line, d.Subject.Start.Column
	if text := texts[name]; text != nil {
		out.Column = text.Position(d.Subject.Start.Byte).UTF16
		out.Lines = lines(text, d.Subject)
	}
	return out
}

// lines are the line of a mistake, with what is to be underlined, and those round it.
func lines(text *hcltext.Source, at *hcl.Range) []page.Line {
	var out []page.Line
	for n := max(1, at.Start.Line-contextLines); n <= min(text.LineCount(), at.Start.Line+contextLines); n++ {
		line := page.Line{N: n, Text: string(text.LineText(n))}
		if n == at.Start.Line {
			from := text.Position(at.Start.Byte).UTF16 - 1
			end := min(at.End.Byte, text.LineStart(n)+len(text.LineText(n)))
			to := max(from+1, text.Position(end).UTF16-1)
			line.Text, from, to = cut(line.Text, from, to)
			line.From, line.To = &from, &to
		} else {
			line.Text, _, _ = cut(line.Text, 0, 0)
		}
		out = append(out, line)
	}
	return out
}

// cut leaves of a long line what stands round a stretch of UTF-16 units, and says where that is now.
func cut(s string, from, to int) (string, int, int) {
	units := utf16.Encode([]rune(s))
	if len(units) <= maxLine {
		return s, from, to
	}
	lo := max(0, min(from-maxLine/3, len(units)-maxLine))
	hi := lo + maxLine
	whole := func(i int) int { // not between the two halves of a character
		if i < len(units) && units[i] >= 0xdc00 && units[i] < 0xe000 {
			return i - 1
		}
		return i
	}
	lo, hi = whole(lo), whole(hi)
	before, after := "", ""
	if lo > 0 {
		before = "…"
	}
	if hi < len(units) {
		after = "…"
	}
	shift := len([]rune(before)) - lo
	return before + string(utf16.Decode(units[lo:hi])) + after, from + shift, min(to, hi) + shift
}
