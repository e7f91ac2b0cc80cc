package harmony

import (
	"slices"
	"testing"
)

// Common practice, no single source: a lift spells for the new key.
func TestTranspose(t *testing.T) {
	for _, r := range []struct{ name, in, from, to, want string }{
		{"tonic", "Eb", "Eb major", "E major", "E"},
		{"subdominant", "Ab", "Eb major", "E major", "A"},
		{"borrowed six", "Cb", "Eb major", "E major", "C"},
		{"borrowed seven", "Db", "Eb major", "E major", "D"},
		{"borrowed six, up into flats", "Eb", "G major", "Ab major", "Fb"},
		{"bass in the chord", "Bb/D", "Eb major", "E major", "B/D#"},
		{"bass out of the chord", "Bb/Ab", "Eb major", "E major", "B/A"},
		{"seventh in the bass", "Bb7/Ab", "Eb major", "E major", "B7/A"},
		{"leading tone chord", "F#dim7", "C major", "Db major", "Gdim7"},
		{"leading tone chord, sharps", "F#dim7", "C major", "D major", "G#dim7"},
		{"applied dominant's third in the bass", "D7/F#", "C major", "Db major", "Eb7/G"},
		{"no B#", "G#dim7", "C major", "E major", "Cdim7"},
		{"B# where the chord has it", "E7/G#", "C major", "E major", "G#7/B#"},
		{"E# where the key has it", "Dm7", "Eb major", "F# major", "E#m7"},
		{"Cb where the key has it", "F", "C major", "Gb major", "Cb"},
		{"no double flat", "Ab", "C major", "Gb major", "D"},
		{"no double sharp", "G#7", "C major", "B major", "G7"},
		{"down", "Cm7", "C minor", "B minor", "Bm7"},
		{"across the tie", "Bb7", "F major", "Gb major", "Cb7"},
		{"same key", "G#m7b5", "Eb major", "Eb major", "G#m7b5"},
		{"no chord", "N.C.", "C major", "E major", "N.C."},
	} {
		t.Run(r.name, func(t *testing.T) {
			got := mustChord(t, r.in).Transpose(mustKey(t, r.from), mustKey(t, r.to))
			if got.String() != r.want {
				t.Errorf("%s from %s to %s is %s, want %s", r.in, r.from, r.to, got, r.want)
			}
		})
	}
}

// Every root in every key, lifted by every number of semitones: the pitch moves by the lift,
// the quality stays, and no name is awkward unless the new key has it.
func TestTransposeEverywhere(t *testing.T) {
	checked := 0
	for fifths := -7; fifths <= 7; fifths++ {
		for _, minor := range []bool{false, true} {
			from := keyOf(fifths, minor)
			for lift := -11; lift <= 11; lift++ {
				to := from.Transpose(lift)
				if to.Tonic.PC() != mod12(from.Tonic.PC()+lift) || to.Minor != minor ||
					lift != 0 && abs(to.Fifths()) > 6 {
					t.Fatalf("%s by %d is %s", from, lift, to)
				}
				for pc := 0; pc < 12; pc++ {
					root := from.Spell(pc)
					c, _ := lookSuffix("m7b5")
					c.Root, c.Bass = root, root
					got := c.Transpose(from, to)
					if got.Root.PC() != mod12(pc+lift) || got.Bass != got.Root || got.Suffix != c.Suffix ||
						!slices.Equal(got.Tones(), c.Tones()) {
						t.Errorf("%s from %s to %s is %s", c, from, to, got)
					}
					if lift != 0 && got.Root.awkward() && !to.calls(got.Root) {
						t.Errorf("%s from %s to %s is %s", c, from, to, got)
					}
					// Back again it is the same pitch.
					if back := got.Transpose(to, from); back.Root.PC() != pc {
						t.Errorf("%s to %s and back is %s", c, to, back)
					}
					checked++
				}
			}
		}
	}
	if checked != 15*2*23*12 {
		t.Errorf("%d lifts checked", checked)
	}
}

func abs(n int) int { return max(n, -n) }

// A numeral in the new key is the same chord as its letter symbol lifted into that key. The
// numerals are those of roman_numerals_music21.csv.
func TestLiftAgreesWithNumerals(t *testing.T) {
	spelledAlike, checked := 0, 0
	for _, r := range table(t, "roman_numerals_music21.csv", 1060) {
		from := musicKey(t, r["key"], r["mode"])
		to := from.Transpose(1)
		c, err := ParseNumeral(r["figure"], from)
		if err != nil {
			t.Fatal(err)
		}
		want, _ := ParseNumeral(r["figure"], to)
		got := c.Transpose(from, to)
		if got.Root.PC() != want.Root.PC() || got.Bass.PC() != want.Bass.PC() || got.Suffix != want.Suffix {
			t.Errorf("%s from %s to %s: lifted %s, resolved %s", r["figure"], from, to, got, want)
		}
		if got == want {
			spelledAlike++
		}
		checked++
	}
	t.Logf("%d of %d spelled alike", spelledAlike, checked)
	if spelledAlike*100 < checked*95 {
		t.Errorf("%d of %d spelled alike", spelledAlike, checked)
	}
}
