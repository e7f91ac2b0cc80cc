package songspec

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// The bounds of a song file. Each is far over what a song needs and is named in
// the message of the error that it raises.
const (
	MaxFileBytes  = 256 << 10
	MaxChordBytes = 32 << 10
	MaxBars       = 10000
	MaxSections   = 64
	MaxEvents     = 64     // a section, and again a play
	MaxSpots      = 200000 // events of the whole song, every bar and count written out
	MinTempo      = 20
	MaxTempo      = 400

	maxDepth     = 64     // brackets in brackets
	maxUnary     = 16     // ! or - in a row
	maxOperators = 64     // in one value
	maxTokens    = 200000 // words and signs in the file
)

// guard looks at a text before HCL's parser does: deep nesting would end the
// process inside HCL, which no recover can catch. It returns one diagnostic at
// most, and nothing but that can be said about such a file.
func (s *source) guard() hcl.Diagnostics {
	if len(s.src) > MaxFileBytes {
		return s.refuse(0, 0, "Song file too long", fmt.Sprintf(
			"A song file has at most %d KiB; this one has %d KiB.", MaxFileBytes>>10, (len(s.src)+1023)>>10))
	}
	if d := s.guardCharacters(); d != nil {
		return d
	}
	if len(bytes.TrimSpace(bytes.TrimPrefix(s.src, byteOrderMark))) == 0 {
		return s.refuse(0, 0, "The song file is empty", "Write at least one section, or let plinth new write a first song for you.")
	}
	return s.guardTokens()
}

func (s *source) guardCharacters() hcl.Diagnostics {
	if bytes.HasPrefix(s.src, []byte("\xff\xfe")) || bytes.HasPrefix(s.src, []byte("\xfe\xff")) {
		return s.refuse(0, 0, "Not a UTF-8 text", "The file is saved as UTF-16. Save it as UTF-8 in the editor.")
	}
	sawNewline := bytes.IndexByte(s.src, '\n') >= 0
	for i := 0; i < len(s.src); {
		b := s.src[i]
		switch {
		case b == 0:
			return s.refuse(i, i+1, "Not a text file", "There is a NUL character here, as in a file that is not text.")
		case b == '\r' && !sawNewline:
			return s.refuse(i, i+1, "Old line ends", "The lines end with a carriage return alone. Save the file with Unix (LF) or Windows (CRLF) line ends.")
		case b < 0x20 && b != '\t' && b != '\n' && b != '\r', b == 0x7f:
			return s.refuse(i, i+1, "Control character in the text", fmt.Sprintf("There is a character U+%04X here that no editor shows. Delete it.", b))
		case b < utf8.RuneSelf:
			i++
			continue
		}
		r, n := utf8.DecodeRune(s.src[i:])
		if r == utf8.RuneError && n == 1 {
			return s.refuse(i, i+1, "Not a UTF-8 text", "The character here is not UTF-8. Save the file as UTF-8 in the editor.")
		}
		i += max(n, 1)
	}
	return nil
}

func (s *source) guardTokens() hcl.Diagnostics {
	tokens := s.lex()
	if len(tokens) > maxTokens {
		return s.refuse(0, 0, "Too many words in the song file", fmt.Sprintf("A song file has at most %d words and signs.", maxTokens))
	}
	depth, unary, operators, heredoc := 0, 0, 0, -1
	for _, t := range tokens {
		lo, hi := t.Range.Start.Byte, t.Range.End.Byte
		switch t.Type {
		case hclsyntax.TokenBang, hclsyntax.TokenMinus:
			if unary++; unary > maxUnary {
				return s.refuse(lo, hi, "Too many signs in a row", fmt.Sprintf("At most %d signs may stand before a number.", maxUnary))
			}
		case hclsyntax.TokenNewline, hclsyntax.TokenComment:
		default:
			unary = 0
		}
		switch t.Type {
		case hclsyntax.TokenOBrace, hclsyntax.TokenOBrack, hclsyntax.TokenOParen,
			hclsyntax.TokenTemplateInterp, hclsyntax.TokenTemplateControl:
			operators = 0
			if depth++; depth > maxDepth {
				return s.refuse(lo, hi, "Brackets too deep", fmt.Sprintf(
					"Brackets may stand %d deep in one another; a song needs three. Is one not closed?", maxDepth))
			}
		case hclsyntax.TokenCBrace, hclsyntax.TokenCBrack, hclsyntax.TokenCParen, hclsyntax.TokenTemplateSeqEnd:
			depth--
		case hclsyntax.TokenEqual:
			operators = 0
		case hclsyntax.TokenStar, hclsyntax.TokenSlash, hclsyntax.TokenPlus, hclsyntax.TokenMinus, hclsyntax.TokenPercent,
			hclsyntax.TokenAnd, hclsyntax.TokenOr, hclsyntax.TokenBang, hclsyntax.TokenQuestion, hclsyntax.TokenColon,
			hclsyntax.TokenEqualOp, hclsyntax.TokenNotEqual, hclsyntax.TokenLessThan, hclsyntax.TokenLessThanEq,
			hclsyntax.TokenGreaterThan, hclsyntax.TokenGreaterThanEq:
			if operators++; operators > maxOperators {
				return s.refuse(lo, hi, "Too long a sum", fmt.Sprintf("At most %d signs of arithmetic may stand in one value.", maxOperators))
			}
		case hclsyntax.TokenOHeredoc:
			heredoc = hi
		case hclsyntax.TokenCHeredoc, hclsyntax.TokenEOF:
			if heredoc >= 0 && t.Type == hclsyntax.TokenCHeredoc {
				if n := s.runaway(heredoc, lo); n > 0 {
					return s.refuseRunaway(heredoc, n)
				}
			}
			if heredoc >= 0 && lo-heredoc > MaxChordBytes {
				return s.refuse(heredoc, heredoc, "Chord text too long", fmt.Sprintf("The text of one chart has at most %d KiB.", MaxChordBytes>>10))
			}
			heredoc = -1
		}
	}
	s.mask(tokens)
	return nil
}

// refuseRunaway points at the head of a text that goes on over line n, which
// cannot belong to it. All that follows is in the wrong place, too.
func (s *source) refuseRunaway(lo, n int) hcl.Diagnostics {
	line := s.line(lo - 1)
	head := heredocHead().FindSubmatchIndex(s.lineText(line))
	if head == nil {
		return nil
	}
	from := s.lines[line-1]
	return s.refuse(from+head[0], from+head[1], "A text is never closed", fmt.Sprintf(
		"The text that begins here runs on over line %d, which is no line of chords. Write %s on a line of its own after the last chords.",
		n, s.lineText(line)[head[2]:head[3]]))
}

func (s *source) refuse(lo, hi int, summary, detail string) hcl.Diagnostics {
	rng := s.rng(lo, hi)
	return hcl.Diagnostics{{Severity: hcl.DiagError, Summary: summary, Detail: detail, Subject: &rng}}
}
