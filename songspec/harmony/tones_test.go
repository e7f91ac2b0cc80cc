package harmony

import (
	"strings"
	"testing"
)

// Tones are spelled by their degree's letter.
func TestSpellTones(t *testing.T) {
	for _, r := range []struct{ name, chord, want string }{
		{"minor third of a flat root", "Abm", "Ab Cb Eb"},
		{"major third of a sharp root", "G#7", "G# B# D# F#"},
		{"diminished seventh", "C#dim7", "C# E G Bb"},
		{"double flat seventh", "Cdim7", "C Eb Gb Bbb"},
		{"sharp ninth", "E7#9", "E G# B D F##"},
		{"flat thirteenth", "G7b13", "G B F Eb"},
		{"eleventh without its third", "C11", "C G Bb D F"},
	} {
		t.Run(r.name, func(t *testing.T) {
			c := mustChord(t, r.chord)
			var got []string
			for _, tone := range c.Tones() {
				got = append(got, c.Spell(tone).String())
			}
			if strings.Join(got, " ") != r.want {
				t.Errorf("%s: %v, want %s", r.chord, got, r.want)
			}
		})
	}
}

// The tones of common chords are well formed: the root first, ascending degrees, no pitch
// class twice.
func TestTonesWellFormed(t *testing.T) {
	for _, s := range commonSpellings {
		wellFormed(t, mustChord(t, "C"+s))
	}
}

func wellFormed(t *testing.T, c Chord) {
	t.Helper()
	tones := c.Tones()
	if c.None {
		if tones != nil || c.ToneCount() != 0 || c.PCSet() != 0 {
			t.Errorf("N.C. has tones")
		}
		return
	}
	if len(tones) < 2 || len(tones) > MaxTones || tones[0] != (Tone{Degree: 1}) || c.ToneCount() != len(tones) {
		t.Fatalf("%s: tones %v", c, tones)
	}
	seen := map[int8]bool{}
	for i, tone := range tones {
		if tone != c.Tone(i) || seen[tone.Semitones] || tone.Semitones < 0 || tone.Semitones > 11 ||
			tone.Degree < 1 || tone.Degree > 13 || tone.Alter < -2 || tone.Alter > 1 {
			t.Errorf("%s: tone %+v", c, tone)
		}
		if int(tone.Semitones) != mod12(degreeSemitones(int(tone.Degree))+int(tone.Alter)) {
			t.Errorf("%s: tone %+v does not add up", c, tone)
		}
		if i > 0 && tone.Degree < tones[i-1].Degree {
			t.Errorf("%s: degrees out of order: %v", c, tones)
		}
		if pc := mod12(c.Root.PC() + int(tone.Semitones)); c.PCSet()&(1<<pc) == 0 {
			t.Errorf("%s: %d is not in the set", c, pc)
		}
		seen[tone.Semitones] = true
	}
}
