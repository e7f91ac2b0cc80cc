package hcltext

import (
	"testing"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// TestUnfold: a block on one line is read by HCL when it is unfolded.
func TestUnfold(t *testing.T) {
	for _, tt := range []struct{ line, want string }{
		{`play "vamp" { vamp = "till {Nell} turns" times = 4 }`,
			"play \"vamp\" {\n  vamp = \"till {Nell} turns\"\n  times = 4\n}"},
		{`  play "verse" { cue "1: 1" { text = "x" } }`, "play \"verse\" {\n    cue \"1: 1\" { text = \"x\" }\n  }"},
		{`picture { rate = 24, start = "01:00:00:00" }`, "picture {\n  rate = 24\n  start = \"01:00:00:00\"\n}"},
		{`play "a" { tacet = ["drums", "bass"] rit "7-8" { to = 64 } fill "8: 3" {} lift = 1 }`,
			"play \"a\" {\n  tacet = [\"drums\", \"bass\"]\n" +
				"  rit \"7-8\" { to = 64 }\n  fill \"8: 3\" {}\n  lift = 1\n}"},
		{`section "a" { chords = "| C |" bars "1" { tempo = 58 bass { line = "two" } } }`,
			"section \"a\" {\n  chords = \"| C |\"\n" +
				"  bars \"1\" {\n    tempo = 58\n    bass { line = \"two\" }\n  }\n}"},
		{`play "a" { only = "5-8" # the end }`, ""},
		{`energy = { from = 2 to = 4 }`, ""},
		{`play "a" { 5 }`, ""},
		{`play "a" {}`, ""},
		{`play "a" { lift = 1`, ""},
	} {
		got, _ := unfold(tt.line)
		if got != tt.want {
			t.Errorf("%s is\n%s\nwant\n%s", tt.line, got, tt.want)
		}
		if _, diags := hclsyntax.ParseConfig([]byte(got), "", hcl.InitialPos); diags.HasErrors() {
			t.Errorf("%s: HCL does not read it: %v", got, diags)
		}
	}
}
