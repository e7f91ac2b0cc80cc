package hcltext

import (
	"bytes"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Dialect is what stands in a kind of HCL file, for messages about how it is
// written: song files and groove files make the same slips in other words.
type Dialect struct {
	Value  string // a line that sets something: tempo = 72
	Head   string // the head of a block: section "verse" {
	List   string // a list of texts: ["drums", "piano"]
	Pair   string // a list of two numbers: [2, 4]
	Number string // numbers as they are written: 72, 0.4
	Quoted string // a sentence: what stands in quotes
	Lines  string // a sentence: what text over several lines is written like
	Slash  string // a sentence: what a backslash was perhaps meant to be

	Blocks   map[string]string // every block's word, and how such a block is written
	Top      []string          // the blocks that stand outside all others
	Places   []string          // the blocks whose name is a place
	Empty    []string          // the blocks that stand with nothing in them, too
	Texts    []string          // the values that are text
	Others   []string          // the values that are numbers, true or false, or lists
	Truths   []string          // those of them that are true or false
	Times    string            // the block that may stand several times, with a value times
	Decimals []string          // the numbers that need not be whole
	Parts    []string          // those of them that may be less than 1

	// Part reports a heading of a part of a song; nil where there are no parts.
	Part func(word string) bool
	// Line looks at a line on which the parser stumbled, before all else, for slips
	// that only this kind of file has.
	Line func(line string) (Slip, bool)
}

// Named reports a block that has a name.
func (d *Dialect) Named(word string) bool { return strings.Contains(d.Blocks[word], `"`) }

// lastIn reports a text of which the last word is in a list.
func lastIn(text string, list []string) bool {
	words := strings.Fields(text)
	return len(words) > 0 && slices.Contains(list, words[len(words)-1])
}

// mayBeEmpty reports a block that is whole without anything in it.
func (d *Dialect) mayBeEmpty(word string) bool {
	return slices.Contains(d.Empty, word) && strings.HasSuffix(d.Blocks[word], "{ … }")
}

// unclosed looks for the block that lacks its closing brace: one in which a block
// of the top of the file begins, or whose brace stands under the head of the block
// around it. next is where that shows; ok is false when nothing shows it.
func (s *stumble) unclosed() (brace, next int, ok bool) {
	type opened struct{ at, indent int }
	var stack []opened
	tokens, _ := hclsyntax.LexConfig(s.masked, s.Name, hcl.InitialPos)
	first := true // of its line
	for i, t := range tokens {
		at := t.Range.Start.Byte
		switch t.Type {
		case hclsyntax.TokenNewline, hclsyntax.TokenComment:
			first = true
			continue
		case hclsyntax.TokenOBrace:
			stack = append(stack, opened{at, s.indent(at)})
		case hclsyntax.TokenCBrace:
			if len(stack) == 0 {
				return 0, 0, false
			}
			top := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			if first && len(stack) > 0 && s.indent(at) < top.indent && s.indent(at) <= stack[len(stack)-1].indent {
				return top.at, at, true
			}
		case hclsyntax.TokenIdent:
			if first && len(stack) > 0 && slices.Contains(s.Top, string(t.Bytes)) &&
				i+1 < len(tokens) && tokens[i+1].Type != hclsyntax.TokenEqual &&
				s.indent(at) <= stack[len(stack)-1].indent {
				return stack[len(stack)-1].at, at, true
			}
		}
		first = false
	}
	return 0, 0, false
}

// indent is how many blanks the line of a byte begins with.
func (s *Source) indent(at int) int {
	line := s.LineText(s.LineOf(at))
	return len(line) - len(bytes.TrimLeft(line, " \t"))
}
