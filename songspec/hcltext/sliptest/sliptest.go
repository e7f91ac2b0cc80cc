// Package sliptest makes slips in texts of HCL, for tests: in goes a text without a mistake,
// out comes every text that one slip of a finger makes of it.
package sliptest

import (
	"regexp"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// ParserWords are words of HCL's own messages. No musician should have to read
// one: whatever is wrong with a file is said in our own words.
var ParserWords = regexp.MustCompile(`(?i)\b(arguments?|attributes?|block ` +
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

// Mutants are a text with one word or sign left out, doubled or put in, and with
// one line left out, doubled or joined to the next.
func Mutants(src string, visit func(mutant string)) {
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
