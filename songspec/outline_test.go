package songspec

import (
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"plinth/songspec/outline"
)

const outlineSong = `
title    = "Lanterns on the Weir"
by       = "The Weir Street Songbook"
key      = "Eb major"
tempo    = 72
count_in = 1
pickup   = 1

section "verse" {
  chords = <<-EOT
    | Eb    | Bb/D         | Cm7  | Ab / / Abm6 |
    | Eb/Bb | Bb7sus4 Bb7  | (2/4) Eb | %       |
  EOT
  space "4: 3" { beats = 2 }
}

section "chorus" {
  energy = [3, 4]
  chords = "|: Ab | vi7 IV/5 / / :| C | / / / Bb |"
  push "2, last: 4&" {}
  accent "3: 2 4" {
    by     = ["drums", "piano"]
    weight = 3
  }
  stop "4: 3" {}
}

section "close" {
  chords = "| Eb | Eb |"
  fills  = false
  lead   = false
  rit "1-2" { to = 56 }
  hold "2: 4" { beats = 1.5 }
}

form {
  play "verse" { tacet = ["drums", "bass", "piano"] }
  play "verse" {}
  play "chorus" {}
  play "chorus" { lift = 1 }
  play "close" {}
}
`

func TestOutline(t *testing.T) {
	src := strings.Replace(outlineSong, "vi7 IV/5 / / :|", "vi7 IV/5 / / :|", 1)
	tl, diags := build(src)
	if tl == nil {
		t.Fatal(written(src, diags))
	}
	var b strings.Builder
	if err := outline.Write(&b, tl); err != nil {
		t.Fatal(err)
	}
	golden(t, "testdata/outline.txt", b.String())
	closed, to := io.Pipe()
	_ = closed.Close()
	if err := outline.Write(to, tl); err == nil {
		t.Error("the writer's error is lost")
	}
}

// A change in one section leaves the lines of all others as they were, but for
// the form at the top.
func TestOutlineDiffsWell(t *testing.T) {
	outline := func(src string) string {
		tl, diags := build(src)
		if tl == nil {
			t.Fatal(written(src, diags))
		}
		var b strings.Builder
		_ = outline.Write(&b, tl)
		return b.String()
	}
	before := outline(outlineSong)
	after := outline(strings.Replace(outlineSong, "| Eb    | Bb/D", "| Eb | Gm7 | Bb/D", 1))
	body := func(s string) string { return s[strings.Index(s, "\nchorus (1)\n  bars"):] }
	if body(before) != body(after) {
		t.Error("a bar more in the verse moves lines of the chorus")
	}
	if before == after {
		t.Error("nothing has changed")
	}
}

// TestOutlineReadsAgain: the bars of an outline are a chart that says the same.
func TestOutlineReadsAgain(t *testing.T) {
	bar := regexp.MustCompile(`(?m)^ +\d+ \| (.*?) *\|(?:  in (\d+/\d+))?`)
	for _, row := range slices.Concat(charts, endingCharts, countCharts) {
		if row.want == "" || row.want == "C/// 8" {
			continue
		}
		tl := good(t, "meter = \""+row.meter+"\"\n"+one(row.chords))
		var b strings.Builder
		if err := outline.Write(&b, tl); err != nil {
			t.Fatal(err)
		}
		chart := ""
		for _, m := range bar.FindAllStringSubmatch(b.String(), -1) {
			if m[2] != "" {
				chart += "| (" + m[2] + ") "
			} else {
				chart += "| "
			}
			chart += m[1] + " "
		}
		if got := lengths(&good(t, "meter = \""+row.meter+"\"\n"+one(chart+"|")).Passes[0]); got != row.want {
			t.Errorf("%s: %s reads as %s, not %s", row.name, chart, got, row.want)
		}
	}
}
