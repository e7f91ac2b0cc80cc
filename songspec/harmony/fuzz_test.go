package harmony

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"
)

// seed adds every symbol of the tables; an empty seed set is a failure.
func seed(f *testing.F, add func(string)) {
	n := 0
	for _, s := range sorted(agreedSymbols(f), strings.Compare) {
		add("C" + s)
		n++
	}
	for _, r := range table(f, "slash_chords.csv", 38) {
		add(r["symbol"])
		n++
	}
	for _, r := range table(f, "chord_choices.csv", 40) {
		add("Eb" + r["symbol"])
		n++
	}
	for _, s := range commonSpellings {
		add("F#" + s + "/A#")
		n++
	}
	for _, r := range added {
		add(r.in + "/G")
		n++
	}
	if n < 420 {
		f.Fatalf("%d seeds", n)
	}
}

// checkError fails if an error points outside its text, or suggests what cannot be read.
func checkError(t *testing.T, s string, err error, read func(string) error) {
	t.Helper()
	var e *SymbolError
	if !errors.As(err, &e) {
		t.Fatalf("%q: %v is no SymbolError", s, err)
	}
	if e.Text != s || e.Offset < 0 || e.Length < 0 || e.Offset+e.Length > len(s) || e.Kind == 0 ||
		!strings.HasSuffix(e.Reason, ".") {
		t.Fatalf("%q: %+v", s, *e)
	}
	if utf8.ValidString(s) && !(utf8.ValidString(s[:e.Offset]) && utf8.ValidString(s[:e.Offset+e.Length])) {
		t.Fatalf("%q: bytes %d to %d cut a character", s, e.Offset, e.Offset+e.Length)
	}
	if e.Suggest != "" {
		if err := read(e.Suggest); err != nil {
			t.Fatalf("%q suggests %q, which fails: %v", s, e.Suggest, err)
		}
	}
}

// A chord prints what reads back as the same chord, and a lift keeps its tones.
func checkChord(t *testing.T, s string, c Chord) {
	t.Helper()
	wellFormed(t, c)
	back, err := ParseChord(c.String())
	if err != nil {
		t.Fatalf("%q prints %q: %v", s, c, err)
	}
	if back != c {
		t.Fatalf("%q prints %q, which is %+v, not %+v", s, c, back, c)
	}
	if c.None {
		return
	}
	from, to := Key{Tonic: Name{2, -1}}, Key{Tonic: Name{2, 0}}
	lifted := c.Transpose(from, to)
	if lifted.Root.PC() != mod12(c.Root.PC()+1) || lifted.Bass.PC() != mod12(c.Bass.PC()+1) ||
		lifted.Suffix != c.Suffix {
		t.Fatalf("%s lifted is %s", c, lifted)
	}
	if lifted.Root.Alter < -1 || lifted.Root.Alter > 1 {
		t.Fatalf("%s lifted is %s", c, lifted)
	}
}

func FuzzChord(f *testing.F) {
	seed(f, func(s string) { f.Add(s) })
	f.Fuzz(func(t *testing.T, s string) {
		c, err := ParseChord(s)
		if err != nil {
			checkError(t, s, err, func(s string) error { _, err := ParseChord(s); return err })
			return
		}
		checkChord(t, s, c)
	})
}

func FuzzNumeral(f *testing.F) {
	rows := table(f, "roman_numerals_music21.csv", 1060)
	seen := map[string]bool{}
	for i, r := range rows {
		if !seen[r["figure"]] {
			f.Add(r["figure"], int8(i%15-7), r["mode"] == "minor")
			seen[r["figure"]] = true
		}
	}
	for i, s := range []string{"iv6", "I/5", "I/b7", "I6/9/5", "V7/V/3", "#ivo7", "♭VI", "V7(b9,#11)", "imaj7",
		"IIm7", "vi5", "N", "iim/maj7", "V7/iv/V", "Cad64/V", "Ger65", "It+6/ii", "Fr43", "V54", "vii/o7/V", "V7/b9/3",
		"V43[no3]", "V4/3", "i7M/9", "V6/5"} {
		f.Add(s, int8(i%15-7), i%2 == 0)
	}
	if len(seen) < 60 {
		f.Fatalf("%d seeds", len(seen))
	}
	f.Fuzz(func(t *testing.T, s string, fifths int8, minor bool) {
		k := keyOf(min(max(int(fifths), -7), 7), minor)
		c, err := ParseNumeral(s, k)
		if err != nil {
			checkError(t, s, err, func(s string) error { _, err := ParseNumeral(s, k); return err })
			return
		}
		checkChord(t, s, c)
		if !c.None && (abs(int(c.Root.Alter)) > 1 || abs(int(c.Bass.Alter)) > 1) {
			t.Fatalf("%q in %s is %s", s, k, c)
		}
		// A numeral is the same chord in every key, that many semitones up.
		other, err := ParseNumeral(s, Key{Tonic: Name{0, 0}, Minor: minor})
		if err != nil || other.Suffix != c.Suffix || !c.None && mod12(other.Root.PC()+k.Tonic.PC()) != c.Root.PC() {
			t.Fatalf("%q is %s in %s and %s in C: %v", s, c, k, other, err)
		}
		if !c.None && mod12(other.Bass.PC()+k.Tonic.PC()) != c.Bass.PC() {
			t.Fatalf("%q is %s in %s and %s in C", s, c, k, other)
		}
		if either, numeral, err := ParseEither(s, k); err != nil || either != c || numeral == c.None {
			t.Fatalf("%q alone is %s, among letters %s: numeral %v, %v", s, c, either, numeral, err)
		}
	})
}
