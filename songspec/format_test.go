package songspec

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestFormat(t *testing.T) {
	for _, row := range []struct{ name, reason, src, want string }{
		{"grid", "bar lines under one another",
			"section \"a\" {\nchords=<<-EOT\n| C | F / G / |\n|  Am7b5 | G |\nEOT\n}\n",
			"section \"a\" {\n  chords = <<-EOT\n    | C     | F / G / |\n    | Am7b5 | G       |\n  EOT\n}\n"},
		{"repeats", "the strokes stand under one another",
			"section \"a\" {\n  chords = <<-EOT\n    |: C | F :|x3\n  | G | Am |\n EOT\n}\n",
			"section \"a\" {\n  chords = <<-EOT\n    |: C | F  :|x3\n    |  G | Am  |\n  EOT\n}\n"},
		{"double bar above a repeat", "the colon stays at its bar line",
			"section \"a\" {\n  chords = <<-EOT\n    || C | F |\n    |: G :|x2\n  EOT\n}\n",
			"section \"a\" {\n  chords = <<-EOT\n    || C  | F |\n    |: G :|x2\n  EOT\n}\n"},
		{"quoted", "on one line, single blanks",
			"section \"a\" {\n  chords = \"|  C|F   G |\"\n}\n",
			"section \"a\" {\n  chords = \"| C | F G |\"\n}\n"},
		{"comments", "they stay, in charts and outside",
			"# top\nsection \"a\" { # here\n  chords = <<-EOT\n  // first\n  | C | F |\n\n  # second\n  | G | Am7 " +
				"|\n  EOT\n}\n",
			"# top\nsection \"a\" { # here\n  chords = <<-EOT\n    // first\n    | C | F   |\n\n    # second\n    | " +
				"G | Am7 |\n  EOT\n}\n"},
		{"values", "equals signs under one another",
			"title=\"x\"\ntempo   =   70\nsection \"a\" {\nchords=\"| C |\"\nenergy=2\n}\n",
			"title = \"x\"\ntempo = 70\nsection \"a\" {\n  chords = \"| C |\"\n  energy = 2\n}\n"},
		{"Windows", "line ends stay",
			"section \"a\" {\r\n  chords = <<-EOT\r\n  | C | F |\r\n  EOT\r\n}\r\n",
			"section \"a\" {\r\n  chords = <<-EOT\r\n    | C | F |\r\n  EOT\r\n}\r\n"},
		{"no final line end", "there is one then", "section \"a\" {\n  chords = \"| C |\"\n}",
			"section \"a\" {\n  chords = \"| C |\"\n}\n"},
		{"template signs", "they are text", "title = \"%{ ${\"\nsection \"a\" {\n  chords = \"| C |\"\n}\n",
			"title = \"%{ ${\"\nsection \"a\" {\n  chords = \"| C |\"\n}\n"},
		{"flat and sharp signs", "one character is one column",
			"section \"a\" {\n  chords = <<-EOT\n    | E♭ | F |\n    | Ebm7 | F |\n  EOT\n}\n",
			"section \"a\" {\n  chords = <<-EOT\n    | E♭   | F |\n    | Ebm7 | F |\n  EOT\n}\n"},
		{"plain heredoc", "its closing word may not move",
			"section \"a\" {\n  chords = <<EOT\n| C | F |\nEOT\n}\n",
			"section \"a\" {\n  chords = <<EOT\n    | C | F |\nEOT\n}\n"},
		{"odd bar", "its meter belongs to the cell",
			"section \"a\" {\n  chords = <<-EOT\n    | (2/4)   C | F |\n    | C | F |\n  EOT\n}\n",
			"section \"a\" {\n  chords = <<-EOT\n    | (2/4) C | F |\n    | C       | F |\n  EOT\n}\n"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, diags := Format("t", []byte(row.src))
			if string(got) != row.want {
				t.Errorf("%s: %v\n got %q\nwant %q", row.reason, diags, got, row.want)
			}
			sameSong(t, row.src, string(got))
		})
	}
	if out, diags := Format("t", []byte("tempoo = 1\n")); out != nil || !diags.HasErrors() {
		t.Error("a broken file was formatted")
	}
}

// sameSong formats once more and compares what the two say.
func sameSong(t *testing.T, before, after string) {
	t.Helper()
	again, diags := Format("t", []byte(after))
	if string(again) != after {
		t.Errorf("formatting twice is not formatting once: %v\nonce  %q\ntwice %q", diags, after, again)
	}
	a, b := meaning(before), meaning(after)
	if a != b {
		t.Errorf("the song has changed:\n%s\n%s", a, b)
	}
}

// meaning is what a song file says, without where it says it.
func meaning(src string) string {
	f, _ := Parse("t", []byte(src))
	if f == nil {
		return "nothing"
	}
	tl, diags := f.Resolve(env())
	var b strings.Builder
	for _, d := range diags {
		b.WriteString(d.Summary + "\n")
	}
	for _, s := range f.sections {
		b.WriteString(s.name + ":")
		if s.chords != nil {
			for _, i := range s.chords.order {
				w := s.chords.written[i]
				b.WriteString(" | ")
				if w.meter != nil {
					b.WriteString(w.meter.String() + " ")
				}
				b.WriteString(w.text)
			}
		}
		b.WriteString("\n")
	}
	if tl != nil {
		for i := range tl.Passes {
			b.WriteString(tl.Passes[i].Section + " " + told(&tl.Passes[i]) + "\n")
		}
	}
	return b.String()
}

// The charts of bars blocks are laid out, too, in a section and in a play, whatever stands before them.
func TestFormatBarsCharts(t *testing.T) {
	const src = `section "a" {
  bars "2-3" {
    chords = <<-EOT
      |F | Gm7 |
    | C|
      EOT
  }
  chords = <<-EOT
  | C |Am |
    |F  | G |
  EOT
}

form {
  play "a" {
    bars "1" { chords = "|C6  |" }
  }
}
`
	const want = `section "a" {
  bars "2-3" {
    chords = <<-EOT
      | F | Gm7 |
      | C |
    EOT
  }
  chords = <<-EOT
    | C | Am |
    | F | G  |
  EOT
}

form {
  play "a" {
    bars "1" { chords = "| C6 |" }
  }
}
`
	got, diags := Format("t.song.hcl", []byte(src))
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	compare(t, string(got), want)
	sameSong(t, src, string(got))
}

func TestFormatExamples(t *testing.T) {
	files, err := filepath.Glob("../examples/*.song.hcl")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		out, diags := Format(file, src)
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		sameSong(t, string(src), string(out))
	}
}

func TestStarter(t *testing.T) {
	for _, title := range []string{"Lanterns", `A "quoted" \ ${one} %{two}`, "", "  ", "line\nbreak", "\xff",
		strings.Repeat("x", 500)} {
		src := Starter(title)
		tl := good(t, string(src))
		if len(tl.Passes) != 4 || tl.Title == "" {
			t.Errorf("%q: %d passes of %q", title, len(tl.Passes), tl.Title)
		}
		out, _ := Format("t", src)
		compare(t, string(out), string(src))
	}
	if tl := good(t, string(Starter(`A "quoted" \ ${one} %{two}`))); tl.Title != `A "quoted" \ ${one} %{two}` {
		t.Errorf("title %q", tl.Title)
	}
}

// TestFormatUnfolds: what does not fit on one line of HCL is laid out, with other mistakes in the file not.
func TestFormatUnfolds(t *testing.T) {
	const form = "form {\n  play \"a\" { vamp = \"till Nell turns\" times = 4 }\n" +
		"  play \"a\" { rit \"1\" { to = 48 } }\n}\n"
	const laid = "form {\n  play \"a\" {\n    vamp  = \"till Nell turns\"\n    times = 4\n  }\n" +
		"  play \"a\" {\n    rit \"1\" { to = 48 }\n  }\n}\n"
	for _, end := range []string{"\n", "\r\n"} {
		ends := func(s string) string { return strings.ReplaceAll(s, "\n", end) }
		got, diags := Format("t.song.hcl", []byte(ends(one("| C |")+form)))
		if want := ends(one("| C |") + laid); string(got) != want {
			t.Errorf("%q, want %q, %v", got, want, diags)
		}
	}
	if got, diags := Format("t.song.hcl", []byte("tempo = 5000\n"+one("| C |")+form)); got != nil || len(diags) < 2 {
		t.Errorf("%q, %v", got, diags)
	}
}
