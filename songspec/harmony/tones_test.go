package harmony

import (
	"slices"
	"strings"
	"testing"
)

// Common practice, no single source.
func TestDropOrder(t *testing.T) {
	for _, r := range []struct{ name, chord, drop, keep string }{
		{"triad", "C", "C G", "E"},
		{"minor triad", "Am", "A E", "C"},
		{"seventh", "G7", "G D", "B F"},
		{"altered fifth stays", "Cm7b5", "C", "Eb Gb Bb"},
		{"altered ninth stays", "G7b9", "G D", "B F Ab"},
		{"both altered", "G7alt", "G", "B D# F A#"},
		{"thirteenth goes last", "G13", "G D A E", "B F"},
		{"suspension stays", "G7sus4", "G D", "C F"},
		{"suspended second stays", "Gsus2", "G D", "A"},
		{"added second goes", "Gadd2", "G D A", "B"},
		{"sixth stays", "C6", "C G", "E A"},
		{"six nine", "C6/9", "C G D", "E A"},
		{"power chord", "C5", "C G", ""},
		{"diminished", "Bdim7", "B", "D F Ab"},
		{"augmented", "Caug", "C", "E G#"},
		{"minor eleventh", "Cm11", "C G D F", "Eb Bb"},
		{"no chord", "N.C.", "", ""},
	} {
		t.Run(r.name, func(t *testing.T) {
			c := mustChord(t, r.chord)
			var drop, keep []string
			for _, tone := range c.DropOrder() {
				drop = append(drop, c.Spell(tone).String())
			}
			for _, tone := range c.Tones() {
				if c.Essential(tone) {
					keep = append(keep, c.Spell(tone).String())
				}
			}
			if strings.Join(drop, " ") != r.drop || strings.Join(keep, " ") != r.keep {
				t.Errorf("%s drops %v, keeps %v; want %s and %s", r.chord, drop, keep, r.drop, r.keep)
			}
		})
	}
}

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

// Whatever is common is well formed: one root first, ascending degrees, no
// pitch class twice, and every tone either essential or dropped.
func TestTonesWellFormed(t *testing.T) {
	for _, s := range commonSpellings {
		wellFormed(t, mustChord(t, "C"+s))
	}
}

func wellFormed(t *testing.T, c Chord) {
	t.Helper()
	tones := c.Tones()
	if c.None {
		if tones != nil || c.PCs() != nil || c.ToneCount() != 0 || c.PCSet() != 0 {
			t.Errorf("N.C. has tones")
		}
		return
	}
	if len(tones) < 2 || len(tones) > MaxTones || tones[0] != (Tone{Degree: 1}) || c.ToneCount() != len(tones) {
		t.Fatalf("%s: tones %v", c, tones)
	}
	seen := map[int8]bool{}
	essential := 0
	for i, tone := range tones {
		if tone != c.Tone(i) || seen[tone.Semitones] || tone.Semitones < 0 || tone.Semitones > 11 || tone.Degree < 1 || tone.Degree > 13 || tone.Alter < -2 || tone.Alter > 1 {
			t.Errorf("%s: tone %+v", c, tone)
		}
		if int(tone.Semitones) != mod12(degreeSemitones(int(tone.Degree))+int(tone.Alter)) {
			t.Errorf("%s: tone %+v does not add up", c, tone)
		}
		if i > 0 && tone.Degree < tones[i-1].Degree {
			t.Errorf("%s: degrees out of order: %v", c, tones)
		}
		if c.PCSet()&(1<<c.PCs()[i]) == 0 {
			t.Errorf("%s: %d is not in the set", c, c.PCs()[i])
		}
		if c.Essential(tone) {
			essential++
		} else if !slices.Contains(c.DropOrder(), tone) {
			t.Errorf("%s: %+v is neither essential nor dropped", c, tone)
		}
		seen[tone.Semitones] = true
	}
	if essential+len(c.DropOrder()) != len(tones) {
		t.Errorf("%s: %d essential, %d dropped of %d", c, essential, len(c.DropOrder()), len(tones))
	}
}
