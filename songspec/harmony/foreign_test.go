package harmony

import (
	"errors"
	"strings"
	"testing"
)

// TestForeignChords: symbols in other tongues, and what is suggested for them. The German
// names are those of any German primer (H is B, B is Bb, -is raises, -es lowers, As, Es);
// the Romance ones are solfège with a fixed do. Common practice of those countries, no
// single source.
func TestForeignChords(t *testing.T) {
	for _, c := range []struct {
		text, suggest string
		at, len       int
		says          string
	}{
		{"H", "B", 0, 1, "B is Bb"},
		{"Hm7b5/F", "Bm7b5/F", 0, 1, "B is Bb"},
		{"h", "Bm", 0, 1, "B is Bb"}, // small letters are minor where H is a note
		{"hm7", "Bm7", 0, 1, ""},
		{"Es", "Eb", 0, 2, "The German Es is Eb here"},
		{"Es7", "Eb7", 0, 2, ""}, // not E7
		{"Esm", "Ebm", 0, 2, ""},
		{"Asmaj7", "Abmaj7", 0, 2, ""},
		{"Fis", "F#", 0, 3, ""},
		{"Fism7b5", "F#m7b5", 0, 3, ""},
		{"Cis7", "C#7", 0, 3, ""},
		{"Des", "Db", 0, 3, ""},
		{"Ces", "Cb", 0, 3, ""},
		{"Gisdim7", "G#dim7", 0, 3, ""},
		{"Fisis", "F##", 0, 5, ""},
		{"Bes7", "Bb7", 0, 3, ""}, // Dutch
		{"Aes", "Ab", 0, 3, ""},   // Dutch
		{"cis", "C#m", 0, 3, ""},
		{"fism", "F#m", 0, 3, ""},
		{"C/Es", "C/Eb", 2, 2, ""},
		{"D/Fis", "D/F#", 2, 3, ""},
		{"G/H", "G/B", 2, 1, ""},
		{"Es/B", "Eb/Bb", 0, 2, ""}, // beside Es, B is the German one
		{"B/Es", "Bb/Eb", 2, 2, ""},
		{"Gm/B", "", 0, 0, ""}, // good English: nobody can know
		{"Esx", "", 0, 2, "is Eb"},
		{"Re", "D", 0, 2, "Do, re, mi"},
		{"Ré", "D", 0, 3, "Do, re, mi"},
		{"Dom7", "Cm7", 0, 2, "Do, re, mi"}, // not Dm7
		{"Fa#m", "F#m", 0, 3, ""},
		{"Sib", "Bb", 0, 3, ""},
		{"Labmaj7", "Abmaj7", 0, 3, ""},
		{"Sol7", "G7", 0, 3, ""},
		{"F/La", "F/A", 2, 2, ""},
		{"am", "Am", 0, 1, "capital letter"},
		{"c#m", "C#m", 0, 1, "capital letter"},
		{"bb", "Bb", 0, 1, "Bbm"},
		{"a7", "A7", 0, 1, "an m makes it minor: Am"},
		{"d/f#", "D/F#", 0, 1, ""},
		{"C/bb", "C/Bb", 2, 2, ""},
		{"Cmoll", "Cm", 1, 4, "small m"},
		{"A minor", "Am", 1, 6, "small m"},
		{"Bflat7", "Bb7", 0, 5, ""},
		{"F sharp", "F#", 0, 7, ""},
	} {
		_, err := ParseChord(c.text)
		var e *SymbolError
		if !errors.As(err, &e) {
			if c.len > 0 {
				t.Errorf("%s is read", c.text)
			}
			continue
		}
		if e.Suggest != c.suggest || e.Offset != c.at || e.Length != c.len || !strings.Contains(e.Reason, c.says) {
			t.Errorf("%s: %q at %d, %d: %q; want %q at %d, %d", c.text, e.Suggest, e.Offset, e.Length, e.Reason,
				c.suggest, c.at, c.len)
		}
	}
	// English symbols that begin like German names.
	for _, s := range []string{"Asus4", "Esus", "Asus2", "Esus4/B", "Adim", "Edim7", "Do", "Ebm", "Fadd9", "Faug",
		"Dmi7"} {
		if _, err := ParseChord(s); err != nil {
			t.Errorf("%s: %v", s, err)
		}
	}
}

// TestForeignKeys: keys in other tongues, and what is suggested for them.
func TestForeignKeys(t *testing.T) {
	for in, want := range map[string]string{
		"Es-Dur": "Eb major", "es-moll": "Eb minor", "H-Dur": "B major", "h-moll": "B minor", "B-Dur": "Bb major",
		"b-moll": "Bb minor", "Fis-Dur": "F# major", "fis-moll": "F# minor", "As": "Ab major", "as": "Ab minor",
		"C-Dur": "C major", "c-moll": "C minor", "a moll": "A minor", "Gis-Moll": "G# minor", "Cis": "C# major",
		"H": "B major", "Hm": "B minor", "Ais-Dur": "Bb major", "Bes majeur": "Bb major", "Do": "C major",
		"do maggiore": "C major", "Re min": "D minor", "ré mineur": "D minor", "Mib majeur": "Eb major",
		"Sol mayor": "G major", "la menor": "A minor", "Si b": "Bb major", "Fa# minore": "F# minor",
		"B flat": "Bb major", "E-flat major": "Eb major", "F sharp minor": "F# minor", "c minor": "C minor",
		"c#m": "C# minor", "am": "A minor",
	} {
		_, err := ParseKey(in)
		var e *SymbolError
		if !errors.As(err, &e) || e.Suggest != want {
			t.Errorf("%q: %v, want %q", in, err, want)
		}
	}
}

func TestTongues(t *testing.T) {
	for in, want := range map[string]Tongue{
		"Es7": German, "G/H": German, "Fism": German, "Rem7": Solfege, "F/La": Solfege, "Do/La": Solfege,
		"bm": letter, "xyz": letter, "C/x": letter, "A minor": letter, "": letter, "Rest": letter,
	} {
		_, err := ParseChord(in)
		var e *SymbolError
		if !errors.As(err, &e) || e.Tongue != want {
			t.Errorf("%q: %+v, want %d", in, e, want)
		}
	}
}

func TestEnglish(t *testing.T) {
	for in, want := range map[string]string{"As": "Ab", "es": "Eb", "H": "B", "Sib": "Bb", "c": "C", "f#": "F#",
		"": "", "x": "", "Es7": "", "é": ""} {
		if got := English(in); got != want {
			t.Errorf("%q is %q, want %q", in, got, want)
		}
	}
}
