package hcltext

import (
	"bytes"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Where Bounds.Plain is set, nothing is a template: "${" in a title is text, and a "%{" in a
// chart is a repeat sign and a slip of the finger. HCL's lexer would look for a
// template, so the brace is veiled from it: hidden stands for { after $ or %. No
// control character passes the guard there, so that none can be in the text.
const hidden = 0x1a

// veil hides from HCL's lexer what would be a template, and comments without an end but the first.
func (s *Source) veil() {
	for i := 1; i < len(s.Src); i++ {
		if s.Src[i] == '{' && (s.Src[i-1] == '$' || s.Src[i-1] == '%') {
			s.own()
			s.masked[i] = hidden
		}
	}
	// HCL's lexer looks for the end of every comment that has none, up to the end of the text.
	open := bytes.LastIndex(s.Src, []byte("*/")) + 1
	for first := true; ; first = false {
		at := bytes.Index(s.Src[open:], []byte("/*"))
		if at < 0 {
			break
		}
		if open += at + 2; !first {
			s.own()
			s.masked[open-1] = 'x'
		}
	}
}

// mask hides from HCL's parser what stands in texts. It takes time in the square
// of the lines of a heredoc and of the signs $ and % in a quoted text, many
// seconds for a file within bounds. Here all texts are read from src, so the
// parser is shown heredocs of one line, and quoted texts without those signs.
func (s *Source) mask(tokens hclsyntax.Tokens) {
	for i := 0; i < len(tokens); i++ {
		t := tokens[i]
		switch t.Type {
		case hclsyntax.TokenPlus: // HCL has no plus as a sign
			if i > 0 && tokens[i-1].Type == hclsyntax.TokenEqual && i+1 < len(tokens) &&
				tokens[i+1].Type == hclsyntax.TokenNumberLit {
				s.own()
				s.masked[t.Range.Start.Byte] = ' '
			}
		case hclsyntax.TokenQuotedLit:
			for at := t.Range.Start.Byte; at < t.Range.End.Byte; at++ {
				if b := s.masked[at]; b == '$' || b == '%' || b == hidden {
					s.own()
					s.masked[at] = 'x'
				}
			}
		case hclsyntax.TokenOHeredoc:
			lo := t.Range.End.Byte
			for i+1 < len(tokens) && tokens[i+1].Type == hclsyntax.TokenStringLit {
				i++
			}
			hi := tokens[i].Range.End.Byte
			if i+1 < len(tokens) && tokens[i+1].Type == hclsyntax.TokenCHeredoc {
				s.own()
				for at := lo; at < hi-1; at++ {
					s.masked[at] = 'x'
				}
			}
		}
	}
}

// Parse is HCL's tree of the text, with HCL's own messages: see Syntax.
func (s *Source) Parse() (*hclsyntax.Body, hcl.Diagnostics) {
	file, diags := hclsyntax.ParseConfig(s.masked, s.Name, hcl.InitialPos)
	if diags.HasErrors() {
		return nil, diags
	}
	return file.Body.(*hclsyntax.Body), nil
}

// own makes masked a copy of src, so that it can be written to.
func (s *Source) own() {
	if &s.masked[0] == &s.Src[0] {
		s.masked = bytes.Clone(s.Src)
	}
}
