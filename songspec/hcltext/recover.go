package hcltext

import (
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Recovered is what can be read of a text in which the parser stumbled.
type Recovered struct {
	Body *hclsyntax.Body
	// cut are, by the body that they stood in, the first words of what could not be read; ""
	// where the word could not be read either.
	cut map[*hclsyntax.Body][]string
}

// Cut reports whether one of the words stands in a body, or may stand there, in something
// that could not be read. Nothing is cut out of a text that was read as a whole: r is nil there.
func (r *Recovered) Cut(body *hclsyntax.Body, words ...string) bool {
	return r != nil && slices.ContainsFunc(r.cut[body],
		func(w string) bool { return w == "" || slices.Contains(words, w) })
}

// What recovering may cost. A text with more slips than that is not worth reading on.
const (
	maxSlips    = 50
	maxReadings = 8 // times the length of the text
	maxDepth    = 5 // blocks in blocks
)

// recovery is the state of Recover.
type recovery struct {
	*Source
	*Dialect
	rep  Report
	out  *Recovered
	left int // bytes that may still be parsed
}

// Recover reads a text in which the parser stumbled, block by block and line by line: what
// cannot be read is told, and cut out. told are slips that are known already. The work is at
// most in proportion to the length of the text.
func (s *Source) Recover(dialect *Dialect, told hcl.Diagnostics) (*Recovered, hcl.Diagnostics) {
	r := &recovery{Source: s, Dialect: dialect, rep: Report{Source: s, Diags: slices.Clone(told)},
		out: &Recovered{cut: map[*hclsyntax.Body][]string{}}, left: maxReadings*len(s.Src) + 64<<10}
	r.out.Body, _ = r.body(s.lines[0], len(s.Src), 0)
	return r.out, r.rep.Sorted()
}

// body reads the bytes lo to hi as the inside of a block. endless says that the last thing in
// it has no end.
func (r *recovery) body(lo, hi, depth int) (body *hclsyntax.Body, endless bool) {
	body = &hclsyntax.Body{Attributes: hclsyntax.Attributes{}}
	lines := r.linesOf(lo, hi)
	indent := 0
	if first := nextOf(lines, -1); first < len(lines) {
		indent = lines[first].indent
	}
	for i := 0; i < len(lines); {
		if len(r.rep.Diags) >= maxSlips || r.left <= 0 {
			r.cutOut(body, "")
			break
		}
		if lines[i].text == "" {
			i++
			continue
		}
		if next := orphans(lines, i, indent); next > i {
			brace := lines[next-1]
			_, diags := r.parse(brace.lo, brace.hi, "")
			r.tell(lines[i].lo, brace.hi, diags)
			r.cutOut(body, "")
			i, endless = next, false
			continue
		}
		i, endless = r.item(body, lines, i, depth)
	}
	return body, endless
}

// item reads what begins on a line into a body, and returns the line after it.
func (r *recovery) item(into *hclsyntax.Body, lines []textLine, i, depth int) (next int, endless bool) {
	if depth < maxDepth && r.headsBlock(lines, i) {
		return r.blockItem(into, lines, i, depth)
	}
	lo := lines[i].lo
	next = r.valueEnd(lines, i)
	whole, diags := r.parse(lo, lines[next-1].hi, "")
	if whole != nil {
		r.merge(into, whole)
		return next, false
	}
	own := next
	for r.goesOn(lines[next:]) {
		next++
	}
	if told := r.tell(lo, lines[next-1].hi, diags); told != nil && next > own {
		r.keepFix(told, lo, lines[next-1].hi)
	}
	if lines[i].text[0] != '}' {
		r.cutOut(into, lines[i].word())
	}
	return next, r.cutOff(lines[next-1].hi) || next == len(lines) && textHead().MatchString(lines[i].text)
}

// keepFix takes the fix from a slip where the bytes lo to hi would still be wrong with it.
func (r *recovery) keepFix(told *hcl.Diagnostic, lo, hi int) {
	f, ok := FixOf(told)
	if from, to := f.Range.Start.Byte, f.Range.End.Byte; ok && lo <= from && to <= hi {
		fixed := string(r.Src[lo:from]) + f.Text + string(r.Src[to:hi])
		if whole, _ := r.parseText(fixed, lo); whole == nil {
			told.Extra = nil
		}
	}
}

// blockItem is item for a block.
func (r *recovery) blockItem(into *hclsyntax.Body, lines []textLine, i, depth int) (next int, endless bool) {
	l := lines[i]
	b := r.blockAt(lines, i, true)
	last := &lines[b.next-1]
	hi := last.hi
	if rest := r.Src[min(b.hi+1, hi):hi]; !b.endless && lineText(string(rest)) != "" {
		_, diags := r.parse(l.lo, hi, "")
		r.tell(last.lo, hi, diags)
		hi = b.hi + 1
		last.lo, last.text = hi, lineText(string(rest))
		if r.begins(*last) && last.text[0] != '}' {
			b.next--
		}
	}
	whole, diags := r.parse(l.lo, hi, "")
	if whole == nil && hi == last.hi {
		// Where the inside stands to the right of the head, so does the end of another block.
		counted, inside := r.blockAt(lines, i, false), nextOf(lines, i)
		end := lines[counted.next-1]
		if counted != b && (inside == len(lines) || lines[inside].indent <= l.indent || end.indent <= l.indent) {
			if whole, _ = r.parse(l.lo, end.hi, ""); whole != nil {
				b = counted
			}
		}
	}
	if whole != nil {
		r.merge(into, whole)
		return b.next, false
	}
	return b.next, r.brokenBlock(into, l, b, hi, depth, diags)
}

// cutOff reports that the text ends at a byte, in the middle of a line.
func (r *recovery) cutOff(at int) bool { return at == len(r.Src) && r.Src[at-1] != '\n' }

// brokenBlock reads a block with something wrong in it, or in its head. l is its first line, and
// hi the byte after it.
func (r *recovery) brokenBlock(
	into *hclsyntax.Body, l textLine, b blockAt, hi, depth int, diags hcl.Diagnostics,
) (endless bool) {
	lo, word := l.lo, l.word()
	var block *hclsyntax.Block
	head, _ := r.parse(lo, b.head, " {\n}")
	switch {
	case r.Blocks[word] == "" && (head == nil || r.known(word)):
	case head != nil && len(head.Blocks) == 1:
		block = head.Blocks[0]
	default:
		r.tell(lo, hi, diags)
		block = r.meantBlock(word, lo, b.head)
	}
	if block == nil {
		r.tell(lo, hi, diags)
		r.cutOut(into, word)
		return r.cutOff(hi)
	}
	into.Blocks = append(into.Blocks, block)
	if hi <= l.hi { // all of it on one line
		r.tell(lo, hi, diags)
		block.Body = &hclsyntax.Body{}
		r.cutOut(block.Body, "")
		return r.cutOff(hi)
	}
	var inside bool
	block.Body, inside = r.body(b.lo, b.hi, depth+1)
	if b.endless && hi == len(r.Src) {
		r.cutOut(block.Body, "") // more was to come
	}
	switch {
	case b.endless && inside:
	case b.endless && b.brace >= 0:
		next := -1
		if hi < len(r.Src) {
			next = hi
		}
		start := r.lines[r.LineOf(b.brace)-1]
		r.rep.Slip(start, r.neverClosed(b.brace-start, next))
	default:
		r.tell(lo, hi, diags)
	}
	return b.endless
}

// meantBlock is a block whose head is wrong, without its inside; nil where the name that it
// needs cannot be read.
func (r *recovery) meantBlock(word string, lo, hi int) *hclsyntax.Block {
	at := lo + strings.Index(string(r.Src[lo:hi]), word)
	block := &hclsyntax.Block{Type: word, TypeRange: r.Range(at, at+len(word))}
	if !r.Named(word) {
		return block
	}
	at += len(word)
	rest := string(r.Src[at:hi])
	if m := quotedIn().FindStringIndex(rest); m != nil {
		at, rest = at+m[0], rest[m[0]:m[1]]
	}
	name := bare(strings.Trim(rest, " \t\r\n\"={"))
	if !plainName().MatchString(name) || slices.Contains(r.Places, word) {
		return nil
	}
	at += strings.Index(rest, name)
	block.Labels, block.LabelRanges = []string{name}, []hcl.Range{r.Range(at, at+len(name))}
	return block
}

var (
	quotedIn  = Pattern(`"[^"]+"`)
	plainName = Pattern(`^[\p{L}\p{N}]([\p{L}\p{N} _'&.-]*[\p{L}\p{N}.])?$`)
)
