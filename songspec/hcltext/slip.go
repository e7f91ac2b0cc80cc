package hcltext

import (
	"fmt"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Slip is a mistake in how a line is written. Its bytes are those of the line.
type Slip struct {
	From, To        int
	Summary, Detail string
	// Noise says that whatever the parser finds wrong below follows from it.
	Noise bool

	fixed        bool
	fixLo, fixHi int
	fixText      string
}

// Write is the slip with its fix: text in place of some bytes of the line.
func (s Slip) Write(from, to int, text string) Slip {
	s.fixed, s.fixLo, s.fixHi, s.fixText = true, from, to, text
	return s
}

// maxMended is how many slips of a file have a fix: each is tried.
const maxMended = 50

// balanced reports a text in which as many braces open as close, and as many quotes:
// what a slip says of one that is not may have other reasons.
func balanced(text []byte) bool {
	tokens, _ := hclsyntax.LexConfig(text, "", hcl.InitialPos)
	n := map[hclsyntax.TokenType]int{}
	for _, t := range tokens {
		n[t.Type]++
	}
	return n[hclsyntax.TokenOBrace] == n[hclsyntax.TokenCBrace] &&
		n[hclsyntax.TokenOQuote] == n[hclsyntax.TokenCQuote] && n[hclsyntax.TokenQuotedNewline] == 0
}

// Slip reports a slip on the line that begins at a byte.
func (r *Report) Slip(start int, slip Slip) {
	e := r.Errorf(r.Source.Range(start+slip.From, start+slip.To), slip.Summary, "%s", slip.Detail)
	if slip.fixed && len(r.Diags) <= maxMended {
		rng := r.Source.Range(start+slip.fixLo, start+slip.fixHi)
		if fix := (Fix{Range: rng, Text: slip.fixText}); balanced(fix.Apply(r.Source.Src)) {
			e.Write(rng, slip.fixText)
		}
	}
}

// stumble is a place where the parser stumbled.
type stumble struct {
	*Source
	*Dialect
	said   string // the summary of what the parser says
	detail string
	lo, hi int // bytes of the file
	n      int // number of the line
	line   string
	start  int // byte of the file where the line begins
}

// here is a slip where the parser stumbled.
func (s *stumble) here(summary, detail string, args ...any) Slip {
	return s.part(s.lo-s.start, s.hi-s.start, summary, detail, args...)
}

// part is a slip at some bytes of the line.
func (s *stumble) part(from, to int, summary, detail string, args ...any) Slip {
	return Slip{From: from, To: to, Summary: summary, Detail: fmt.Sprintf(detail, args...)}
}

// rest is the line from where the parser stumbled.
func (s *stumble) rest() string { return s.line[s.at():] }

// at is the byte of the line where the parser stumbled.
func (s *stumble) at() int { return min(max(s.lo-s.start, 0), len(s.line)) }

// maxTried is how many messages about one line are looked at: the parser has one for each
// wrong character of a line that may be as long as the file.
const maxTried = 8

// Syntax puts HCL's own messages into words of ours. Of several on one line only
// the first is kept: the others follow from it.
func (s *Source) Syntax(diags hcl.Diagnostics, dialect *Dialect) hcl.Diagnostics {
	rep := Report{Source: s}
	s.syntax(&rep, diags, dialect, maxReported)
	return rep.Sorted()
}

// syntax reports at most most slips.
func (s *Source) syntax(rep *Report, diags hcl.Diagnostics, dialect *Dialect, most int) {
	SortDiagnostics(diags)
	lines, tried := map[int]bool{}, map[int]int{}
	for _, d := range diags {
		if d.Severity != hcl.DiagError {
			continue
		}
		w := stumble{Source: s, Dialect: dialect, said: d.Summary, detail: d.Detail}
		if d.Subject != nil {
			w.lo, w.hi = min(d.Subject.Start.Byte, len(s.Src)), min(d.Subject.End.Byte, len(s.Src))
		}
		w.n = s.LineOf(w.lo)
		if tried[w.n]++; tried[w.n] > maxTried {
			continue
		}
		w.line, w.start = string(s.LineText(w.n)), s.lines[w.n-1]
		slip := w.reword()
		line := s.LineOf(w.start + slip.From)
		if lines[line] {
			continue
		}
		lines[line] = true
		rep.Slip(w.start, slip)
		if len(lines) == most || slip.Noise || halfQuoted(string(s.LineText(line))) {
			break // inside and outside have changed places
		}
	}
}
