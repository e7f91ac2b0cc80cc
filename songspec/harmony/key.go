package harmony

import (
	"cmp"
	"fmt"
	"strings"

	"plinth/songspec/wording"
)

// fifthsOf is how many fifths the letters C D E F G A B lie above C.
var fifthsOf = [7]int{0, 2, 4, -1, 1, 3, 5}

// Fifths is the key's signature: the number of its sharps, or of its flats as a negative
// number; -7 to 7 for every key that ParseKey returns. A minor key has the signature of
// the major key a minor third up.
func (k Key) Fifths() int {
	f := fifthsOf[k.Tonic.Step] + 7*int(k.Tonic.Alter)
	if k.Minor {
		f -= 3
	}
	return f
}

// keyOf is the key with a signature of -7 to 7.
func keyOf(fifths int, minor bool) Key {
	n := fifths
	if minor {
		n += 3
	}
	// Seven letters on, the same letter comes with one more accidental. F is 0, and Fbb 7*2
	// before it.
	const circle = "FCGDAEB"
	i := n + 1 + 7*2
	return Key{Tonic: Name{Step: int8(stepOf(circle[i%7])), Alter: int8(i/7 - 2)}, Minor: minor}
}

// ParseKey reads "Eb major", "C minor", "Eb", "Cm". A key has a signature of at most seven
// accidentals. The error is a *SymbolError; for a key without a signature ("G# major") it
// suggests the same key by another name ("Ab major").
func ParseKey(s string) (Key, error) {
	k, err := parseKey(s)
	if err == nil {
		return k, nil
	}
	if len(s) <= MaxSymbol {
		err = cmp.Or(foreignKey(s), err)
	}
	return Key{}, err
}

func parseKey(s string) (Key, *SymbolError) {
	text := strings.TrimSpace(s)
	if len(text) > MaxSymbol {
		return Key{}, &SymbolError{Kind: TooLong, Text: s, Length: len(s),
			Reason: fmt.Sprintf("A key is no longer than %d bytes.", MaxSymbol)}
	}
	lead := strings.Index(s, text)
	tonic, size := scanName(text)
	if size == 0 {
		e := &SymbolError{Kind: NoKey, Text: s, Offset: lead, Length: len(text),
			Reason: `A key is a capital letter with b or # if it needs one, then major or minor: "Eb major", ` +
				`"C minor", "Eb", "Cm".`}
		if up := capital(text); up != "" {
			if k, err := parseKey(up); err == nil {
				e.Suggest = k.String()
			}
		}
		return Key{}, e
	}
	k := Key{Tonic: tonic}
	word := strings.TrimSpace(text[size:])
	switch lower := strings.ToLower(word); {
	case word == "" || word == "M" || lower == "major" || lower == "maj":
	case word == "m" || lower == "minor" || lower == "min":
		k.Minor = true
	default:
		e := &SymbolError{Kind: NoKey, Text: s, Length: len(word), Offset: lead + len(text) - len(word),
			Reason: `After the tonic of a key comes major or minor, or m alone: "Eb major", "C minor", "Cm".`}
		if near := wording.Closest(lower, []string{"major", "minor"}, 3); near != "" {
			e.Suggest = Key{Tonic: tonic, Minor: near == "minor"}.String()
		}
		return Key{}, e
	}
	if f := k.Fifths(); f < -7 || f > 7 {
		what, n, plain := "sharps", f, f-12
		if f < 0 {
			what, n, plain = "flats", -f, f+12
		}
		if plain < -7 || plain > 7 { // a double sharp, a double flat
			plain = fewest(k.Tonic.PC(), k.Minor, f)
		}
		return Key{}, &SymbolError{Kind: NoKey, Text: s, Offset: lead, Length: len(text),
			Reason:  fmt.Sprintf("%s would need %d %s, and a signature has at most 7.", k, n, what),
			Suggest: keyOf(plain, k.Minor).String()}
	}
	return k, nil
}

// fewest is the signature with the fewest accidentals for a tonic. Six sharps and six
// flats tie: a key that had sharps before becomes F# major, any other Gb major, which
// singers and horns read more often; the minor key is always Eb minor. Common practice, no
// single source.
func fewest(pc int, minor bool, fifthsBefore int) int {
	n := pc
	if minor {
		n += 3 // the relative major has the signature
	}
	f := mod12(7*n+5) - 5 // -5 to 6: seven semitones are one fifth
	if f == 6 && (minor || fifthsBefore <= 0) {
		f = -6
	}
	return f
}

// String is "Eb major".
func (k Key) String() string {
	mode := " major"
	if k.Minor {
		mode = " minor"
	}
	return k.Tonic.String() + mode
}

// Transpose is the key so many semitones up (down when negative), with the signature that
// has the fewest accidentals. Where six sharps and six flats tie, a sharp key goes to F#
// major, any other major key to Gb major, a minor key to Eb minor. Whole octaves keep the
// spelling. Common practice, no single source.
func (k Key) Transpose(semitones int) Key {
	if mod12(semitones) == 0 {
		return k
	}
	return keyOf(fewest(mod12(k.Tonic.PC()+mod12(semitones)), k.Minor, k.Fifths()), k.Minor)
}

// The semitones of the two scales from their tonic. Minor is the natural scale, which the
// signature shows.
var (
	majorScale = [7]int{0, 2, 4, 5, 7, 9, 11}
	minorScale = [7]int{0, 2, 3, 5, 7, 8, 10}
)

func (k Key) scale() *[7]int {
	if k.Minor {
		return &minorScale
	}
	return &majorScale
}

// Scale is the seven notes of the signature from the tonic up; minor is the
// natural scale.
func (k Key) Scale() [7]Name {
	var out [7]Name
	for i, semi := range k.scale() {
		out[i], _ = k.Tonic.Up(i, semi)
	}
	return out
}

// PCSet is the pitch classes of Scale as bits: bit 0 is C, bit 11 is B.
func (k Key) PCSet() uint16 {
	var set uint16
	for _, semi := range k.scale() {
		set |= 1 << mod12(k.Tonic.PC()+semi)
	}
	return set
}

// LeadingTone is the seventh a semitone under the tonic: in minor it is raised, and no note of Scale.
func (k Key) LeadingTone() Name {
	n, _ := k.Tonic.Up(6, 11)
	return n
}

// degreeSteps are the letters, as steps from the tonic's, of the twelve semitones above
// it. Between the scale's own tones stand the customary alterations: in major bII bIII #IV
// bVI bVII; in minor bII, the raised third, #IV, and the raised sixth and seventh of the
// melodic scale. Common practice, no single source.
var degreeSteps = [12]int{0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6}

// Spell is the name of a pitch class in the key: a tone of the scale by its letter, any
// other as the customary raised or lowered degree. It never has a double accidental.
func (k Key) Spell(pc int) Name {
	semi := mod12(pc - k.Tonic.PC())
	n, ok := k.Tonic.Up(degreeSteps[semi], semi)
	if ok && n.Alter >= -1 && n.Alter <= 1 {
		return n
	}
	return k.plain(pc)
}

// plain is the name of a pitch class with one accidental at most: a sharp where the
// signature has sharps, otherwise a flat.
func (k Key) plain(pc int) Name {
	n := plainNames[mod12(pc)]
	switch sharp := k.Fifths() > 0; {
	case n.Alter == 0 || sharp == (n.Alter > 0):
	case sharp:
		n, _ = n.Up(-1, 0)
	default:
		n, _ = n.Up(1, 0)
	}
	return n
}

// readable spells a name as the key does if it has a double accidental, or was not ok.
func (k Key) readable(n Name, ok bool) Name {
	if !ok || n.Alter < -1 || n.Alter > 1 {
		return k.Spell(n.PC())
	}
	return n
}

// calls reports whether a name is the key's own for its pitch class.
func (k Key) calls(n Name) bool { return k.Spell(n.PC()) == n }
