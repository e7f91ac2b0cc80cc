package library

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Bounds of a groove file. They are checked before anything is parsed, because
// deep nesting ends the process inside the parser.
const (
	maxBytes  = 256 * 1024
	maxDepth  = 64
	maxTokens = 200_000
	maxUnary  = 16
)

// guard refuses a file that would harm the parser.
func guard(name string, src []byte) hcl.Diagnostics {
	start := hcl.Range{Filename: name, Start: hcl.InitialPos, End: hcl.InitialPos}
	if len(src) > maxBytes {
		return problem(start, "The file is too large",
			"A groove file is at most %d KiB; this one has %d bytes.", maxBytes/1024, len(src))
	}
	if !utf8.Valid(src) {
		return problem(badPlace(name, src), "Not UTF-8", "A groove file is text in UTF-8. Save it again in that encoding.")
	}
	if i := bytes.IndexByte(src, 0); i >= 0 {
		return problem(placeOf(name, src, i), "A NUL byte", "A groove file is text; a byte of value 0 has no place in it.")
	}
	// Errors of the scanner come again, better worded, from the parser.
	tokens, _ := hclsyntax.LexConfig(src, name, hcl.InitialPos)
	if len(tokens) > maxTokens {
		return problem(start, "The file is too long", "A groove file has at most %d words and signs; this one has %d.", maxTokens, len(tokens))
	}
	depth, unary := 0, 0
	for _, t := range tokens {
		switch t.Type {
		case hclsyntax.TokenTemplateInterp, hclsyntax.TokenTemplateControl:
			return problem(t.Range, "No templates here",
				"A groove file holds plain values only; %s has no meaning in it.", string(t.Bytes))
		case hclsyntax.TokenOBrace, hclsyntax.TokenOBrack, hclsyntax.TokenOParen:
			if depth++; depth > maxDepth {
				return problem(t.Range, "Nested too deeply", "Brackets in a groove file nest at most %d deep.", maxDepth)
			}
		case hclsyntax.TokenCBrace, hclsyntax.TokenCBrack, hclsyntax.TokenCParen:
			depth--
		}
		switch t.Type {
		case hclsyntax.TokenBang, hclsyntax.TokenMinus:
			if unary++; unary > maxUnary {
				return badLine(name, src, t.Range, "Too many signs in a row", "At most %d of the signs ! and - stand in a row outside quotes.", maxUnary)
			}
		case hclsyntax.TokenQuestion, hclsyntax.TokenColon:
			if colonFirst(src, t.Range.Start.Byte) {
				continue // name: value is a slip with words of its own
			}
			return badLine(name, src, t.Range, "No conditions here",
				"A groove file holds plain values only; the sign %s has no meaning outside quotes.", string(t.Bytes))
		default:
			unary = 0
		}
	}
	return nil
}

// badLine is a problem that is perhaps but a slip on its line: a row without
// quotes.
func badLine(name string, src []byte, at hcl.Range, summary, detail string, args ...any) hcl.Diagnostics {
	from := bytes.LastIndexByte(src[:at.Start.Byte], '\n') + 1
	line := src[from:]
	if i := bytes.IndexAny(line, "\r\n"); i >= 0 {
		line = line[:i]
	}
	if lo, hi, summary, detail, ok := rowLine(string(line)); ok {
		r := placeOf(name, src, from+lo)
		r.End = placeOf(name, src, from+hi).Start
		return problem(r, summary, "%s", detail)
	}
	return problem(at, summary, detail, args...)
}

// colonFirst reports a colon after the first word of its line.
func colonFirst(src []byte, at int) bool {
	before := src[bytes.LastIndexByte(src[:at], '\n')+1 : at]
	return src[at] == ':' && firstWord().Match(before)
}

var firstWord = pattern(`^\s*[a-z_]+\s*$`)

// badPlace is where the first byte that is not UTF-8 stands.
func badPlace(name string, src []byte) hcl.Range {
	i := 0
	for i < len(src) {
		r, n := utf8.DecodeRune(src[i:])
		if r == utf8.RuneError && n == 1 {
			break
		}
		i += n
	}
	return placeOf(name, src, i)
}

// placeOf is the range of the one byte at offset i.
func placeOf(name string, src []byte, i int) hcl.Range {
	line := 1 + bytes.Count(src[:i], []byte{'\n'})
	col := 1 + utf8.RuneCount(src[bytes.LastIndexByte(src[:i], '\n')+1:i])
	at := hcl.Pos{Line: line, Column: col, Byte: i}
	return hcl.Range{Filename: name, Start: at, End: hcl.Pos{Line: line, Column: col + 1, Byte: i + 1}}
}

// problem is one error.
func problem(at hcl.Range, summary, detail string, args ...any) hcl.Diagnostics {
	return hcl.Diagnostics{{
		Severity: hcl.DiagError,
		Summary:  summary,
		Detail:   fmt.Sprintf(detail, args...),
		Subject:  &at,
	}}
}
