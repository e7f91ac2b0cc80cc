package songspec

import (
	"testing"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/hcltext/sliptest"
)

// slipped is a song in which slips are made.
const slipped = `title = "Mill"
tempo = 72
energy = [2, 4]
piano { span = 14 }
section "verse" {
  chords = <<-EOT
    | C | F |
  EOT
  fills = false
  lead  = false
  space "1: 3" { beats = 1/3 }
  accent "2 4" {
    by = ["drums", "piano"]
  }
}
form {
  play "verse" {}
}
`

// TestOwnWords: no single slip in a song file brings out a word of the parser's, and nearly each
// brings out one message.
func TestOwnWords(t *testing.T) {
	seen := map[string]bool{}
	n, wrong, twice := 0, 0, 0
	sliptest.Mutants(slipped, func(m string) {
		_, diags := build(m)
		n++
		switch errors := len(diags.Errs()); {
		case errors > 1:
			twice++
			fallthrough
		case errors == 1:
			wrong++
		}
		for _, d := range diags {
			said := d.Summary + ": " + d.Detail
			if w := sliptest.ParserWords.FindString(said); w != "" && !seen[d.Summary+w] {
				seen[d.Summary+w] = true
				t.Errorf("%q is a word of the parser's:\n%s", w, written(m, hcl.Diagnostics{d}))
			}
		}
	})
	if n < 4000 {
		t.Errorf("only %d slips were tried", n)
	}
	if twice*100 > wrong { // 49 of 6,230 when this was written
		t.Errorf("of %d slips %d have more than one message", wrong, twice)
	}
}
