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

// TestLikeBorrowed: a section of the song's own that is like a borrowed one is played without a form,
// and where a form leaves it out that is said.
func TestLikeBorrowed(t *testing.T) {
	lender, diags := Parse("harbour.song.hcl", []byte("key = \"F\"\n"+one("| F | C7 |")))
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	const song = "key = \"G\"\nsections = [\"harbour.song.hcl\"]\nsection \"slow\" { like = \"a\" }\n"
	for _, row := range []struct{ form, want string }{
		{"", "slow 1G 2D7: "},
		{"form {\n  play \"a\" {}\n}\n", "a 1G 2D7: Section \"slow\" is never played"},
	} {
		f, diags := Parse("t.song.hcl", []byte(song+row.form))
		diags = append(diags, f.Lend([]Lent{{f.SectionFiles()[0], lender}})...)
		tl, more := f.Resolve(env())
		if diags = append(diags, more...); diags.HasErrors() {
			t.Fatal(diags)
		}
		got := ""
		for i := range tl.Passes {
			got += tl.Passes[i].Section + " " + inBars(&tl.Passes[i], nil) + ": "
		}
		for _, d := range diags {
			got += d.Summary
		}
		if got != row.want {
			t.Errorf("%q: got %s, want %s", row.form, got, row.want)
		}
	}
}
