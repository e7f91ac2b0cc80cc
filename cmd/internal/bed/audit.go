package bed

import (
	"bytes"
	"fmt"

	"github.com/hashicorp/hcl/v2"

	"plinth/groove/audit"
	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
)

// Audit returns what a player could not play and what is more than a bed needs, as
// warnings at lines of the song file: the bed can be built all the same. Findings of one
// rule at one line are one warning with their number. It needs a Performance.
func (r *Result) Audit(song string) hcl.Diagnostics {
	if r.Performance == nil {
		return nil
	}
	report := audit.Song(r.Timeline, r.Performance, r.Feels)
	source := hcltext.NewSource(song, r.Sources[song])
	type place struct {
		line int
		rule string
	}
	times := map[place]int{} // 0 once it is said
	for _, f := range report.Findings {
		times[place{f.Line, f.Rule}]++
	}
	var out hcl.Diagnostics
	for _, f := range report.Findings {
		n := times[place{f.Line, f.Rule}]
		if n == 0 {
			continue
		}
		times[place{f.Line, f.Rule}] = 0
		detail := wording.Sentence("%s, the %s: %s.", r.Timeline.Passes[f.Pass].BarWords(f.Bar, ""), f.Player, f.Text)
		if a := f.Advice(); a != "" {
			detail += " " + a
		}
		switch {
		case n == 2:
			detail += " The same once more at this line."
		case n > 2:
			detail += fmt.Sprintf(" The same %d times more at this line.", n-1)
		}
		line := min(max(f.Line, 1), source.LineCount())
		text := source.LineText(line)
		lo := source.LineStart(line) + len(text) - len(bytes.TrimLeft(text, " \t"))
		at := source.Range(lo, lo+len(bytes.Trim(text, " \t")))
		out = append(out, &hcl.Diagnostic{Severity: hcl.DiagWarning, Summary: f.Title(), Detail: detail, Subject: &at})
	}
	return out
}
