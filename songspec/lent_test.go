package songspec

import (
	"fmt"
	"testing"
)

// TestLendUnread: a section that is not there is one bar, and so is one that is like it, however
// long the chain and whatever stands first. What is said of other bars of them is no mistake.
func TestLendUnread(t *testing.T) {
	f, diags := Parse("t.song.hcl", []byte(`sections = ["harbour.song.hcl"]
section "slow" {
  like = "late"
  push "7: 4&" {}
  bars "5-8" { energy = 4 }
}
section "late" {
  like = "chorus"
  hold "8: 4" {}
}
section "own" {
  like   = "chorus"
  chords = "| G | C |"
  push "1: 4&" {}
}
form {
  play "slow" {
    only = "3-8"
    stop "6: 1" {}
  }
  play "late" {
    bars "2" { chords = "| F |" }
  }
  play "chorus" {
    push "2: 4&" {}
  }
  play "own" {}
}
`))
	diags = append(diags, f.LendUnread()...)
	tl, more := f.Resolve(Env{})
	if diags = append(diags, more...); diags.HasErrors() {
		t.Fatal(diags)
	}
	var got []string
	for _, p := range tl.Passes {
		got = append(got, fmt.Sprintf("%s %d %s %d", p.Section, len(p.Bars), p.Bars[0].Text, len(p.Events)))
	}
	if want := "[slow 1 borrowed 0 late 1 borrowed 0 chorus 1 borrowed 0 own 2 G 1]"; fmt.Sprint(got) != want {
		t.Errorf("got  %v\nwant %s", got, want)
	}
}
