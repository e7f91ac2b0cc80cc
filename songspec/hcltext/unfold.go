package hcltext

import (
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// OnOneLine is the summary of a block that has more on its line than HCL takes.
const OnOneLine = "More on one line than fits"

// unfold is a block that stands on one line with more in it than fits there, with each thing on a line
// of its own: what starts at its word and ends behind its closing brace.
func unfold(line string) (text string, ok bool) {
	tokens, diags := hclsyntax.LexConfig([]byte(line), "", hcl.InitialPos)
	if diags.HasErrors() || len(tokens) < 2 {
		return "", false
	}
	open := slices.IndexFunc(tokens, func(t hclsyntax.Token) bool { return t.Type == hclsyntax.TokenOBrace })
	last := tokens[len(tokens)-2] // the last is the end of the text
	if open < 1 || last.Type != hclsyntax.TokenCBrace ||
		slices.ContainsFunc(tokens[:open], func(t hclsyntax.Token) bool { return t.Type == hclsyntax.TokenEqual }) {
		return "", false
	}
	starts := thingsIn(tokens[open+1 : len(tokens)-2])
	if len(starts) == 0 {
		return "", false
	}
	indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]
	out := strings.TrimSpace(line[:tokens[open].Range.End.Byte]) + "\n"
	for i, from := range starts {
		to := last.Range.Start.Byte
		if i+1 < len(starts) {
			to = starts[i+1]
		}
		thing := strings.TrimRight(line[from:to], " \t,;")
		if inner, more := unfold(indent + "  " + thing); more && strings.Count(inner, "\n") > 2 {
			thing = inner
		}
		out += indent + "  " + thing + "\n"
	}
	return out + indent + "}", true
}

// thingsIn are the bytes at which the values and blocks begin that stand between two braces; none
// where something else stands there.
func thingsIn(tokens hclsyntax.Tokens) (starts []int) {
	depth := 0
	for i, t := range tokens {
		switch t.Type {
		case hclsyntax.TokenOBrace, hclsyntax.TokenOBrack, hclsyntax.TokenOParen, hclsyntax.TokenOQuote:
			depth++
		case hclsyntax.TokenCBrace, hclsyntax.TokenCBrack, hclsyntax.TokenCParen, hclsyntax.TokenCQuote:
			depth--
		case hclsyntax.TokenComment, hclsyntax.TokenOHeredoc, hclsyntax.TokenInvalid:
			return nil
		case hclsyntax.TokenIdent:
			if depth > 0 || i+1 == len(tokens) || i > 0 && tokens[i-1].Type == hclsyntax.TokenEqual {
				continue
			}
			switch tokens[i+1].Type {
			case hclsyntax.TokenEqual, hclsyntax.TokenOQuote, hclsyntax.TokenOBrace:
				starts = append(starts, t.Range.Start.Byte)
			}
		}
		if depth < 0 || i == 0 && len(starts) == 0 {
			return nil
		}
	}
	return starts
}

// unfolded is the slip with the fix that unfolds the block on its line, where it can be read.
func (s *stumble) unfolded(slip Slip) Slip {
	from := len(s.line) - len(strings.TrimLeft(s.line, " \t"))
	text, ok := unfold(strings.TrimRight(s.line, " \t\r"))
	if !ok {
		return slip
	}
	if _, diags := hclsyntax.ParseConfig([]byte(text), "", hcl.InitialPos); !diags.HasErrors() {
		return slip.Write(from, len(strings.TrimRight(s.line, " \t\r")), text)
	}
	return slip
}
