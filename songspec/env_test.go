package songspec

import (
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// env is a fixed set of feels, a few of those that ship, and a guide for songs that follow one.
func env() Env {
	m := func(s string) []meter.Meter {
		x, err := meter.Parse(s)
		if err != nil {
			panic(err)
		}
		return []meter.Meter{x}
	}
	return Env{Guide: breathing(8), Feels: map[string]FeelInfo{
		"ballad-eighths":   {Meters: m("4/4"), TempoLow: 50, TempoHigh: 100},
		"tight-sixteenths": {Meters: m("4/4")},
		"swing":            {Meters: m("4/4")},
		"waltz":            {Meters: m("3/4")},
		"slow-twelve":      {Meters: m("12/8")},
		"half-time":        {Meters: m("4/4"), TempoLow: 112, TempoHigh: 168},
		"lilt":             {Meters: m("6/8")},
		"march":            {Meters: m("2/4")},
		"five":             {Meters: m("5/4")},
		"seven":            {Meters: m("7/8 2+2+3")},
		"pulse":            {TempoLow: 50, TempoHigh: 160},
		"sustain":          {TempoLow: 40, TempoHigh: 200},
	}}
}

// build parses and resolves. Sections that the song borrows are not there.
func build(src string) (*timeline.Timeline, hcl.Diagnostics) {
	f, diags := Parse("t.song.hcl", []byte(src))
	if f == nil {
		return nil, diags
	}
	diags = append(diags, f.LendUnread()...) // what it borrows, it has by name
	tl, more := f.Resolve(env())
	diags = append(diags, more...)
	hcltext.SortDiagnostics(diags)
	return tl, diags
}

// good builds a song without any diagnostic.
func good(t *testing.T, src string) *timeline.Timeline {
	t.Helper()
	tl, diags := build(src)
	if len(diags) > 0 {
		t.Fatalf("not good: %s\n%s", written(src, diags), src)
	}
	return tl
}

func written(src string, diags hcl.Diagnostics) string {
	var b strings.Builder
	if err := hcltext.WriteDiagnostics(&b, map[string][]byte{"t.song.hcl": []byte(src)}, diags,
		hcltext.DiagOptions{Max: -1}); err != nil {
		panic(err)
	}
	return b.String()
}

// one is a song of one section with these lines in it.
func one(chords string, lines ...string) string {
	return "section \"a\" {\n  chords = \"" + chords + "\"\n" + indented(lines) + "}\n"
}

func indented(lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	return "  " + strings.Join(lines, "\n  ") + "\n"
}
