package hcltext

import (
	"bytes"
	"slices"
	"strings"
)

var assigns = Pattern(`^[\p{L}_]+\s*:?=`)

// headsBlock reports a line that begins a block, perhaps not quite as it should.
func (r *recovery) headsBlock(lines []textLine, i int) bool {
	l := lines[i]
	named := r.Blocks[l.word()] != ""
	if r.open(l) >= 0 {
		return named || !assigns().MatchString(l.text)
	}
	if !named || assigns().MatchString(l.text) {
		return false
	}
	next := nextOf(lines, i)
	return strings.HasSuffix(l.text, "{") ||
		next < len(lines) && (strings.HasPrefix(lines[next].text, "{") || lines[next].indent > l.indent ||
			slices.Contains(r.Top, l.word()) && !slices.Contains(r.Empty, l.word()))
}

// blockAt is where a block stands.
type blockAt struct {
	head    int  // the byte after its head
	brace   int  // the byte of its opening brace; -1: there is none
	lo, hi  int  // the bytes of its inside
	next    int  // the line after it
	endless bool // its closing brace is missing
}

// blockAt finds the block that begins on a line. It ends where as many braces close as open;
// with indented, where a line stands as far to the left as its head, because a brace may be
// missing or too many.
func (r *recovery) blockAt(lines []textLine, i int, indented bool) blockAt {
	l := lines[i]
	b := blockAt{brace: r.open(l), head: l.hi, lo: l.hi}
	from := i // the line with the brace
	if b.brace < 0 && strings.HasSuffix(l.text, "{") {
		b.brace = l.lo + strings.LastIndexByte(string(r.Src[l.lo:l.hi]), '{')
	}
	if next := nextOf(lines, i); b.brace < 0 && next < len(lines) && strings.IndexAny(lines[next].text, `{"`) == 0 {
		if b.brace = r.open(lines[next]); b.brace >= 0 {
			from = next
		}
	}
	if b.brace >= 0 {
		b.head, b.lo = b.brace, b.brace+1
	}
	if indented && b.brace >= 0 {
		if at := r.closing(b.lo, lines[from].hi); at >= 0 {
			b.hi, b.next = at, from+1
			return b
		}
	}
	next := nextOf(lines, from)
	if indented && next < len(lines) && lines[next].indent > l.indent {
		return r.indentedBlock(lines, from, l.indent, b)
	}
	if alone := strings.TrimSpace(string(r.Src[b.lo:lines[from].hi])) != ""; indented && alone {
		for b.next = from + 1; b.next < len(lines) && lines[b.next].text != "" &&
			(lines[b.next].text == "}" || !r.begins(lines[b.next])); {
			if b.next++; strings.HasSuffix(lines[b.next-1].text, "}") {
				break
			}
		}
		b.hi = lines[b.next-1].hi
		return b
	}
	depth := 1
	for k := from; k < len(lines); k++ {
		at := lines[k]
		if end := r.textEnd(lines, k); end > k+1 {
			k = end - 1
			continue
		}
		if k > from && indented && r.headsTop(at) {
			b.hi, b.next, b.endless = at.lo, k, true
			return b
		}
		signs, _ := braces(string(r.Src[at.lo:at.hi]))
		for _, sign := range signs {
			switch {
			case at.lo+sign.at <= b.brace:
			case sign.sign == '{':
				depth++
			case sign.sign == '}':
				if depth--; depth == 0 {
					b.hi, b.next = at.lo+sign.at, k+1
					return b
				}
			}
		}
	}
	b.hi, b.next, b.endless = lines[len(lines)-1].hi, len(lines), true
	return b
}

// headsTop reports the head of a block that stands outside all others.
func (r *recovery) headsTop(l textLine) bool {
	return slices.Contains(r.Top, l.word()) && !assigns().MatchString(l.text)
}

// indentedBlock finds the end of a block with its brace on a line and its inside to the right
// of its head.
func (r *recovery) indentedBlock(lines []textLine, from, indent int, b blockAt) blockAt {
	for k := from + 1; k < len(lines); k++ {
		if end := r.textEnd(lines, k); end > k+1 {
			k = end - 1
			continue
		}
		if lines[k].text == "" || lines[k].indent > indent {
			continue
		}
		if at := r.closing(lines[k].lo, lines[k].hi); at >= 0 && (lines[k].text[0] == '}' || !r.begins(lines[k])) {
			b.hi, b.next = at, k+1
			return b
		}
		if r.begins(lines[k]) {
			return r.closedBehind(lines, k, b)
		}
	}
	return r.closedBehind(lines, len(lines), b)
}

// closedBehind is a block without a closing brace on a line of its own, which may stand behind
// the last thing in it. next is the line after the block.
func (r *recovery) closedBehind(lines []textLine, next int, b blockAt) blockAt {
	last := next - 1
	for lines[last].text == "" {
		last--
	}
	b.hi, b.next, b.endless = lines[next-1].hi, next, true
	if l := lines[last]; l.lo > b.lo && r.closing(l.lo, l.hi) >= 0 {
		b.hi, b.endless = l.lo+bytes.LastIndexByte(r.Src[l.lo:l.hi], '}'), false
	}
	return b
}

var wordSign = Pattern(`[\p{L}\p{N}"]`)

// closing is the first brace of the bytes lo to hi that closes what they do not open, -1 if none
// does. They are of one line; where it has signs alone, or a quote is missing, any brace may.
func (r *recovery) closing(lo, hi int) int {
	line, depth := string(r.Src[lo:hi]), 0
	signs, _ := braces(line)
	for _, s := range signs {
		switch s.sign {
		case '{':
			depth++
		case '}':
			if depth--; depth < 0 {
				return lo + s.at
			}
		}
	}
	at := strings.LastIndexByte(line, '}')
	if at >= 0 && depth == 0 && (halfQuoted(line) || !wordSign().MatchString(line)) {
		return lo + at
	}
	return -1
}

// orphans are the lines from i on that have lost the head of their block, with its closing
// brace: they stand to the right of where the body does. next is i where there are none.
func orphans(lines []textLine, i, indent int) (next int) {
	if lines[i].indent <= indent {
		return i
	}
	for next = i; next < len(lines); next++ {
		if l := lines[next]; l.text != "" && l.indent <= indent {
			if l.text[0] == '}' {
				return next + 1
			}
			break
		}
	}
	return i
}
