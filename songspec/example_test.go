package songspec

import (
	"os"
	"path/filepath"
	"testing"
)

// ballad shows the whole language in one song: what the reference opens with.
const ballad = `
title = "Lanterns on the Weir"
key   = "Eb major"
meter = "4/4"
tempo = 72
feel  = "ballad-eighths"

section "verse" {
  energy = 2
  chords = <<-EOT
    | Eb     | Bb/D         | Cm7  | Ab / Abm6 / |
    | Eb/Bb  | Bb7sus4 Bb7  | Eb   | %           |
  EOT
  space "4: 3" { beats = 2 }
}

section "chorus" {
  energy = 4
  chords = <<-EOT
    |: Ab  | Bb/Ab | Gm7  | Cm7 :|
    |  Cb  | Db    | Eb   | Bb7 |
  EOT
  push "4, 8: 4&" {}
  fill "12: 3" {}
}

section "bridge" {
  feel   = "tight-sixteenths"
  energy = 3
  chords = "| vi7 | IVmaj7 | bVI | bVII | iv6 | I/5 | V7sus4 | V7 |"
  accent "2 4" { by = ["drums", "piano"] }
  accent "7: 1 2& 4" {}
  stop   "8: 3" {}
  rit    "7-8" { to = 64 }
}

form {
  play "verse" { tacet = ["drums"] }
  play "chorus" {}
  play "verse" {}
  play "chorus" {}
  play "bridge" {}
  play "chorus" {
    lift   = 1
    energy = 5
    tempo  = 74
  }
}
`

func TestBallad(t *testing.T) {
	tl := good(t, ballad)
	checkWhole(t, tl)
	if n := tl.SongBars(); n != 8+12+8+12+8+12 {
		t.Errorf("%d bars", n)
	}
	// Common practice, no single source: a half step over Eb is E, its IV is A, and
	// Cb and Db, bVI and bVII there, become C and D.
	last := &tl.Passes[5]
	if got, want := lengths(last), "A 8, B/A 8, G#m7 8, C#m7 8, A 8, B/A 8, G#m7 8, C#m7 8, C 8, D 8, E 8, B7 8"; got != want || last.Key.String() != "E major" || last.BPM != 74 {
		t.Errorf("last chorus in %s at %d:\n got %s\nwant %s", last.Key, last.BPM, got, want)
	}
	// vi7, IVmaj7, bVI, bVII, iv6, I over its fifth, V7sus4 and V7 of Eb.
	if got, want := lengths(&tl.Passes[4]), "Cm7 8, Abmaj7 8, Cb 8, Db 8, Abm6 8, Eb/Bb 8, Bb7sus4 8, Bb7 8"; got != want {
		t.Errorf("bridge:\n got %s\nwant %s", got, want)
	}
}

func TestExamplesResolve(t *testing.T) {
	files, err := filepath.Glob("../examples/*.song.hcl")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		f, diags := Parse(file, src)
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		tl, diags := f.Resolve(Env{}) // any feel: some are the songs' own
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		checkWhole(t, tl)
	}
}
