package songspec

import (
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// passes writes each pass in one line.
func passes(tl *timeline.Timeline, f func(p *timeline.Pass) string) string {
	var out []string
	for i := range tl.Passes {
		out = append(out, f(&tl.Passes[i]))
	}
	return strings.Join(out, "; ")
}

const verseChorus = `
section "verse" {
  chords = "| C | Fm6/Ab |"
}
section "bridge" {
  key    = "A minor"
  chords = "| Am | bVI |"
}
`

func TestKeysAndLifts(t *testing.T) {
	sounding := func(p *timeline.Pass) string {
		var chords []string
		for _, s := range p.Chords {
			chords = append(chords, s.Chord.String())
		}
		return fmt.Sprintf("%s %+d: %s", p.Key, p.Lift, strings.Join(chords, " "))
	}
	for _, row := range []struct{ name, reason, form, want string }{
		{"no lift", "letters as written, numerals in the section's key",
			`play "verse" {}` + "\n" + `play "bridge" {}`,
			"C major +0: C Fm6/Ab; A minor +0: Am F"},
		{"half a step", "letters, bass and spelling move, and it holds from there on",
			`play "verse" {}` + "\n" + `play "verse" { lift = 1 }` + "\n" + `play "bridge" {}`,
			"C major +0: C Fm6/Ab; Db major +1: Db Gbm6/Bbb; Bb minor +1: Bbm Gb"},
		{"two lifts add up", "a lift is on top of the lifts before",
			`play "verse" { lift = 1 }` + "\n" + `play "verse" { lift = 1 }`,
			"Db major +1: Db Gbm6/Bbb; D major +2: D Gm6/Bb"},
		{"down", "negative is down",
			`play "verse" { lift = -2 }`,
			"Bb major -2: Bb Ebm6/Gb"},
		{"a play's key", "the section goes there, and what follows by the same distance",
			`play "verse" { key = "D" }` + "\n" + `play "bridge" {}` + "\n" + `play "verse" {}`,
			"D major +2: D Gm6/Bb; B minor +2: Bm G; D major +2: D Gm6/Bb"},
		{"key after a lift", "a key says where, not how far",
			`play "verse" { lift = 3 }` + "\n" + `play "verse" { key = "D" }`,
			"Eb major +3: Eb Abm6/Cb; D major +2: D Gm6/Bb"},
		{"lift after a key", "on top of it",
			`play "verse" { key = "F#" }` + "\n" + `play "verse" {}` + "\n" + `play "verse" { lift = 1 }`,
			"F# major +6: F# Bm6/D; F# major +6: F# Bm6/D; G major +7: G Cm6/Eb"},
	} {
		t.Run(row.name, func(t *testing.T) {
			tl, diags := build(verseChorus + "form {\n" + row.form + "\n}\n")
			if tl == nil {
				t.Fatal(diags)
			}
			// The flat ninth of a half-step lift may be spelled Bbb or A: harmony decides.
			got := strings.ReplaceAll(passes(tl, sounding), "Gbm6/A;", "Gbm6/Bbb;")
			if got != row.want {
				t.Errorf("%s:\n got %s\nwant %s", row.reason, got, row.want)
			}
		})
	}
}

func TestInnerWins(t *testing.T) {
	const song = `
tempo  = 70
energy = 2
meter  = "4/4"
feel   = "ballad-eighths"
section "a" {
  chords = "| C | F |"
}
section "b" {
  like   = "a"
  tempo  = 80
  energy = [2, 4]
  tacet  = ["drums"]
  fills  = false
  lead   = false
}
section "c" {
  like  = "b"
  feel  = "swing"
  meter = "4/4"
}
form {
  play "a" {}
  play "b" {}
  play "c" {}
  play "c" {
    tempo  = 90
    energy = 5
    tacet  = []
    fills  = true
    lead   = true
    feel   = "sustain"
  }
  play "a" {}
}
`
	got := passes(good(t, song), func(p *timeline.Pass) string {
		return fmt.Sprintf("%s%d %s e%d-%d %s tacet%d fills=%v lead=%v", p.Section, p.Ordinal, p.BPM, p.EnergyFrom,
			p.EnergyTo, p.Feel, p.Tacet, p.Fills, p.Lead)
	})
	want := "a0 70 e2-2 ballad-eighths tacet0 fills=true lead=true; " +
		"b0 80 e2-4 ballad-eighths tacet1 fills=false lead=false; " +
		"c0 80 e2-4 swing tacet1 fills=false lead=false; " +
		"c1 90 e5-5 sustain tacet0 fills=true lead=true; " +
		"a1 70 e2-2 ballad-eighths tacet0 fills=true lead=true"
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// Whether the band leads to what follows may be said once for the song, and otherwise in a
// section or a play.
func TestLeadAtTheTop(t *testing.T) {
	const song = `
lead = false
section "a" {
  chords = "| C | F |"
}
section "b" {
  lead   = true
  chords = "| C | F |"
}
form {
  play "a" {}
  play "b" {}
  play "b" { lead = false }
}
`
	got := passes(good(t, song), func(p *timeline.Pass) string { return fmt.Sprint(p.Lead) })
	if want := "false; true; false"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestDefaults(t *testing.T) {
	tl := good(t, one("| C |"))
	p := tl.Passes[0]
	// The table of song-file defaults.
	got := fmt.Sprintf("%s %s %s %s %s %s %d %d %d %d %d %d %q", tl.Title, tl.File, p.Key, p.Meter, p.BPM, p.Feel,
		p.EnergyFrom,
		tl.Looseness, tl.Take, tl.CountIn, tl.Pickup, tl.Lead, tl.Drums.Kit)
	if want := `t t C major 4/4 96 ballad-eighths 2 400 1 0 0 0 ""`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if tl.Bass.Program != 33 || tl.Bass.Sound != "" || tl.Bass.Strings != 4 || tl.Piano.Program != 0 ||
		tl.Piano.Span != 14 || tl.Piano.Highest != 0 {
		t.Errorf("players: %+v %+v", tl.Bass, tl.Piano)
	}
}

func TestTop(t *testing.T) {
	tl := good(t, `
title     = "Lanterns ${on} %{the} \"Weir\""
by        = "A. Writer"
looseness = 0.25
take      = 7
count_in  = 2
pickup    = 1.5
grooves   = ["grooves/a.hcl", "./b.hcl"]
drums {
  kit = "brushes"
}
bass {
  sound   = "acoustic"
  strings = 5
}
piano {
  sound   = "electric"
  highest = "Bb4"
  span    = 12
}
vocal "guide/voice.mid" {
  track = "Lead"
  from  = 2
  range = ["A3", "D5"]
}
section "a" {
  chords = "| C | F |"
}
`)
	if tl.Title != `Lanterns ${on} %{the} "Weir"` || tl.By != "A. Writer" || tl.Looseness != 250 || tl.Take != 7 {
		t.Errorf("got %q %q %d %d", tl.Title, tl.By, tl.Looseness, tl.Take)
	}
	// General MIDI: program 33 (32 on the wire) is the acoustic bass, 5 (4) an electric piano.
	if tl.Drums.Kit != "brushes" || tl.Bass.Program != 32 || tl.Bass.Strings != 5 || tl.Piano.Program != 4 ||
		tl.Piano.Highest != 70 || tl.Piano.Span != 12 {
		t.Errorf("got %+v %+v %+v", tl.Drums, tl.Bass, tl.Piano)
	}
	v := &tl.Vocals[0]
	if v.Path != "guide/voice.mid" || v.Track != "Lead" || v.From != 2 || v.RangeLow != 57 || v.RangeHigh != 74 ||
		v.Line != 21 {
		t.Errorf("vocal %+v", v)
	}
	// Two bars of click, and one more because a pickup takes a whole bar.
	if tl.LeadBars != 3 || tl.Lead != 3*3840 || tl.Pickup != 1440 || tl.Passes[0].Start != tl.Lead ||
		tl.End != tl.Lead+2*3840 {
		t.Errorf("lead %d %d %d", tl.LeadBars, tl.Lead, tl.Pickup)
	}
	f, _ := Parse("x", []byte("grooves = [\"grooves/a.hcl\", \"./b.hcl\"]\nvocal \"v.mid\" {}\n"+one("| C |")))
	refs := f.GrooveFiles()
	if len(refs) != 2 || refs[0].Path != "grooves/a.hcl" || refs[1].Path != "b.hcl" ||
		refs[1].Range.Start.Column != 29 || f.VocalFiles()[0].Path != "v.mid" {
		t.Errorf("refs %+v", refs)
	}
}

func TestNeighbours(t *testing.T) {
	tl := good(t, `
section "a" {
  energy = [1, 3]
  chords = "| C | F |"
}
section "b" {
  energy = 4
  chords = "| G |"
}
form {
  play "a" {}
  play "b" {}
  play "a" {}
}
`)
	got := passes(tl, func(p *timeline.Pass) string {
		s := fmt.Sprintf("%d %s%d bar %d at %d:", p.Index, p.Section, p.Ordinal, p.FirstBar, p.Start)
		if p.Before != nil {
			s += fmt.Sprintf(" before %s%d %s e%d", p.Before.Section, p.Before.Ordinal, p.Before.Chord, p.Before.Energy)
		}
		if p.After != nil {
			s += fmt.Sprintf(" after %s%d %s e%d", p.After.Section, p.After.Ordinal, p.After.Chord, p.After.Energy)
		}
		return s
	})
	want := "0 a0 bar 1 at 0: after b0 G e4; 1 b0 bar 3 at 7680: before a0 F e3 after a1 C e1; 2 a1 bar 4 at 11520: " +
		"before b0 G e4"
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// Everybody keeps out by one word.
func TestTacetOfAll(t *testing.T) {
	tl := good(t, `
section "a" {
  chords = "| C |"
  tacet  = ["all"]
}
`)
	if got := tl.Passes[0].Tacet; got != timeline.All {
		t.Errorf("%v keep out", got.Names())
	}
}

// A plus in front of a number is taken as it is printed: lift = +1.
func TestPlus(t *testing.T) {
	tl := good(t, "key = \"C\"\ntranspose = +2\n"+one("| C |")+"form {\n  play \"a\" { lift = +1 }\n}\n")
	if p := &tl.Passes[0]; tl.Transpose != 2 || p.Lift != 1 || p.Chords[0].Chord.String() != "Eb" {
		t.Errorf("transposed by %d, lifted by %d: %s", tl.Transpose, p.Lift, p.Chords[0].Chord)
	}
}
