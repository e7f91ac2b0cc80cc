package songspec

import (
	"strings"
	"testing"
)

// Common practice, no single source: a dominant goes a fifth or a half step down.
func TestDoubtfulSevenths(t *testing.T) {
	for _, row := range []struct{ reason, key, chart, doubted string }{
		{"the tonic goes to vi", "C", "| C7+ | Am |", "C7+"},
		{"the tonic at the end", "C", "| G7 | C7+ |", "C7+"},
		{"five of four", "C", "| C7+ | F |", ""},
		{"five", "C", "| G7+ | Am |", ""},
		{"a half step down", "C", "| F7+ | Em |", ""},
		{"the other way to write a raised fifth", "C", "| C+7 | Am |", ""},
		{"III in minor", "Am", "| C7+ | Dm |", "C7+"},
		{"one in minor", "Am", "| A7+ | Bm7b5 |", ""},
		{"a dominant tonic, as in the blues", "C", "| I7 | vi |", ""},
		{"the same beside figured bass", "C", "| I7 | vi | V65 |", "I7"},
		{"five of four beside figured bass", "C", "| I7 | IV | V65 |", ""},
		{"five beside figured bass", "C", "| V7 | vi | V65 |", ""},
	} {
		_, diags := build("key = \"" + row.key + "\"\n" + one(row.chart))
		got := ""
		for _, d := range diags {
			if strings.Contains(d.Detail, "major seventh") || strings.Contains(d.Detail, "own seventh") {
				got += strings.Split(d.Summary, `"`)[1]
			}
		}
		if got != row.doubted {
			t.Errorf("%s: %q is doubted in %s, want %q", row.reason, got, row.chart, row.doubted)
		}
	}
}

// An event that another of its own section replaces everywhere is doubted, and no other.
func TestReplacedEvents(t *testing.T) {
	for _, row := range []struct {
		reason, src string
		want        bool
	}{
		{"everywhere", one("| C | F |", `accent "2: 3" {}`, `accent "3" { weight = 3 }`), true},
		{"in one of two bars", one("| C | F |", `accent "3" {}`, `accent "2: 3" { weight = 3 }`), false},
		{"by a play", one("| C | F |", `accent "2: 3" {}`) +
			"form {\n  play \"a\" {\n    accent \"3\" { weight = 3 }\n  }\n}\n", false},
		{"by another word", one("| C | F |", `accent "2: 3" {}`, `fill "2: 3" {}`), false},
	} {
		_, diags := build(row.src)
		got := false
		for _, d := range diags {
			got = got || strings.Contains(d.Detail, "at all its places")
		}
		if got != row.want {
			t.Errorf("%s: doubted %v, want %v", row.reason, got, row.want)
		}
	}
}
