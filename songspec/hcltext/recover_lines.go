package hcltext

import (
	"bytes"
	"slices"
	"strings"
)

// textLine is a line while a text is read line by line: lines that a comment joins are one.
type textLine struct {
	lo, hi int    // with its end
	text   string // without the blanks around it; "" for a comment, too
	indent int
}

var firstWord = Pattern(`^["'“„]?([\p{L}_][\p{L}\p{N}_]*)`)

// word is the first word of the line, "" where it begins with something else.
func (l textLine) word() string {
	if m := firstWord().FindStringSubmatch(l.text); m != nil {
		return m[1]
	}
	return ""
}

// linesOf are the lines of the bytes lo to hi.
func (s *Source) linesOf(lo, hi int) []textLine {
	var out []textLine
	for lo < hi {
		end := hi
		if i := bytes.IndexByte(s.Src[lo:hi], '\n'); i >= 0 {
			end = lo + i + 1
		}
		raw := string(s.Src[lo:end])
		if _, at := braces(raw); at >= 0 {
			if i := bytes.Index(s.Src[lo+at+2:hi], []byte("*/")); i >= 0 {
				end = lo + at + 2 + i + 2
				if j := bytes.IndexByte(s.Src[end:hi], '\n'); j >= 0 {
					end += j + 1
				} else {
					end = hi
				}
				raw = raw[:at]
			}
		}
		indent := len(raw) - len(strings.TrimLeft(raw, " \t"))
		out = append(out, textLine{lo: lo, hi: end, text: lineText(raw), indent: indent})
		lo = end
	}
	return out
}

// lineText is a line without the blanks around it; "" for a comment.
func lineText(line string) string {
	line = strings.Trim(line, " \t\r\n")
	if strings.HasPrefix(line, "#") || strings.HasPrefix(line, "//") {
		return ""
	}
	return line
}

// brace is one outside of texts and comments, at a byte of its line.
type brace struct {
	at   int
	sign byte
}

// braces are the brackets of a line that stand outside of texts and comments. comment is where
// a comment begins that does not end on the line, -1 if none does.
func braces(line string) (out []brace, comment int) {
	for i := 0; i < len(line); i++ {
		switch c := line[i]; c {
		case '"':
			for i++; i < len(line) && line[i] != '"'; i++ {
				if line[i] == '\\' {
					i++
				}
			}
		case '#':
			return out, -1
		case '/':
			if strings.HasPrefix(line[i:], "//") {
				return out, -1
			}
			if strings.HasPrefix(line[i:], "/*") {
				end := strings.Index(line[i+2:], "*/")
				if end < 0 {
					return out, i
				}
				i += 2 + end + 1
			}
		case '{', '}', '[', ']', '(', ')':
			out = append(out, brace{i, c})
		}
	}
	return out, -1
}

// open is where a block opens in a line, as a byte of the text; -1 where none does.
func (s *Source) open(l textLine) int {
	signs, _ := braces(string(s.Src[l.lo:l.hi]))
	if i := slices.IndexFunc(signs, func(b brace) bool { return b.sign == '{' }); i >= 0 {
		return l.lo + signs[i].at
	}
	return -1
}

// nextOf is the first of the lines after i with something in it; len(lines) when there is none.
func nextOf(lines []textLine, i int) int {
	for i++; i < len(lines) && lines[i].text == ""; {
		i++
	}
	return i
}

var (
	textHead = Pattern(`=\s*<<-?([\p{L}_][\p{L}\p{N}_-]*)$`)
	// InNoText is a line, without the blanks around it, that belongs in no text of several lines: it
	// opens or closes a block, or sets a value.
	InNoText = Pattern(`^(\}|[a-z_]+\s*=)|\{$`)
)

// textEnd is the line after a text of several lines that begins on line i, or i+1 when none
// does. It ends at its word, or before a line that belongs in no text.
func (r *recovery) textEnd(lines []textLine, i int) int {
	m := textHead().FindStringSubmatch(lines[i].text)
	if m == nil {
		return i + 1
	}
	for k := i + 1; k < len(lines); k++ {
		if lines[k].text == m[1] {
			return k + 1
		}
		if InNoText().MatchString(lines[k].text) {
			return k
		}
	}
	return len(lines)
}

// valueEnd is the line after the value that begins on line i.
func (r *recovery) valueEnd(lines []textLine, i int) int {
	if end := r.textEnd(lines, i); end > i+1 {
		return end
	}
	depth := 0
	for k := i; k < len(lines); k++ {
		if k > i && r.begins(lines[k]) {
			break
		}
		signs, comment := braces(string(r.Src[lines[k].lo:lines[k].hi]))
		if comment >= 0 && strings.HasPrefix(lines[k].text, "/*") {
			return len(lines) // a comment that never ends
		}
		for _, s := range signs {
			if strings.IndexByte("{[(", s.sign) >= 0 {
				depth++
			} else {
				depth--
			}
		}
		if depth <= 0 {
			return k + 1
		}
	}
	return i + 1
}

var beginning = Pattern(`^(\}|[\p{L}_]+\s*[=:]|[a-z_]+(\s+"[^"]*")?\s*\{)`)

// begins reports a line that begins something.
func (r *recovery) begins(l textLine) bool {
	if m := partHeading().FindStringSubmatch(l.text); m != nil && r.Part != nil && r.Part(m[1]) {
		return true
	}
	return beginning().MatchString(l.text) || r.known(l.word())
}

// goesOn reports lines that begin with what cannot stand by itself: it belongs to the slip in
// front of it.
func (r *recovery) goesOn(lines []textLine) bool {
	i := nextOf(lines, -1)
	return i < len(lines) && !r.begins(lines[i])
}
