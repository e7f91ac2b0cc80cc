package harmony

import (
	"slices"
	"strings"
)

// A numeral is made of accidentals if any, I to VII, a chord suffix as in letter symbols,
// any number of /NUMERAL (the chord that it leads to), and at most one /DEGREE (the bass).
// The conventions are those of pop and jazz charts:
//
//   - Capitals are major, small letters minor: the suffix of ii7 is m7. A 7 is the minor
//     seventh, as in letter symbols, so I7 and bVII7 are dominant sevenths, and the major
//     seventh is Imaj7. iv6 is a minor triad with a sixth and not an inversion.
//   - A b lowers the degree of the major scale in both modes: bVI is a major third below
//     the tonic in C major and in C minor. In minor, III, VI and VII without a sign are
//     those of the natural scale, so VI is bVI; vi and vii are raised, as in the melodic
//     scale; a # raises the degree of the natural scale.
//   - V is major in minor too, as written; v is minor.
//   - After a slash, a numeral is a key, V7/V, a number is the bass, I/5, and a 9, 11 or 13
//     an added tone. The bass is
//     the chord's own tone of that degree; if it has none, the key's note there; if the
//     root is outside the scale, the note of the major scale on the root. With an
//     accidental it is measured from the major scale on the root: I/b7.
//   - 64, 65, 43 and 42 are the usual inversions, since no suffix looks like them. Their
//     seventh is the key's own, as in figured bass. 54 is a suspended fourth.
//   - Cad64, N6, It6, Fr43 and Ger65 are chords with a name: see named.
//
// The degrees in minor follow music21's default; the rest is common practice, no single
// source.

// romans are the numerals by degree, upper case.
var romans = [7]string{"I", "II", "III", "IV", "V", "VI", "VII"}

var allRomans = []string{"I", "i", "V", "v", "IV", "iv", "vi", "ii", "VI", "II", "iii", "III", "vii", "VII"}

// roman is one numeral without its suffix.
type roman struct {
	degree int // 0 to 6
	alter  int
	minor  bool // in small letters
}

// scanRoman reads accidentals and a numeral at the start of s. size is 0 when
// there is none; ok is false when the letters are no numeral.
func scanRoman(s string) (r roman, size int, ok bool) {
	r.alter, size = oneOrTwo(s)
	rest := s[size:]
	word := rest[:len(rest)-len(strings.TrimLeft(rest, "IViv"))]
	if word == "" {
		return roman{}, 0, false
	}
	upper := strings.ToUpper(word)
	r.minor = word != upper
	r.degree = slices.Index(romans[:], upper)
	ok = r.degree >= 0 && (word == upper || word == strings.ToLower(word))
	return r, size + len(word), ok
}

// place is a note by its distance above the tonic of the song's key: 0 to 6 letters and 0
// to 11 semitones. A numeral is worked out in places, the same in every key, and spelled
// at the end.
type place struct{ steps, semis int }

func (a place) up(steps, semis int) place {
	return place{(a.steps + steps) % 7, mod12(a.semis + semis)}
}

// from is the way from b up to a.
func (a place) from(b place) (steps, semis int) {
	return (a.steps - b.steps + 7) % 7, mod12(a.semis - b.semis)
}

// tonic is the key that a numeral is in: the song's, or that of the chord it leads to.
type tonic struct {
	at    place
	minor bool
}

func (k tonic) scale() *[7]int { return Key{Minor: k.minor}.scale() }

// root is the numeral's note in a key.
func (r roman) root(k tonic) place {
	semis := majorScale[r.degree] + r.alter
	raised := r.alter == 0 && r.minor && (r.degree == 5 || r.degree == 6)
	if k.minor && r.alter >= 0 && !raised {
		semis = minorScale[r.degree] + r.alter
	}
	return k.at.up(r.degree, semis)
}

// degree is the place of the bass degree d, 1 to 7, under the chord c on root: the chord's
// own tone, or the key's note, or for a root outside the key the major scale's.
func (k tonic) degree(c *Chord, root place, d int) place {
	for _, t := range c.tones[:c.n] {
		if int(t.Degree-1)%7 == d-1 {
			return root.up(d-1, int(t.Semitones))
		}
	}
	steps, semis := root.from(k.at)
	if k.scale()[steps] != semis {
		return root.up(d-1, degreeSemitones(d))
	}
	i := (steps + d - 1) % 7
	return k.at.up(i, k.scale()[i])
}

// ParseNumeral reads a Roman numeral of at most MaxSymbol bytes in a key: "iv6", "bVI",
// "V7/V", "I/5". The error is a *SymbolError.
func ParseNumeral(s string, k Key) (Chord, error) {
	if isNoChord(s) {
		return NoChord(), nil
	}
	if len(s) > MaxSymbol {
		return Chord{}, tooLong(s)
	}
	c, e := readNumeral(s, k)
	if e == nil {
		return c, nil
	}
	if e.Suggest != "" { // it is of no use with a second mistake in it, or too long
		if _, again := readNumeral(e.Suggest, k); again != nil || len(e.Suggest) > MaxSymbol {
			e.Suggest = ""
		}
	}
	return Chord{}, e
}

func readNumeral(s string, k Key) (Chord, *SymbolError) {
	p := numeralParser{s: s, end: len(s), home: k}
	c := p.parse()
	if p.err != nil {
		return Chord{}, p.err
	}
	return c, nil
}

// ParseEither reads a letter symbol or a numeral and says which of the two it was. The
// beginning decides: I, V, i or v, with flats or sharps before it if any, begins a
// numeral, and so does N for the Neapolitan; anything else is taken for a letter symbol.
// The error is a *SymbolError.
func ParseEither(s string, k Key) (c Chord, numeral bool, err error) {
	if IsNumeral(s) {
		c, err = ParseNumeral(s, k)
		return c, true, err
	}
	c, err = ParseChord(s)
	if err != nil && len(s) <= MaxSymbol {
		if e := numbered(s, k); e != nil {
			if up := capital(s); up != "" { // b7 is B7, or the flat seventh degree
				if _, err := parseEnglish(up); err == nil && e.Suggest != "" {
					e.Reason = "A letter is a capital, " + up + ", and a number is a Roman numeral, " + e.Suggest + "."
					e.Suggest = ""
				}
			}
			return Chord{}, false, e
		}
	}
	return c, false, err
}

// IsNumeral reports whether ParseEither takes a symbol for a numeral. Cad64 and Fr43 are
// numerals that begin with the letter of a note.
func IsNumeral(s string) bool { return !isNoChord(s) && looksNumeral(s) }

func looksNumeral(s string) bool {
	head, _, _ := strings.Cut(s, "/")
	if _, ok := named[head]; ok || strings.HasPrefix(s, "N6") {
		return true
	}
	_, signs := accidentals(s)
	return signs < len(s) && strings.IndexByte("IViv", s[signs]) >= 0
}
