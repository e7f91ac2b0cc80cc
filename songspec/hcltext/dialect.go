package songspec

import (
	"bytes"

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

	Blocks map[string]string // every block's word, and how such a block is written
	Top    []string          // the blocks that stand outside all others
	Parts  bool              // a song, with verses and choruses

	// Line looks at a line on which the parser stumbled, before all else, for slips
	// that only this kind of file has. From and to are bytes of the line.
	Line func(line string) (from, to int, summary, detail string, ok bool)
}

// songDialect is the song file's.
var songDialect = Dialect{
	Value:  "tempo = 72",
	Head:   `section "verse" {`,
	List:   `["drums", "piano"]`,
	Pair:   "[2, 4]",
	Number: "72, 0.4",
	Quoted: "Text, chords and places stand in quotes.",
	Lines:  "Several lines of chords stand between <<-EOT and EOT.",
	Slash:  "A chord over another bass is written with a slash, C/G, and so are folders.",
	Blocks: songBlocks(),
	Top:    topBlocks,
	Parts:  true,
	Line:   songLine,
}

func songBlocks() map[string]string {
	out := map[string]string{"play": blockForm("play")}
	for _, words := range [][]string{topBlocks, eventWords} {
		for _, w := range words {
			out[w] = blockForm(w)
		}
	}
	return out
}

// Syntax puts what HCL's parser says of a text into words of ours, those that
// follow from another left out. The diagnostics are those of parsing src whole.
func Syntax(name string, src []byte, diags hcl.Diagnostics, d Dialect) hcl.Diagnostics {
	return newSource(name, src).syntax(diags, &d)
}

// unclosed looks for the block that lacks its closing brace: one in which a block
// of the top of the file begins, or whose brace stands under the head of the block
// around it. next is where that shows; ok is false when nothing shows it.
func (s *source) unclosed(d *Dialect) (brace, next int, ok bool) {
	type opened struct{ at, indent int }
	var stack []opened
	tokens, _ := hclsyntax.LexConfig(s.masked, s.name, hcl.InitialPos)
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
			if first && len(stack) > 0 && contains(d.Top, string(t.Bytes)) && i+1 < len(tokens) && tokens[i+1].Type != hclsyntax.TokenEqual && s.indent(at) <= stack[len(stack)-1].indent {
				return stack[len(stack)-1].at, at, true
			}
		}
		first = false
	}
	return 0, 0, false
}

// indent is how many blanks the line of a byte begins with.
func (s *source) indent(at int) int {
	line := s.lineText(s.line(at))
	return len(line) - len(bytes.TrimLeft(line, " \t"))
}
