package songspec

import (
	"regexp"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// parserWords are words of HCL's own messages. No musician should have to read
// one: whatever is wrong with a file is said in the words of this package.
var parserWords = regexp.MustCompile(`(?i)\b(arguments?|attributes?|block ` +
	`definition|expressions?|templates?|heredoc|literals?|identifiers?|tokens?|operators?|configuration|` +
	`constructor|interpolation|delimit\w*|escape|terminat\w*|unterminated|separators?|splat|index|bitwise|` +
	`newlines?|strings?|parenthes[ie]s|invalid|unsupported|unexpected|required|definition|call|selector)\b`)

// slips are what a finger or another program puts into a file.
var slips = []string{
	`"`, `'`, "`", `{`, `}`, `[`, `]`, `(`, `)`, `=`, `:`, `;`, `,`, `.`, `..`, `...`, `#`, `//`, `/*`, `*/`,
	`|`, `||`, `&`, `*`, `**`, `^`, `~`, `!`, `?`, `<`, `<<`, `<<-`, `<<-X`, `-`, `+`, `%`, `$`, `${`, `%{`,
	`\`, `@`, `“`, `x`, `1`, `::`, `=>`, `==`, `for`, `null`, `a.b`, `a[`, `[*]`, `.*.`, "\n", `x y`, `"x"`,
	`1.`, `1_0`, `f(`, `f(1 2`, `{x`, `{x=`, `[1`, `[for `, `é`, "\t", "\u00a0", "\u200b",
}

// mutants are a text with one word or sign left out, doubled or put in, and with
// one line left out, doubled or joined to the next.
func mutants(src string, visit func(mutant string)) {
	tokens, _ := hclsyntax.LexConfig([]byte(src), "m", hcl.InitialPos)
	for _, t := range tokens {
		lo, hi := t.Range.Start.Byte, t.Range.End.Byte
		visit(src[:lo] + src[hi:])
		visit(src[:hi] + src[lo:])
		visit(src[:lo])
		for _, s := range slips {
			visit(src[:lo] + s + src[lo:])
		}
	}
	lines := strings.SplitAfter(src, "\n")
	for i := range lines {
		before, after := strings.Join(lines[:i], ""), strings.Join(lines[i+1:], "")
		visit(before + after)
		visit(before + lines[i] + lines[i] + after)
		visit(before + strings.TrimRight(lines[i], "\n") + after)
	}
}

// slipped is a song in which slips are made.
const slipped = `title = "Mill"
tempo = 72
energy = [2, 4]
piano { span = 14 }
section "verse" {
  chords = <<-EOT
    | C | F |
  EOT
  fills = false
  space "1: 3" { beats = 1/3 }
  accent "2 4" {
    by = ["drums", "piano"]
  }
}
form {
  play "verse" {}
}
`

// TestOwnWords: no single slip in a song file brings out a word of the parser's.
func TestOwnWords(t *testing.T) {
	seen := map[string]bool{}
	n := 0
	mutants(slipped, func(m string) {
		_, diags := build(m)
		n++
		for _, d := range diags {
			said := d.Summary + ": " + d.Detail
			if w := parserWords.FindString(said); w != "" && !seen[d.Summary+w] {
				seen[d.Summary+w] = true
				t.Errorf("%q is a word of the parser's:\n%s", w, written(m, hcl.Diagnostics{d}))
			}
		}
	})
	if n < 4000 {
		t.Errorf("only %d slips were tried", n)
	}
}
