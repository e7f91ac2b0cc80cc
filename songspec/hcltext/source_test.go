package hcltext

import (
	"strings"
	"testing"
)

// TestPosition: each kind of column, of the bar line that ends a line.
func TestPosition(t *testing.T) {
	for _, row := range []struct {
		reason, before        string
		byte, grapheme, utf16 int
	}{
		{"nothing before it", "", 1, 1, 1},
		{"plain letters", "abc ", 5, 5, 5},
		{"a tab is one character", "\ta", 3, 3, 3},
		{"é as one character", "\u00e9", 3, 2, 2},
		{"é as a letter and its accent", "e\u0301", 4, 2, 3},
		{"a flat sign", "B♭", 5, 3, 3},
		{"a thumb with a skin tone", "\U0001F44D\U0001F3FD", 9, 2, 5},
		{"all of them", "\u00e9e\u0301\U0001F44D\U0001F3FD♭\t", 18, 6, 10},
	} {
		for name, src := range map[string]string{
			"first line":         row.before + "|\nx\n",
			"byte-order mark":    "\xef\xbb\xbf" + row.before + "|\nx\n",
			"after a line end":   "♭x\n" + row.before + "|",
			"after CRLF":         "♭x\r\n" + row.before + "|\r\n",
			"mark, and CRLF":     "\xef\xbb\xbf♭x\r\n" + row.before + "|",
			"lines without text": "\n\r\n" + row.before + "|",
		} {
			s := NewSource("t", []byte(src))
			off := strings.IndexByte(src, '|')
			want := Position{1 + strings.Count(src[:off], "\n"), row.byte, row.grapheme, row.utf16}
			if got := s.Position(off); got != want {
				t.Errorf("%s, %s: %+v, want %+v", row.reason, name, got, want)
			}
			if p := s.Pos(off); p.Line != want.Line || p.Column != want.Grapheme || p.Byte != off {
				t.Errorf("%s, %s: HCL gets %+v", row.reason, name, p)
			}
			if got := s.LineStart(want.Line) + want.Byte - 1; got != off {
				t.Errorf("%s, %s: the column in bytes leads to byte %d, not %d", row.reason, name, got, off)
			}
			if text := string(s.LineText(want.Line)); text != row.before+"|" {
				t.Errorf("%s, %s: the line is %q", row.reason, name, text)
			}
		}
	}
}

// TestPositionAtLineEnds: a line's end belongs to its line, and what is outside of the
// text is at its ends.
func TestPositionAtLineEnds(t *testing.T) {
	s := NewSource("t", []byte("\xef\xbb\xbfab\r\nc"))
	for off, want := range map[int]Position{
		-1: {1, 1, 1, 1}, 0: {1, 1, 1, 1}, 2: {1, 1, 1, 1}, 3: {1, 1, 1, 1},
		5: {1, 3, 3, 3}, 6: {1, 4, 4, 4}, 7: {2, 1, 1, 1}, 8: {2, 2, 2, 2}, 99: {2, 2, 2, 2},
	} {
		if got := s.Position(off); got != want {
			t.Errorf("byte %d: %+v, want %+v", off, got, want)
		}
	}
}

func TestQuote(t *testing.T) {
	for _, text := range []string{"", "verse", `a "b" \c`, "100 % ${x} %{y} $${z} %%{", "é♭", "a\tb"} {
		quoted := Quote(text)
		s := NewSource("t", []byte(quoted))
		if got := s.TextOf(RawText{Lo: 1, Hi: len(quoted) - 1}); got != text {
			t.Errorf("%s reads %q, not %q", quoted, got, text)
		}
	}
}
