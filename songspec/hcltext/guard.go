package hcltext

import (
	"bytes"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Bounds are what a text may have before HCL's parser sees it: deep nesting would end
// the process inside HCL, which no recover can catch. 0 sets no bound.
type Bounds struct {
	Bytes     int
	Tokens    int // words and signs
	Depth     int // brackets in brackets
	Unary     int // ! or - in a row
	Operators int // in one value
	// Plain says that nothing is a template, and that control characters and old line
	// ends are refused, too.
	Plain bool
}

// Breach is why a text is not shown to the parser.
type Breach uint8

// The kinds of Breach.
const (
	TooManyBytes Breach = iota + 1
	InUTF16
	NotUTF8
	HasNUL
	OldLineEnds
	HasControl
	TooManyTokens
	TooDeep
	TooManySigns
	TooLongASum
)

// Guard looks at a text before the parser does. It returns the text's tokens, or the
// first thing that is out of bounds and its bytes.
func (s *Source) Guard(b Bounds) (tokens hclsyntax.Tokens, why Breach, lo, hi int) {
	s.bounds = b
	if len(s.Src) > b.Bytes {
		return nil, TooManyBytes, 0, 0
	}
	if why, lo, hi = s.guardCharacters(b.Plain); why != 0 {
		return nil, why, lo, hi
	}
	if b.Plain {
		s.veil()
	}
	// Errors of the scanner come again, better worded, from the parser.
	tokens, _ = hclsyntax.LexConfig(s.masked, s.Name, hcl.InitialPos)
	if why, lo, hi = guardTokens(tokens, b); why == 0 && b.Plain {
		s.mask(tokens)
	}
	return tokens, why, lo, hi
}

func (s *Source) guardCharacters(plain bool) (why Breach, lo, hi int) {
	if bytes.HasPrefix(s.Src, []byte("\xff\xfe")) || bytes.HasPrefix(s.Src, []byte("\xfe\xff")) {
		return InUTF16, 0, 0
	}
	sawNewline := bytes.IndexByte(s.Src, '\n') >= 0
	for i := 0; i < len(s.Src); {
		b := s.Src[i]
		switch {
		case b == 0:
			return HasNUL, i, i + 1
		case plain && b == '\r' && !sawNewline:
			return OldLineEnds, i, i + 1
		case plain && (b < 0x20 && b != '\t' && b != '\n' && b != '\r' || b == 0x7f):
			return HasControl, i, i + 1
		case b < utf8.RuneSelf:
			i++
			continue
		}
		r, n := utf8.DecodeRune(s.Src[i:])
		if r == utf8.RuneError && n == 1 {
			return NotUTF8, i, i + 1
		}
		i += n
	}
	return 0, 0, 0
}

func guardTokens(tokens hclsyntax.Tokens, b Bounds) (why Breach, lo, hi int) {
	if len(tokens) > b.Tokens {
		return TooManyTokens, 0, 0
	}
	depth, unary, operators := 0, 0, 0
	for _, t := range tokens {
		lo, hi := t.Range.Start.Byte, t.Range.End.Byte
		switch t.Type {
		case hclsyntax.TokenBang, hclsyntax.TokenMinus:
			if unary++; unary > b.Unary {
				return TooManySigns, lo, hi
			}
		case hclsyntax.TokenNewline, hclsyntax.TokenComment:
		default:
			unary = 0
		}
		switch t.Type {
		case hclsyntax.TokenOBrace, hclsyntax.TokenOBrack, hclsyntax.TokenOParen,
			hclsyntax.TokenTemplateInterp, hclsyntax.TokenTemplateControl:
			operators = 0
			if depth++; depth > b.Depth {
				return TooDeep, lo, hi
			}
		case hclsyntax.TokenCBrace, hclsyntax.TokenCBrack, hclsyntax.TokenCParen, hclsyntax.TokenTemplateSeqEnd:
			depth--
		case hclsyntax.TokenEqual:
			operators = 0
		case hclsyntax.TokenStar, hclsyntax.TokenSlash, hclsyntax.TokenPlus, hclsyntax.TokenMinus,
			hclsyntax.TokenPercent, hclsyntax.TokenAnd, hclsyntax.TokenOr, hclsyntax.TokenBang,
			hclsyntax.TokenQuestion, hclsyntax.TokenColon, hclsyntax.TokenEqualOp, hclsyntax.TokenNotEqual,
			hclsyntax.TokenLessThan, hclsyntax.TokenLessThanEq, hclsyntax.TokenGreaterThan,
			hclsyntax.TokenGreaterThanEq:
			if operators++; b.Operators > 0 && operators > b.Operators {
				return TooLongASum, lo, hi
			}
		}
	}
	return 0, 0, 0
}
