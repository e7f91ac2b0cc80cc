package hcltext

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"golang.org/x/text/unicode/norm"
)

// RawText is where a quoted or heredoc text stands in the file, its marks left
// out. Escapes are still escapes.
type RawText struct {
	Lo, Hi  int
	Heredoc bool
}

// Raw finds the text of an expression; ok is false when it is not plain text.
func (s *Source) Raw(expr hclsyntax.Expression) (t RawText, ok bool) {
	for p, is := expr.(*hclsyntax.ParenthesesExpr); is; p, is = expr.(*hclsyntax.ParenthesesExpr) {
		expr = p.Expression
	}
	if _, is := expr.(*hclsyntax.TemplateExpr); !is {
		return t, false
	}
	t.Lo, t.Hi = expr.Range().Start.Byte, expr.Range().End.Byte
	b := s.Src[t.Lo:t.Hi]
	switch {
	case len(b) >= 2 && b[0] == '"' && b[len(b)-1] == '"':
		t.Lo, t.Hi = t.Lo+1, t.Hi-1
		return t, true
	case bytes.HasPrefix(b, []byte("<<")):
		nl := bytes.IndexByte(b, '\n')
		if nl < 0 {
			return t, false
		}
		body := bytes.TrimRight(b, "\r\n")
		last := bytes.LastIndexByte(body, '\n')
		t.Heredoc = true
		t.Lo, t.Hi = t.Lo+nl+1, t.Lo+max(nl, last)+1
		return t, true
	}
	return t, false
}

// TextOf is what a quoted TextOf or heredoc says, its escapes read, in the composed
// form of Unicode (as HCL does it). HCL's parser has found its escapes good.
func (s *Source) TextOf(t RawText) string {
	raw := string(s.Src[t.Lo:t.Hi])
	if !t.Heredoc && strings.IndexByte(raw, '\\') >= 0 {
		raw = unescape(raw)
	}
	// The doubled signs with which other HCL files write a plain ${ stand for one.
	if strings.Contains(raw, "${") || strings.Contains(raw, "%{") {
		raw = strings.NewReplacer("$${", "${", "%%{", "%{").Replace(raw)
	}
	return norm.NFC.String(raw)
}

var escape = Pattern(`\\(u[0-9a-fA-F]{4}|U[0-9a-fA-F]{8}|[nrt"\\])`)

// unescape reads HCL's escapes: \n, \r, \t, \", \\, \uNNNN and \UNNNNNNNN.
func unescape(s string) string {
	return escape().ReplaceAllStringFunc(s, func(sign string) string {
		r, _, _, err := strconv.UnquoteChar(sign, '"')
		if err != nil {
			r = utf8.RuneError // half of a pair
		}
		return string(r)
	})
}

// escapes are those of a text in quotes; a doubled $ or % makes no template.
var escapes = strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\r", `\r`, "\t", `\t`, "${", "$${", "%{", "%%{")

// Quote writes a text as it stands in a file, in quotes.
func Quote(text string) string { return `"` + escapes.Replace(text) + `"` }
