package hcltext

import (
	"bytes"
	"strconv"
	"strings"

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
	for {
		p, is := expr.(*hclsyntax.ParenthesesExpr)
		if !is {
			break
		}
		expr = p.Expression
	}
	if _, is := expr.(*hclsyntax.TemplateExpr); !is {
		return t, false
	}
	r := expr.Range()
	t.Lo, t.Hi = r.Start.Byte, r.End.Byte
	if t.Hi > len(s.Src) || t.Lo >= t.Hi {
		return t, false
	}
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

// escapes are those of a text in quotes; a doubled $ or % makes no template.
var escapes = strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\r", `\r`, "\t", `\t`, "${", "$${", "%{", "%%{")

// Quote writes a text as it stands in a file, in quotes.
func Quote(text string) string { return `"` + escapes.Replace(text) + `"` }
