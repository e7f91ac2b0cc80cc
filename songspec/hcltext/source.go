package hcltext

import (
	"bytes"
	"cmp"
	"maps"
	"slices"
	"sort"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/apparentlymart/go-textseg/v15/textseg"
	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Source is the text of a file with what is needed to point into it.
type Source struct {
	Name string
	Src  []byte // as it is on the disk
	// masked is what HCL sees: as long as Src, and the same but for what stands in
	// texts. See hidden and mask. HCL's byte offsets hold for Src, its lines and columns
	// do not.
	masked []byte
	lines  []int // byte offset of each line's first character
	bounds Bounds
}

// ByteOrderMark may stand in front of a text. It is in no column.
var ByteOrderMark = []byte("\xef\xbb\xbf")

// NewSource finds the lines of a text.
func NewSource(name string, src []byte) *Source {
	s := &Source{Name: name, Src: src, masked: src}
	first := 0
	if bytes.HasPrefix(src, ByteOrderMark) {
		first = len(ByteOrderMark)
	}
	s.lines = append(s.lines, first)
	for i, b := range src {
		if b == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
	return s
}

// LineCount is how many lines there are.
func (s *Source) LineCount() int { return len(s.lines) }

// LineOf is the number of the line, from 1, that holds a byte offset.
func (s *Source) LineOf(off int) int {
	return max(1, sort.Search(len(s.lines), func(i int) bool { return s.lines[i] > off }))
}

// LineStart is the byte offset of the first character of a line.
func (s *Source) LineStart(line int) int { return s.lines[line-1] }

// LineText is a line without its end.
func (s *Source) LineText(line int) []byte {
	if line < 1 || line > len(s.lines) {
		return nil
	}
	from, to := s.lines[line-1], len(s.Src)
	if line < len(s.lines) {
		to = s.lines[line]
	}
	return bytes.TrimRight(s.Src[min(from, to):to], "\r\n")
}

// Position is a place in a text, counted in each way that anybody counts. All are from
// 1, and a byte-order mark is in no column.
type Position struct {
	Line     int
	Byte     int // column in bytes of UTF-8
	Grapheme int // column in characters as a reader sees them, as HCL and our messages count
	UTF16    int // column in units of UTF-16, as editors and their protocols count
}

// Position is where a byte offset stands.
func (s *Source) Position(off int) Position {
	off = min(max(off, 0), len(s.Src))
	line := s.LineOf(off)
	before := s.Src[min(s.lines[line-1], off):off]
	p := Position{Line: line, Byte: 1 + len(before), Grapheme: 1 + len(before), UTF16: 1}
	for _, r := range string(before) {
		p.UTF16 += utf16.RuneLen(r)
	}
	if !isASCII(string(before)) {
		if n, err := textseg.TokenCount(before, textseg.ScanGraphemeClusters); err == nil {
			p.Grapheme = 1 + n
		}
	}
	return p
}

func isASCII(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return r >= utf8.RuneSelf })
}

// Pos is where a byte offset stands as HCL has it.
func (s *Source) Pos(off int) hcl.Pos {
	p := s.Position(off)
	return hcl.Pos{Line: p.Line, Column: p.Grapheme, Byte: min(max(off, 0), len(s.Src))}
}

// Attributes are the attributes of a body as they stand in the file.
func Attributes(body *hclsyntax.Body) []*hclsyntax.Attribute {
	return slices.SortedFunc(maps.Values(body.Attributes), func(a, b *hclsyntax.Attribute) int {
		return cmp.Compare(a.SrcRange.Start.Byte, b.SrcRange.Start.Byte)
	})
}

// Range is the range of the bytes lo up to hi.
func (s *Source) Range(lo, hi int) hcl.Range {
	return hcl.Range{Filename: s.Name, Start: s.Pos(lo), End: s.Pos(hi)}
}
