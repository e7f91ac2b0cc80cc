package songspec

import (
	"fmt"
	"sort"

	"github.com/hashicorp/hcl/v2"
)

// maxReported bounds how many diagnostics one run collects: ten are shown, and
// nobody counts past a thousand.
const maxReported = 1000

// report collects diagnostics. Of errors the first at a range stays; later ones
// at the same range are follow-on noise.
type report struct {
	s     *source // whose lines and columns are put right
	diags hcl.Diagnostics
	at    map[spot]bool
}

type spot struct {
	file   string
	lo, hi int
	// summary parts warnings at one place, which need not follow from one another;
	// it is empty for errors.
	summary string
}

func (r *report) errorf(rng hcl.Range, summary, detail string, args ...any) {
	r.add(hcl.DiagError, rng, summary, fmt.Sprintf(detail, args...))
}

func (r *report) warnf(rng hcl.Range, summary, detail string, args ...any) {
	r.add(hcl.DiagWarning, rng, summary, fmt.Sprintf(detail, args...))
}

func (r *report) add(sev hcl.DiagnosticSeverity, rng hcl.Range, summary, detail string) {
	if len(r.diags) >= maxReported {
		return
	}
	if r.at == nil {
		r.at = map[spot]bool{}
	}
	if r.s != nil && rng.Filename == r.s.name {
		rng = r.s.rng(rng.Start.Byte, rng.End.Byte) // HCL has counted lines in the masked text
	}
	d := &hcl.Diagnostic{Severity: sev, Summary: summary, Detail: detail, Subject: &rng}
	key := spot{rng.Filename, rng.Start.Byte, rng.End.Byte, ""}
	if sev == hcl.DiagWarning {
		key.summary = summary
	}
	if _, ok := r.at[key]; ok {
		return
	}
	r.at[key] = true
	r.diags = append(r.diags, d)
}

// sorted are the diagnostics by position.
func (r *report) sorted() hcl.Diagnostics {
	SortDiagnostics(r.diags)
	r.at = nil
	return r.diags
}

// SortDiagnostics sorts by file, place, then errors before warnings, then text.
func SortDiagnostics(diags hcl.Diagnostics) {
	at := func(d *hcl.Diagnostic) (string, int) {
		if d.Subject == nil {
			return "", -1
		}
		return d.Subject.Filename, d.Subject.Start.Byte
	}
	sort.SliceStable(diags, func(i, j int) bool {
		a, b := diags[i], diags[j]
		af, ab := at(a)
		bf, bb := at(b)
		switch {
		case af != bf:
			return af < bf
		case ab != bb:
			return ab < bb
		case a.Severity != b.Severity:
			return a.Severity < b.Severity
		}
		return a.Summary < b.Summary
	})
}
