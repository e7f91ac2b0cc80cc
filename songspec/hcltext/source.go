package songspec

import (
	"bytes"
	"sort"

	"github.com/apparentlymart/go-textseg/v15/textseg"
	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// source is a song file's text with what is needed to point into it.
type source struct {
	name string
	src  []byte // as it is on the disk
	// masked is what HCL sees: as long as src, and the same but for what stands in
	// texts. See veil and mask. HCL's byte offsets hold for src, its lines and
	// columns do not.
	masked []byte
	lines  []int // byte offset of each line's first character
}

var byteOrderMark = []byte("\xef\xbb\xbf")

func newSource(name string, src []byte) *source {
	s := &source{name: name, src: src, masked: src}
	first := 0
	if bytes.HasPrefix(src, byteOrderMark) {
		first = len(byteOrderMark)
	}
	s.lines = append(s.lines, first)
	for i, b := range src {
		if b == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
	return s
}

// line is the number of the line, from 1, that holds a byte offset.
func (s *source) line(off int) int {
	return max(1, sort.Search(len(s.lines), func(i int) bool { return s.lines[i] > off }))
}

// lineText is a line without its end.
func (s *source) lineText(line int) []byte {
	if line < 1 || line > len(s.lines) {
		return nil
	}
	from, to := s.lines[line-1], len(s.src)
	if line < len(s.lines) {
		to = s.lines[line]
	}
	return bytes.TrimRight(s.src[min(from, to):to], "\r\n")
}

// pos turns a byte offset into a line and a column, both from 1. As in HCL, a
// column is a character as a reader sees it (a grapheme cluster).
func (s *source) pos(off int) hcl.Pos {
	off = min(max(off, 0), len(s.src))
	line := s.line(off)
	from := min(s.lines[line-1], off)
	return hcl.Pos{Line: line, Column: 1 + graphemes(s.src[from:off]), Byte: off}
}

// rng is the range of the bytes lo up to hi.
func (s *source) rng(lo, hi int) hcl.Range {
	return hcl.Range{Filename: s.name, Start: s.pos(lo), End: s.pos(hi)}
}

func graphemes(b []byte) int {
	for _, c := range b {
		if c >= 0x80 {
			n, err := textseg.TokenCount(b, textseg.ScanGraphemeClusters)
			if err != nil {
				return len(b)
			}
			return n
		}
	}
	return len(b)
}

// rawText is where a quoted or heredoc text stands in the file, its marks left
// out. Escapes are still escapes.
type rawText struct {
	lo, hi  int
	heredoc bool
}

// raw finds the text of an expression; ok is false when it is not plain text.
func (s *source) raw(expr hclsyntax.Expression) (t rawText, ok bool) {
	for {
		p, is := expr.(*hclsyntax.ParenthesesExpr)
		if !is {
			break
		}
		expr = p.Expression
	}
	if _, is := expr.(*hclsyntax.TemplateExpr); !is {
		return t, false
	}
	r := expr.Range()
	t.lo, t.hi = r.Start.Byte, r.End.Byte
	if t.hi > len(s.src) || t.lo >= t.hi {
		return t, false
	}
	b := s.src[t.lo:t.hi]
	switch {
	case len(b) >= 2 && b[0] == '"' && b[len(b)-1] == '"':
		t.lo, t.hi = t.lo+1, t.hi-1
		return t, true
	case bytes.HasPrefix(b, []byte("<<")):
		nl := bytes.IndexByte(b, '\n')
		if nl < 0 {
			return t, false
		}
		body := bytes.TrimRight(b, "\r\n")
		last := bytes.LastIndexByte(body, '\n')
		t.heredoc = true
		t.lo, t.hi = t.lo+nl+1, t.lo+max(nl, last)+1
		return t, true
	}
	return t, false
}
