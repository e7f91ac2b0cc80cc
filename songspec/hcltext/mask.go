package songspec

import (
	"bytes"
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"golang.org/x/text/unicode/norm"
)

// In a song file nothing is a template: "${" in a title is text, and a "%{" in a
// chart is a repeat sign and a slip of the finger. HCL's lexer would look for a
// template, so the brace is veiled from it: veil stands for { after $ or %. No
// control character passes the guard, so there can be none in a song file.
const veil = 0x1a

// lex veils templates and splits the text into HCL's tokens.
func (s *source) lex() hclsyntax.Tokens {
	for i := 1; i < len(s.src); i++ {
		if s.src[i] == '{' && (s.src[i-1] == '$' || s.src[i-1] == '%') {
			s.own()
			s.masked[i] = veil
		}
	}
	tokens, _ := hclsyntax.LexConfig(s.masked, s.name, hcl.InitialPos)
	return tokens
}

// mask hides from HCL's parser what stands in texts. It takes time in the square
// of the lines of a heredoc and of the signs $ and % in a quoted text, many
// seconds for a file within bounds. Here all texts are read from src, so the
// parser is shown heredocs of one line, and quoted texts without those signs.
func (s *source) mask(tokens hclsyntax.Tokens) {
	for i := 0; i < len(tokens); i++ {
		t := tokens[i]
		switch t.Type {
		case hclsyntax.TokenQuotedLit:
			if bytes.ContainsAny(t.Bytes, "$%") {
				s.own()
				for at := t.Range.Start.Byte; at < t.Range.End.Byte; at++ {
					if b := s.masked[at]; b == '$' || b == '%' || b == veil {
						s.masked[at] = 'x'
					}
				}
			}
		case hclsyntax.TokenOHeredoc:
			lo := t.Range.End.Byte
			for i+1 < len(tokens) && tokens[i+1].Type == hclsyntax.TokenStringLit {
				i++
			}
			hi := tokens[i].Range.End.Byte
			if i+1 < len(tokens) && tokens[i+1].Type == hclsyntax.TokenCHeredoc && hi > lo {
				s.own()
				for at := lo; at < hi-1; at++ {
					s.masked[at] = 'x'
				}
			}
		}
	}
}

// own makes masked a copy of src, so that it can be written to.
func (s *source) own() {
	if &s.masked[0] == &s.src[0] {
		s.masked = bytes.Clone(s.src)
	}
}

// text is what a quoted text or heredoc says, its escapes read, in the composed
// form of Unicode (as HCL does it). HCL's parser has found its escapes good.
func (s *source) text(t rawText) string {
	raw := string(s.src[t.lo:t.hi])
	if !t.heredoc && strings.IndexByte(raw, '\\') >= 0 {
		raw = unescape(raw)
	}
	// The doubled signs with which other HCL files write a plain ${ stand for one.
	if strings.Contains(raw, "${") || strings.Contains(raw, "%{") {
		raw = strings.NewReplacer("$${", "${", "%%{", "%{").Replace(raw)
	}
	return norm.NFC.String(raw)
}

// unescape reads HCL's escapes: \n, \r, \t, \", \\, \uNNNN and \UNNNNNNNN.
func unescape(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] != '\\' || i+1 == len(s) {
			b.WriteByte(s[i])
			continue
		}
		i++
		digits := 0
		switch s[i] {
		case 'n':
			b.WriteByte('\n')
		case 'r':
			b.WriteByte('\r')
		case 't':
			b.WriteByte('\t')
		case 'u':
			digits = 4
		case 'U':
			digits = 8
		default:
			b.WriteByte(s[i])
		}
		if digits > 0 && i+digits < len(s) {
			if n, err := strconv.ParseUint(s[i+1:i+1+digits], 16, 32); err == nil {
				b.WriteRune(rune(n))
			}
			i += digits
		}
	}
	return b.String()
}
