package library

import (
	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
)

// bounds are those of a groove file's text.
var bounds = hcltext.Bounds{Bytes: 256 << 10, Depth: 64, Tokens: 200_000, Unary: 16}

// guard refuses a file that would harm the parser.
func guard(s *hcltext.Source) hcl.Diagnostics {
	rep := hcltext.Report{Source: s}
	tokens, why, lo, hi := s.Guard(bounds)
	at := s.Range(lo, hi)
	switch why {
	case hcltext.TooManyBytes:
		rep.Errorf(at, "The file is too large", "A groove file is at most %d KiB; this one has %d bytes.",
			bounds.Bytes>>10, len(s.Src))
	case hcltext.InUTF16, hcltext.NotUTF8:
		rep.Errorf(at, "Not UTF-8", "A groove file is text in UTF-8. Save it again in that encoding.")
	case hcltext.HasNUL:
		rep.Errorf(at, "A NUL byte", "A groove file is text; a byte of value 0 has no place in it.")
	case hcltext.TooManyTokens:
		rep.Errorf(at, "The file is too long", "A groove file has at most %d words and signs; this one has %d.",
			bounds.Tokens, len(tokens))
	case hcltext.TooDeep:
		rep.Errorf(at, "Nested too deeply", "Brackets in a groove file nest at most %d deep.", bounds.Depth)
	case hcltext.TooManySigns:
		badLine(&rep, lo, hi, "Too many signs in a row",
			"At most %d of the signs ! and - stand in a row outside quotes.", bounds.Unary)
	default:
		plainValues(&rep, tokens)
	}
	return rep.Diags
}

// plainValues reports the first sign of what would have to be worked out: a template or
// a condition.
func plainValues(rep *hcltext.Report, tokens hclsyntax.Tokens) {
	for _, t := range tokens {
		lo, hi := t.Range.Start.Byte, t.Range.End.Byte
		switch t.Type {
		case hclsyntax.TokenTemplateInterp, hclsyntax.TokenTemplateControl:
			rep.Errorf(t.Range, "No templates here", "A groove file holds plain values only; %s has no meaning in it.",
				t.Bytes)
			return
		case hclsyntax.TokenQuestion, hclsyntax.TokenColon:
			before := rep.Source.Src[rep.Source.LineStart(rep.Source.LineOf(lo)):lo]
			if t.Bytes[0] == ':' && firstWord().Match(before) {
				continue // name: value is a slip with words of its own
			}
			badLine(rep, lo, hi, "No conditions here",
				"A groove file holds plain values only; the sign %s has no meaning outside quotes.", t.Bytes)
			return
		}
	}
}

var firstWord = hcltext.Pattern(`^\s*[a-z_]+\s*$`)

// badLine reports what is perhaps but a slip on its line: a row without quotes.
func badLine(rep *hcltext.Report, lo, hi int, summary, detail string, args ...any) {
	n := rep.Source.LineOf(lo)
	if slip, ok := rowLine(string(rep.Source.LineText(n))); ok {
		rep.Slip(rep.Source.LineStart(n), slip)
		return
	}
	rep.Errorf(rep.Source.Range(lo, hi), summary, detail, args...)
}
