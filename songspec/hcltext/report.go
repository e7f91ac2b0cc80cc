package hcltext

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// maxReported bounds how many diagnostics one run collects: ten are shown, and
// nobody counts past a thousand.
const maxReported = 1000

// Report collects diagnostics. Of errors the first at a range stays; later ones
// at the same range are follow-on noise.
type Report struct {
	Source *Source   // whose lines and columns are put right
	Others []*Source // likewise, of other files that a range may lie in
	Diags  hcl.Diagnostics
	at     map[spot]bool
}

type spot struct {
	at hcl.Range
	// summary parts warnings at one place, which need not follow from one another;
	// it is empty for errors.
	summary string
}

// Entry is what was reported; of what was left out as noise, or because there was too
// much, it is empty.
type Entry struct {
	s *Source
	d *hcl.Diagnostic
}

// Errorf reports an error.
func (r *Report) Errorf(rng hcl.Range, summary, detail string, args ...any) Entry {
	return r.add(hcl.DiagError, rng, summary, fmt.Sprintf(detail, args...))
}

// Warnf reports a warning.
func (r *Report) Warnf(rng hcl.Range, summary, detail string, args ...any) Entry {
	return r.add(hcl.DiagWarning, rng, summary, fmt.Sprintf(detail, args...))
}

// In is the text that a range lies in.
func (r *Report) In(rng hcl.Range) *Source {
	for _, s := range r.Others {
		if s.Name == rng.Filename {
			return s
		}
	}
	return r.Source
}

func (r *Report) add(sev hcl.DiagnosticSeverity, rng hcl.Range, summary, detail string) Entry {
	if len(r.Diags) >= maxReported {
		return Entry{}
	}
	if r.at == nil {
		r.at = map[spot]bool{}
	}
	in := r.In(rng)
	if in != nil && rng.Filename == in.Name {
		rng = in.Range(rng.Start.Byte, rng.End.Byte) // HCL has counted lines in the masked text
	}
	key := spot{at: rng}
	if sev == hcl.DiagWarning {
		key.summary = summary
	}
	if r.at[key] {
		return Entry{}
	}
	r.at[key] = true
	d := &hcl.Diagnostic{Severity: sev, Summary: summary, Detail: detail, Subject: &rng}
	r.Diags = append(r.Diags, d)
	return Entry{in, d}
}

// Write adds the fix: text in place of what stands in a range of the report's source.
func (e Entry) Write(rng hcl.Range, text string) {
	if e.s != nil && rng.Filename == e.s.Name && string(e.s.Src[rng.Start.Byte:rng.End.Byte]) != text {
		e.d.Extra = e.s.fix(rng.Start.Byte, rng.End.Byte, text)
	}
}

// WriteWord adds the fix that writes a word, where there is one.
func (e Entry) WriteWord(rng hcl.Range, word string) {
	if word != "" {
		e.Write(rng, word)
	}
}

// WriteText adds the fix that writes a text in quotes, where there is one.
func (e Entry) WriteText(rng hcl.Range, text string) {
	if text != "" {
		e.Write(rng, Quote(text))
	}
}

// WriteBlock adds the fix that makes a block of what was written as a value, where it
// reads as one.
func (e Entry) WriteBlock(a *hclsyntax.Attribute) {
	braces, ok := a.Expr.(*hclsyntax.ObjectConsExpr)
	if !ok || e.s == nil {
		return
	}
	name, body := a.NameRange.End.Byte, braces.Range()
	if !bytes.ContainsAny(e.s.Src[body.Start.Byte:body.End.Byte], ",:") {
		e.Write(e.s.Range(name, body.Start.Byte), " ")
	}
}

// Sorted are the diagnostics by position.
func (r *Report) Sorted() hcl.Diagnostics {
	SortDiagnostics(r.Diags)
	r.at = nil
	return r.Diags
}

// SortDiagnostics sorts by file, place, then errors before warnings, then text.
func SortDiagnostics(diags hcl.Diagnostics) {
	at := func(d *hcl.Diagnostic) hcl.Range {
		if d.Subject == nil {
			return hcl.Range{Start: hcl.Pos{Byte: -1}}
		}
		return *d.Subject
	}
	slices.SortStableFunc(diags, func(a, b *hcl.Diagnostic) int {
		return cmp.Or(
			cmp.Compare(at(a).Filename, at(b).Filename),
			cmp.Compare(at(a).Start.Byte, at(b).Start.Byte),
			cmp.Compare(a.Severity, b.Severity),
			cmp.Compare(a.Summary, b.Summary),
		)
	})
}
