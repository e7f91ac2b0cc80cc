package harmony

import (
	"errors"
	"strings"
	"testing"
)

func TestName(t *testing.T) {
	for _, r := range []struct {
		name, in, want string
		pc, midi4      int
	}{
		{"plain", "C", "C", 0, 60},
		{"flat", "Eb", "Eb", 3, 63},
		{"unicode flat", "E♭", "Eb", 3, 63},
		{"sharp", "F♯", "F#", 6, 66},
		{"double flat", "Bbb", "Bbb", 9, 69},
		{"double sharp sign", "F𝄪", "F##", 7, 67},
		{"below its own octave", "Cb", "Cb", 11, 59},
		{"above its own octave", "B#", "B#", 0, 72},
	} {
		t.Run(r.name, func(t *testing.T) {
			n := mustName(t, r.in)
			if n.String() != r.want || n.PC() != r.pc || n.MIDI(4) != r.midi4 {
				t.Errorf("%s: %s, pc %d, MIDI %d", r.in, n, n.PC(), n.MIDI(4))
			}
		})
	}
	for _, bad := range []string{"", "H", "c", "C#b", "Cbbb", "C major", "Ebm"} {
		var e *SymbolError
		if n, err := ParseName(bad); !errors.As(err, &e) {
			t.Errorf("%q is read as %s", bad, n)
		}
	}
}

// Every interval up and then its inversion lead back to the same note.
func TestIntervals(t *testing.T) {
	for step := int8(0); step < 7; step++ {
		for alter := int8(-1); alter <= 1; alter++ {
			n := Name{step, alter}
			for other := int8(0); other < 7; other++ {
				m := Name{other, 0}
				steps, semis := n.Interval(m)
				up, ok := n.Up(steps, semis)
				if !ok || up != m {
					t.Errorf("%s up %d letters and %d semitones is %s, want %s", n, steps, semis, up, m)
				}
				if back, ok := up.Up(-steps, -semis); !ok || back != n {
					t.Errorf("%s down %d letters and %d semitones is %s, want %s", up, steps, semis, back, n)
				}
			}
		}
	}
}

// Source: smf_key_signature_bytes.csv (Standard MIDI Files 1.0): all 30 keys.
func TestSignatures(t *testing.T) {
	seen := map[Key]bool{}
	for _, r := range table(t, "smf_key_signature_bytes.csv", 30) {
		k, fifths := mustKey(t, r["key"]), ints(t, r["sf"])[0]
		if k.Minor != (r["mi"] == "1") {
			t.Errorf("%s: minor %v", r["key"], k.Minor)
		}
		if k.Fifths() != fifths {
			t.Errorf("%s: %d fifths, want %d", k, k.Fifths(), fifths)
		}
		if keyOf(fifths, k.Minor) != k || seen[k] {
			t.Errorf("%d fifths is %s, want %s", fifths, keyOf(fifths, k.Minor), k)
		}
		seen[k] = true
		if mustKey(t, k.String()) != k {
			t.Errorf("%s does not read back", k)
		}
		accidentals := 0
		for i, n := range k.Scale() {
			accidentals += int(n.Alter)
			if k.Spell(n.PC()) != n || int(n.Step) != (int(k.Tonic.Step)+i)%7 {
				t.Errorf("%s: the scale has %s, Spell gives %s", k, n, k.Spell(n.PC()))
			}
		}
		// A signature's accidentals are those of its scale.
		if accidentals != fifths {
			t.Errorf("%s: %d accidentals in the scale, want %d", k, accidentals, fifths)
		}
	}
	if len(seen) != 30 {
		t.Errorf("%d keys", len(seen))
	}
}

func TestParseKey(t *testing.T) {
	for _, r := range []struct{ name, in, want string }{
		{"in full", "Eb major", "Eb major"},
		{"minor", "C minor", "C minor"},
		{"short", "Eb", "Eb major"},
		{"short minor", "Cm", "C minor"},
		{"unicode", "E♭ major", "Eb major"},
		{"spaces", "  F#   minor ", "F# minor"},
		{"abbreviated", "Bb min", "Bb minor"},
		{"capital word", "D Major", "D major"},
	} {
		t.Run(r.name, func(t *testing.T) {
			if k := mustKey(t, r.in); k.String() != r.want {
				t.Errorf("%q is %s", r.in, k)
			}
		})
	}
	for _, r := range []struct {
		name, in, suggest string
		at, len           int
	}{
		{"eight sharps", "G# major", "Ab major", 0, 8},
		{"eight flats", "Fb", "E major", 0, 2},
		{"minor with eight flats", "Db minor", "C# minor", 0, 8},
		{"minor with eight sharps", "E#m", "F minor", 0, 3},
		{"double sharp", "F## major", "G major", 0, 9},
		{"small letter", "eb major", "Eb major", 0, 8},
		{"misspelt mode", "C majro", "C major", 2, 5},
		{"a mode without a signature of its own", "D dorian", "D minor", 2, 6},
		{"a mode with a major third", "G Mixolydian", "G major", 2, 10},
		{"a small letter alone", "c", "", 0, 1}, // C or Cm: both are offered in words
		{"no letter", "major", "", 0, 5},
		{"empty", "", "", 0, 0},
		{"too long", "C" + strings.Repeat(" x", MaxSymbol), "", 0, 2*MaxSymbol + 1},
	} {
		t.Run(r.name, func(t *testing.T) {
			k, err := ParseKey(r.in)
			var e *SymbolError
			if !errors.As(err, &e) {
				t.Fatalf("%q is read as %s", r.in, k)
			}
			if e.Suggest != r.suggest || e.Offset != r.at || e.Length != r.len {
				t.Errorf("%q: %+v", r.in, *e)
			}
		})
	}
}

// Common practice, no single source: the names of keys with six accidentals.
func TestKeyTranspose(t *testing.T) {
	for _, r := range []struct {
		name, from string
		by         int
		want       string
	}{
		{"half step lift", "Eb major", 1, "E major"},
		{"whole step lift", "C major", 2, "D major"},
		{"a flat key at the tie", "F major", 1, "Gb major"},
		{"C at the tie", "C major", 6, "Gb major"},
		{"a sharp key at the tie", "E major", 2, "F# major"},
		{"down to the tie", "G major", -1, "F# major"},
		{"five flats, not seven sharps", "C major", 1, "Db major"},
		{"five sharps, not seven flats", "Bb major", 1, "B major"},
		{"out of six sharps", "F# major", 1, "G major"},
		{"out of seven flats", "Cb major", 1, "C major"},
		{"minor by its own signature", "C minor", 1, "C# minor"},
		{"minor at the tie", "D minor", 1, "Eb minor"},
		{"sharp minor at the tie", "C# minor", 2, "Eb minor"},
		{"minor over the tie", "G minor", 1, "G# minor"},
		{"nowhere", "Cb major", 0, "Cb major"},
		{"an octave", "C# major", 12, "C# major"},
		{"down an octave and a step", "D major", -14, "C major"},
	} {
		t.Run(r.name, func(t *testing.T) {
			if got := mustKey(t, r.from).Transpose(r.by).String(); got != r.want {
				t.Errorf("%s by %d is %s, want %s", r.from, r.by, got, r.want)
			}
		})
	}
}

// Common practice, no single source: the usual chromatic degrees.
func TestSpell(t *testing.T) {
	for _, r := range []struct{ name, key, want string }{
		{"C major", "C major", "C Db D Eb E F F# G Ab A Bb B"},
		{"Eb major", "Eb major", "C Db D Eb Fb F Gb G Ab A Bb Cb"},
		{"E major", "E major", "C C# D D# E F F# G G# A A# B"},
		{"F# major", "F# major", "B# C# D D# E E# F# G G# A A# B"},
		{"Gb major, no double flats", "Gb major", "C Db D Eb Fb F Gb G Ab A Bb Cb"},
		{"A minor", "A minor", "C C# D D# E F F# G G# A Bb B"},
		{"G# minor, no double sharps", "G# minor", "B# C# D D# E E# F# G G# A A# B"},
	} {
		t.Run(r.name, func(t *testing.T) {
			k := mustKey(t, r.key)
			var got []string
			for pc := 0; pc < 12; pc++ {
				n := k.Spell(pc)
				if n.PC() != pc {
					t.Errorf("%s spells %d as %s", k, pc, n)
				}
				got = append(got, n.String())
			}
			if s := strings.Join(got, " "); s != r.want {
				t.Errorf("%s: %s, want %s", k, s, r.want)
			}
		})
	}
}
