package songspec

import (
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// inBars writes what holds in each bar of a pass: its number, its chords, and what show says.
func inBars(p *timeline.Pass, show func(bar int) string) string {
	var out []string
	for i := range p.Bars {
		var chords []string
		for _, s := range p.Chords {
			if b := p.Bars[i]; s.Start >= b.Start && s.Start < b.Start+b.Length {
				chords = append(chords, s.Chord.String())
			}
		}
		s := fmt.Sprint(p.Bars[i].Number)
		if show == nil {
			s += strings.Join(chords, "+")
		} else {
			s += ":" + show(i)
		}
		out = append(out, s)
	}
	return strings.Join(out, " ")
}

// eightBars is a song of a section "a" with eight bars, a play of it, and lines in both.
func eightBars(section, play string) string {
	return "tempo = 80\nkey = \"G\"\n" +
		"section \"a\" {\n  chords = \"| G | Am | Bm | C | D | Em | F | G7 |\"\n" + section +
		"\n}\nform {\n  play \"a\" {\n" + play + "\n  }\n  play \"a\" {}\n}\n"
}

func TestBarsChords(t *testing.T) {
	for _, row := range []struct{ name, section, play, want, after string }{
		{"nothing", "", "", "1G 2Am 3Bm 4C 5D 6Em 7F 8G7", ""},
		{"one for one in a section", `bars "3-4" { chords = "| Eb | F7 |" }`, "", "1G 2Am 3Eb 4F7 5D 6Em 7F 8G7",
			"1G 2Am 3Eb 4F7 5D 6Em 7F 8G7"},
		{"a second ending in a play", "", `bars "7-8" { chords = "| C / D7 / | G |" }`,
			"1G 2Am 3Bm 4C 5D 6Em 7C+D7 8G", ""},
		{"fewer at the end", "", `bars "7-8" { chords = "| G |" }`, "1G 2Am 3Bm 4C 5D 6Em 7G", ""},
		{"more at the end, open", "", `bars "8-" { chords = "| C | D | G |" }`, "1G 2Am 3Bm 4C 5D 6Em 7F 8C 9D 10G",
			""},
		{"the last bar by its word", "", `bars "last" { chords = "| C |" }`, "1G 2Am 3Bm 4C 5D 6Em 7F 8C", ""},
		{"a list is dealt out in order", "", `bars "2, 4-5" { chords = "| A | B | E |" }`,
			"1G 2A 3Bm 4B 5E 6Em 7F 8G7", ""},
		{"the play's win over the section's", `bars "3-4" { chords = "| Eb | F7 |" }`, `bars "4" { chords = "| A |" }`,
			"1G 2Am 3Eb 4A 5D 6Em 7F 8G7", "1G 2Am 3Eb 4F7 5D 6Em 7F 8G7"},
		{"a closed range wins in an open one", "",
			"bars \"2\" { chords = \"| A |\" }\n bars \"1-\" { chords = \"| C | C |\" }",
			"1C 2A", ""},
		{"an open range ends where the next begins", "", "bars \"3-\" { chords = \"| E | E |\" }\n" +
			"bars \"5-\" { chords = \"| A | B |\" }", "1G 2Am 3E 4E 5A 6B", ""},
		{"a slash goes on from the bar before, as a chart's does", "", `bars "3" { chords = "| / / A / |" }`,
			"1G 2Am 3A 4C 5D 6Em 7F 8G7", ""},
		{"only", "", `only = "1-2, 7-8"`, "1G 2Am 7F 8G7", ""},
		{"only, open", "", `only = "6-"`, "6Em 7F 8G7", ""},
		{"times", "", "only = \"7-8\"\ntimes = 3", "7F 8G7 7F 8G7 7F 8G7", ""},
		{"a vamp is played once", "", "only = \"1-2\"\nvamp = \"till Nell turns\"", "1G 2Am", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			tl := good(t, eightBars(row.section, row.play))
			if got := inBars(&tl.Passes[0], nil); got != row.want {
				t.Errorf("got  %s\nwant %s", got, row.want)
			}
			after := row.after
			if after == "" {
				after = "1G 2Am 3Bm 4C 5D 6Em 7F 8G7"
			}
			if got := inBars(&tl.Passes[1], nil); got != after {
				t.Errorf("the play after it: got %s, want %s", got, after)
			}
		})
	}
}

// A chord that goes on over a bar line by a slash is the chord of the bar before in the section,
// also where that bar is not played.
func TestOnlyFromASlash(t *testing.T) {
	tl := good(t, `
section "a" { chords = "| C | F G | / Am / / | D |" }
form {
  play "a" { only = "1, 3-4" }
  play "a" {
    only = "3"
    times = 2
  }
}
`)
	for i, want := range []string{"C 0-3840; G 3840-4800; Am 4800-7680; D 7680-11520",
		"G 0-960; Am 960-3840; G 3840-4800; Am 4800-7680"} {
		var got []string
		for _, s := range tl.Passes[i].Chords {
			got = append(got, fmt.Sprintf("%s %d-%d", s.Chord, s.Start, s.End))
		}
		if g := strings.Join(got, "; "); g != want {
			t.Errorf("got %s, want %s", g, want)
		}
	}
}

func TestBarsSettings(t *testing.T) {
	for _, row := range []struct{ name, section, play, show, want string }{
		{"energy in some bars", `bars "3-4" { energy = 5 }`, "", "energy", "1:2 2:2 3:5 4:5 5:2 6:2 7:2 8:2"},
		{"energy from a bar on", `bars "7-" { energy = 1 }`, "", "energy", "1:2 2:2 3:2 4:2 5:2 6:2 7:1 8:1"},
		{"energy that moves in its bars", `bars "3-7" { energy = [1, 5] }`, "", "energy",
			"1:2 2:2 3:1 4:2 5:3 6:4 7:5 8:2"},
		{"a closed range inside an open one", "bars \"2-\" { energy = 4 }\nbars \"4-5\" { energy = 1 }", "", "energy",
			"1:2 2:4 3:4 4:1 5:1 6:4 7:4 8:4"},
		{"the next open one ends it", "bars \"2-\" { energy = 4 }\nbars \"5-\" { energy = 1 }", "", "energy",
			"1:2 2:4 3:4 4:4 5:1 6:1 7:1 8:1"},
		{"another attribute does not end it", "bars \"2-\" { energy = 4 }\nbars \"5-\" { feel = \"swing\" }", "",
			"energy",
			"1:2 2:4 3:4 4:4 5:4 6:4 7:4 8:4"},
		{"the section's bars win over the play", `bars "2" { energy = 4 }`, "energy = 1", "energy",
			"1:1 2:4 3:1 4:1 5:1 6:1 7:1 8:1"},
		{"the play's bars over the section's", `bars "2-" { energy = 4 }`, `bars "3" { energy = 5 }`, "energy",
			"1:2 2:4 3:5 4:4 5:4 6:4 7:4 8:4"},
		{"every round", `bars "2" { energy = 4 }`, "only = \"1-2\"\ntimes = 2", "energy", "1:2 2:4 1:2 2:4"},
		{"feel", `bars "5-6" { feel = "swing" }`, "", "feel", "1: 2: 3: 4: 5:swing 6:swing 7: 8:"},
		{"tacet, by everybody", `bars "5-6" { tacet = ["bass", "piano"] }`, "", "tacet",
			"1:0 2:0 3:0 4:0 5:6 6:6 7:0 8:0"},
		{"back in", `bars "5-6" { tacet = [] }`, `tacet = ["drums"]`, "tacet", "1:1 2:1 3:1 4:1 5:0 6:0 7:1 8:1"},
		{"kit", `bars "5-" {
  drums { kit = "brushes" }
}`, `drums { kit = "sticks" }`, "kit", "1:sticks 2:sticks 3:sticks 4:sticks 5:brushes 6:brushes 7:brushes 8:brushes"},
		{"line", `bass { line = "two" }`, "bars \"3-4\" {\n  bass { line = \"walk\" }\n}", "line",
			"1:two 2:two 3:walk 4:walk 5:two 6:two 7:two 8:two"},
		{"key", `bars "5-6" { key = "Eb" }`, "", "key", "1:G 2:G 3:G 4:G 5:Eb 6:Eb 7:G 8:G"},
		{"the section's key moves with the play", `bars "5-" { key = "Eb" }`, "lift = 2", "key",
			"1:A 2:A 3:A 4:A 5:F 6:F 7:F 8:F"},
		{"the play's key is where it sounds", "", "lift = 2\nbars \"5-\" { key = \"Eb\" }", "key",
			"1:A 2:A 3:A 4:A 5:Eb 6:Eb 7:Eb 8:Eb"},
		{"a lift from a bar on", "", `bars "5-" { lift = 1 }`, "key", "1:G 2:G 3:G 4:G 5:Ab 6:Ab 7:Ab 8:Ab"},
		{"lifts add up", "", "bars \"5-\" { lift = 1 }\nbars \"7-\" { lift = 2 }", "key",
			"1:G 2:G 3:G 4:G 5:Ab 6:Ab 7:Bb 8:Bb"},
	} {
		t.Run(row.name, func(t *testing.T) {
			tl := good(t, eightBars(row.section, row.play))
			p := &tl.Passes[0]
			got := inBars(p, func(bar int) string {
				switch row.show {
				case "energy":
					return fmt.Sprint(p.EnergyAt(bar))
				case "feel":
					return p.Bars[bar].Feel
				case "tacet":
					return fmt.Sprint(p.TacetAt(bar))
				case "kit":
					return tl.BandAt(p, bar).Drums.Kit
				case "line":
					return tl.BandAt(p, bar).Bass.Line
				}
				return strings.Fields(p.KeyAt(p.Bars[bar].Start).String())[0]
			})
			if got != row.want {
				t.Errorf("got  %s\nwant %s", got, row.want)
			}
		})
	}
}

// The key of bars is signature and numerals: letters stay where the pass has them. A lift in a
// play's bars moves letters and numerals, from there on and in all that follows.
func TestBarsKeyAndLift(t *testing.T) {
	song := func(section, play string) string {
		return "key = \"G\"\nsection \"a\" {\n  chords = \"| G | IV | C | V |\"\n" + section +
			"\n}\nform {\n  play \"a\" {\n" + play + "\n  }\n  play \"a\" {}\n}\n"
	}
	for _, row := range []struct{ name, section, play, want, after string }{
		{"key", `bars "3-" { key = "Eb" }`, "", "1G 2C 3C 4Bb", "1G 2C 3C 4Bb"},
		{"key under a lift", `bars "3-" { key = "Eb" }`, "lift = 2", "1A 2D 3D 4C", "1A 2D 3D 4C"},
		{"lift", "", `bars "3-" { lift = 2 }`, "1G 2C 3D 4E", "1A 2D 3D 4E"},
	} {
		tl := good(t, song(row.section, row.play))
		if got := inBars(&tl.Passes[0], nil); got != row.want {
			t.Errorf("%s: got %s, want %s", row.name, got, row.want)
		}
		if got := inBars(&tl.Passes[1], nil); got != row.after {
			t.Errorf("%s, the play after it: got %s, want %s", row.name, got, row.after)
		}
	}
}

// Tempos are set at bar lines and given as quarters a minute, rounded.
func TestBarsTempo(t *testing.T) {
	for _, row := range []struct{ name, section, play, want string }{
		{"a sudden 58", `bars "5-6" { tempo = 58 }`, "", "1:80 5:58 7:80"},
		{"from the first bar", `bars "1-2" { tempo = 58 }`, "", "1:58 3:80"},
		{"from a bar on", `bars "5-" { tempo = 58 }`, "", "1:80 5:58"},
		{"a tempo", `bars "5-" { tempo = 58 }`, `bars "7-" { tempo = "a tempo" }`, "1:80 5:58 7:80"},
		{"a tempo after a rit", "rit \"3-4\" { to = 60 }\nbars \"5-\" { tempo = \"a tempo\" }", "",
			"1:80 3:78 3:75 3:73 3:71 4:68 4:66 4:63 4:60 5:80"},
		{"a rit in the bars", "bars \"5-6\" { tempo = 58 }\nrit \"6\" { to = 50 }", "",
			"1:80 5:58 6:56 6:54 6:52 6:50 7:80"},
		{"every round", `bars "2" { tempo = 60 }`, "only = \"1-2\"\ntimes = 2", "1:80 2:60 1:80 2:60"},
	} {
		p := good(t, eightBars(row.section, row.play)).Passes[0]
		var got []string
		for _, s := range p.Tempos {
			got = append(got, fmt.Sprintf("%d:%d", p.Bars[p.BarAt(s.Tick)].Number, (60_000_000+s.Micros/2)/s.Micros))
		}
		if g := strings.Join(got, " "); g != row.want {
			t.Errorf("%s:\n got %s\nwant %s", row.name, g, row.want)
		}
	}
}

// Bars keep their numbers, so events stay where they are written.
func TestEventsAndBars(t *testing.T) {
	for _, row := range []struct{ name, section, play, want string }{
		{"in another bar's chords", `accent "4: 1" {}`, `bars "2" { chords = "| (2/4) A |" }`,
			"accent 4: 1 9600-9600 w2"},
		{"last is the new last", `accent "last: 1" {}`, `bars "7-8" { chords = "| G |" }`,
			"accent 7: 1 23040-23040 w2"},
		{"not in bars that are not played", `accent "1, 4: 1" {}`, `only = "3-5"`, "accent 4: 1 3840-3840 w2"},
		{"every round", `accent "8: 1" {}`, "only = \"7-8\"\ntimes = 2",
			"accent 8: 1 3840-3840 w2; accent 8: 1 11520-11520 w2"},
		{"every round, as many bars as the section has", `accent "8: 1" {}`, "only = \"1-3, 8\"\ntimes = 2",
			"accent 8: 1 11520-11520 w2; accent 8: 1 26880-26880 w2"},
		{"a rit over the seam", `rit "4-7" { to = 60 }`, `only = "3-5, 7"`, "rit 4-7 3840-15360 to 60"},
		{"without", "accent \"4: 1\" {}\npush \"4: 4&\" {}", `without = ["push"]`, "accent 4: 1 11520-11520 w2"},
		{"the play's rit replaces the section's", `rit "7-8" { to = 60 }`, `rit "6-7" { to = 70 }`,
			"rit 6-7 19200-26880 to 70"},
	} {
		if got := told(&good(t, eightBars(row.section, row.play)).Passes[0]); got != row.want {
			t.Errorf("%s:\n got %s\nwant %s", row.name, got, row.want)
		}
	}
}

// A section that is like another takes its bars blocks over, and its own win. Own chords leave
// the other's chords out.
func TestLikeAndBars(t *testing.T) {
	tl := good(t, `
section "a" {
  chords = "| C | F | G | C |"
  bars "2-3" { energy = 4 }
  bars "4" { chords = "| Am |" }
  push "2: 4&" {}
  rit "4" { to = 60 }
}
section "b" {
  like = "a"
  bars "3-4" { energy = 1 }
}
section "c" {
  like    = "a"
  chords  = "| D | E | F | G |"
  without = ["push"]
  rit "3-4" { to = 70 }
}
`)
	for i, row := range []struct{ chords, energies, events string }{
		{"1C 2F 3G 4Am", "1:2 2:4 3:4 4:2", "push 2: 4& 7200-7680 to 7680; rit 4 11520-15360 to 60"},
		{"1C 2F 3G 4Am", "1:2 2:4 3:1 4:1", "push 2: 4& 7200-7680 to 7680; rit 4 11520-15360 to 60"},
		{"1D 2E 3F 4G", "1:2 2:4 3:4 4:2", "rit 3-4 7680-15360 to 70"},
	} {
		p := &tl.Passes[i]
		energies := inBars(p, func(bar int) string { return fmt.Sprint(p.EnergyAt(bar)) })
		if chords := inBars(p, nil); chords != row.chords || energies != row.energies || told(p) != row.events {
			t.Errorf("%s: got\n%s\n%s\n%s", p.Section, chords, energies, told(p))
		}
	}
}

// A play of some times is one pass: another number of times moves no other pass of the section.
func TestTimesIsOnePass(t *testing.T) {
	song := func(times string) string {
		return "section \"a\" { chords = \"| C | F |\" }\nform {\n  play \"a\" {}\n  play \"a\" { times = " + times +
			" }\n  play \"a\" {}\n}\n"
	}
	two, four := good(t, song("2")), good(t, song("4"))
	if len(two.Passes) != 3 || two.Passes[2].Ordinal != 2 || four.Passes[2].Ordinal != 2 ||
		two.Passes[2].FillVariant != four.Passes[2].FillVariant {
		t.Error("the passes after a vamp depend on how often it is played")
	}
	if got := len(four.Passes[1].Bars); got != 8 {
		t.Errorf("two bars four times are %d bars", got)
	}
}

// TestBarsOfTheReadme: what the reference shows of bars and of parts of sections is so.
func TestBarsOfTheReadme(t *testing.T) {
	bars := examplesWith(t, "README.md", "bars \"7-8\"")
	coda := examplesWith(t, "README.md", "section \"coda\"")
	reprise := examplesWith(t, "README.md", "sections = [")
	if len(bars) != 1 || len(coda) != 1 || len(reprise) != 1 {
		t.Fatalf("%d, %d and %d examples", len(bars), len(coda), len(reprise))
	}
	tl := good(t, bars[0])
	first, second := &tl.Passes[0], &tl.Passes[1]
	if got := inBars(second, nil); got != "1G 2Em 3C 4D7 5Ab 6Fm 7Eb7 8Ab" {
		t.Errorf("the second play is %s", got)
	}
	show := func(bar int) string { return fmt.Sprint(first.EnergyAt(bar), first.TacetAt(bar)) }
	if got := inBars(first, show); got != "1:2 0 2:2 0 3:2 0 4:2 0 5:2 1 6:2 1 7:3 0 8:5 0" {
		t.Errorf("energy and tacet of the first play: %s", got)
	}
	if len(first.Tempos) != 2 || len(second.Tempos) != 1 || tl.BandAt(first, 7).Bass.Line != "two" {
		t.Errorf("tempos %v and %v", first.Tempos, second.Tempos)
	}
	tl = good(t, coda[0])
	if got := inBars(&tl.Passes[1], nil) + ", " + inBars(&tl.Passes[2], nil); got != "3F 4G7 5C 6Am, 1F 2Fm6 3C 4C" {
		t.Errorf("D.S. al coda: %s", got)
	}
	f, diags := Parse("t.song.hcl", []byte(reprise[0]))
	if f == nil || diags.HasErrors() {
		t.Fatal(diags)
	}
	lender, _ := Parse("harbour.song.hcl",
		[]byte("key = \"F\"\nsection \"chorus\" {\n  chords = \"| F | Bb | C7 | F | F |\"\n  push \"2: 4&\" {}\n}\n"))
	if diags := f.Lend([]Lent{{f.SectionFiles()[0], lender}}); diags.HasErrors() {
		t.Fatal(diags)
	}
	lent, diags := f.Resolve(env())
	if lent == nil {
		t.Fatal(diags)
	}
	if p := &lent.Passes[0]; inBars(p, nil) != "1Eb 2Ab 3Bb7 4Eb" || len(p.Events) != 0 || p.EnergyAt(0) != 1 {
		t.Errorf("the reprise is %s", inBars(p, nil))
	}
}
