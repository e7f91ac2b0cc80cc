package harmony

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

// conventions are the numerals that mean something else in a pop chart than in music21's
// classical reading, each with the numeral that has music21's meaning here. That one is then
// checked against the whole row.
var conventions = map[string]map[string]string{
	// A 6 is the added sixth, as in a letter symbol; an inversion names its bass.
	"a 6 is an added sixth": {"I6": "I/3", "ii6": "ii/3", "IV6": "IV/3", "V6": "V/3", "vi6": "vi/3", "iv6": "iv/3",
		"i6": "i/3"},
	// A 7 is the minor seventh, as in a letter symbol, not the key's own one.
	"a 7 is a minor seventh": {"I7": "Imaj7", "IV7": "IVmaj7", "bVI7": "bVImaj7", "bVII7": "bVIImaj7",
		"III7": "IIImaj7", "VI7": "VImaj7"},
}

// Source: roman_numerals_music21.csv, music21 9.9.1, 25 keys.
func TestNumeralsMusic21(t *testing.T) {
	plain, converted, respelled := 0, 0, 0
	for _, r := range table(t, "roman_numerals_music21.csv", 1060) {
		k := musicKey(t, r["key"], r["mode"])
		figure, differs := r["figure"], false
		for _, list := range conventions {
			if ours, ok := list[figure]; ok && (r["mode"] == "minor" || figure != "III7" && figure != "VI7") {
				asWritten, err := ParseNumeral(figure, k)
				if err != nil {
					t.Errorf("%s: %v", k, err)
				} else if asWritten.Bass == mustName(t, r["bass"]) &&
					slices.Equal(sortedPCs(asWritten), ints(t, r["pcs"])) {
					t.Errorf("%s in %s does not differ and needs no convention", figure, k)
				}
				figure, differs = ours, true
			}
		}
		c, err := ParseNumeral(figure, k)
		if err != nil {
			t.Errorf("%s: %v", k, err)
			continue
		}
		root, bass := mustName(t, r["root"]), mustName(t, r["bass"])
		if got, want := sortedPCs(c), ints(t, r["pcs"]); !slices.Equal(got, want) || c.Root.PC() != root.PC() ||
			c.Bass.PC() != bass.PC() {
			t.Errorf("%s in %s: %s %v over %s, want %v root %s bass %s", figure, k, c, got, c.Bass, want, root, bass)
			continue
		}
		// Spelled alike too, but that no double accidental is ever written.
		if c.Root != root || c.Bass != bass {
			if root.Alter >= -1 && root.Alter <= 1 && bass.Alter >= -1 && bass.Alter <= 1 {
				t.Errorf("%s in %s: %s over %s, want %s over %s", figure, k, c.Root, c.Bass, root, bass)
			}
			respelled++
		}
		if differs {
			converted++
		} else {
			plain++
		}
	}
	t.Logf("%d rows as written, %d by convention, %d of them without the table's double accidental", plain, converted,
		respelled)
	// 6 sixths and 4 sevenths in 13 major keys, 1 and 2 in 12 minor ones.
	if plain != 1060-13*10-12*3 || converted != 13*10+12*3 || respelled != 21 {
		t.Errorf("%d rows as written, %d by convention, %d respelled", plain, converted, respelled)
	}
}

// musicKey reads the table's key: minor keys in small letters.
func musicKey(t *testing.T, name, mode string) Key {
	return mustKey(t, strings.ToUpper(name[:1])+name[1:]+" "+mode)
}

// Numerals as song files have them. Common practice, no single source, unless one is named.
func TestNumerals(t *testing.T) {
	for _, r := range []struct{ name, in, key, want string }{
		{"added sixth, minor", "iv6", "C major", "Fm6"},
		{"borrowed six", "bVI", "Eb major", "Cb"},
		{"borrowed seven", "bVII", "Eb major", "Db"},
		{"unicode flat", "♭VI", "Eb major", "Cb"},
		{"fifth in the bass", "I/5", "Eb major", "Eb/Bb"},
		{"third of a minor chord", "ii/3", "C major", "Dm/F"},
		{"its own seventh", "ii7/7", "C major", "Dm7/C"},
		{"the key's seventh under a triad", "I/7", "C major", "C/B"},
		{"minor seventh by accidental", "I/b7", "C major", "C/Bb"},
		{"the key's seventh under V", "V/7", "C major", "G/F"},
		{"the fourth over its fifth", "IV/2", "C major", "F/G"},
		{"seventh under a minor tonic", "i/7", "C minor", "Cm/Bb"},
		{"second under a borrowed chord", "bVI/2", "C major", "Ab/Bb"},
		{"suspended dominant", "V7sus4", "Eb major", "Bb7sus4"},
		{"dominant of the dominant", "V7/V", "Eb major", "F7"},
		{"applied, with a bass", "V7/V/3", "C major", "D7/F#"},
		{"applied to a minor chord", "V7/ii", "C major", "A7"},
		{"applied twice", "V7/V/V", "C major", "A7"},
		{"leading tone of the dominant", "viio7/V", "C major", "F#dim7"},
		{"degree sign", "vii°7/V", "C major", "F#dim7"},
		{"half-diminished, applied", "iiø7/iii", "C major", "F#m7b5"},
		{"applied to a flat degree", "V7/bVI", "C major", "Eb7"},
		{"raised fourth", "#ivo7", "C major", "F#dim7"},
		{"raised fourth, sharp sign", "♯iv°7", "G major", "C#dim7"},
		{"six over nine", "I6/9", "C major", "C6/9"},
		{"six over nine and the fifth", "I6/9/5", "C major", "C6/9/G"},
		{"dominant tonic, blues", "I7", "C major", "C7"},
		{"dominant on the flat seven", "bVII7", "C major", "Bb7"},
		{"minor with a major seventh", "imaj7", "A minor", "Am(maj7)"},
		{"minor added ninth", "iadd9", "A minor", "Amadd9"},
		{"small letters, half-diminished by hand", "ii7b5", "A minor", "Bm7b5"},
		{"capitals with a minor suffix", "IIm7", "C major", "Dm7"},
		{"capitals with a dash", "II-7", "C major", "Dm7"},
		{"suspension takes no mode", "iisus4", "C major", "Dsus4"},
		{"power chord on a small letter", "vi5", "C major", "A5"},
		{"alterations", "V7(b9,#11)", "C major", "G7b9#11"},
		{"VI in minor is the flat one", "VI", "C minor", "Ab"},
		{"bVI in minor is the same, as the flat counts from major", "bVI", "C minor", "Ab"},
		{"vi in minor is raised (music21)", "vi7b5", "C minor", "Am7b5"},
		{"#VI in minor is raised too", "#VI", "C minor", "A"},
		{"VII in minor", "VII", "C minor", "Bb"},
		{"vii° in minor", "viio7", "C minor", "Bdim7"},
		{"V in minor is major", "V7", "C minor", "G7"},
		{"v in minor is minor", "v7", "C minor", "Gm7"},
		{"flat two", "bII", "E major", "F"},
		{"cadential", "I64", "C major", "C/G"},
		{"first inversion of a seventh", "V65", "C major", "G7/B"},
		{"third inversion", "V42/V", "C major", "D7/C"},
		{"a figure's seventh is the key's own", "I42", "C major", "Cmaj7/B"},
		{"a figure on an augmented chord", "III+65", "G minor", "Bbmaj7#5/D"},
		{"a figure on an augmented dominant", "V+65", "G minor", "D7#5/F#"},
		{"a half-diminished triad", "iiø64", "C minor", "Ddim/Ab"},
		{"a figure on a borrowed chord", "bVI65", "C major", "Abmaj7/C"},
		{"no double flat", "bVI", "Gb major", "D"},
		{"suspended fourth, as figured bass has it", "V54", "C major", "Gsus4"},
		{"the same before an applied chord", "V54/V", "C major", "Dsus4"},
		{"half-diminished, typed", "vii/o7/V", "C major", "F#m7b5"},
		{"half-diminished, typed, with a figure", "ii/o65", "C minor", "Dm7b5/F"},
		{"a figure with brackets", "V43(no3)", "C major", "G7no3/D"},
		{"square brackets", "V7[no3]", "C major", "G7no3"},
		{"flat seventh by a sign", "ivb7", "C major", "Fm7"},
		{"added ninth", "V7/9", "C major", "G9"},
		{"added ninth and a bass", "V7/9/3", "C major", "G9/B"},
		{"flat ninth of an applied chord", "V7/b9/V", "C major", "D7b9"},
		{"added thirteenth", "V7/13", "Eb major", "Bb7add13"},
		{"no ninth", "V13(no9)", "C major", "G7add13"},
		{"major seventh of Latin charts", "IV7M", "C major", "Fmaj7"},
		{"major seventh of Latin charts, minor", "i7M", "A minor", "Am(maj7)"},
		{"raised seventh", "i(#7)", "A minor", "Am(maj7)"},
		{"ninth over a major seventh", "i9(maj7)", "A minor", "Am(maj9)"},
		{"sixth and major seventh", "I6(maj7)", "C major", "Cmaj7add13"},
		{"no chord", "N.C.", "C major", "N.C."},
	} {
		t.Run(r.name, func(t *testing.T) {
			c, numeral, err := ParseEither(r.in, mustKey(t, r.key))
			if err != nil {
				t.Fatal(err)
			}
			if c.String() != r.want || numeral == c.None {
				t.Errorf("%s in %s is %s (numeral %v), want %s", r.in, r.key, c, numeral, r.want)
			}
		})
	}
}

// Letters and numerals stand side by side in a chart.
func TestParseEither(t *testing.T) {
	k := mustKey(t, "Eb major")
	for _, r := range []struct {
		name, in string
		numeral  bool
		want     string
	}{
		{"a letter", "C", false, "C"},
		{"D is a letter, not five hundred", "Dm7", false, "Dm7"},
		{"B is a letter", "Bb", false, "Bb"},
		{"b is a flat", "bVI", true, "Cb"},
		{"small numeral", "vi7", true, "Cm7"},
		{"one", "I", true, "Eb"},
		{"sharp", "#ivo7", true, "Adim7"},
		{"no chord", "N.C.", false, "N.C."},
	} {
		t.Run(r.name, func(t *testing.T) {
			c, numeral, err := ParseEither(r.in, k)
			if err != nil || numeral != r.numeral || c.String() != r.want {
				t.Errorf("%s: %s, numeral %v, %v", r.in, c, numeral, err)
			}
		})
	}
	if _, numeral, err := ParseEither("bb7", k); err == nil || numeral {
		t.Error("bb7 is neither, and its error is that of a letter symbol")
	}
}

func TestNumeralErrors(t *testing.T) {
	for _, r := range []struct {
		name, in string
		kind     ErrorKind
		at, len  int
		suggest  string
	}{
		{"four ones", "iiii", NoRoot, 0, 4, "iii"},
		{"mixed case", "Iv7", NoRoot, 0, 2, "IV7"},
		{"unknown suffix", "V7foo", NoQuality, 2, 3, ""},
		{"swapped letters", "IVmja7", NoQuality, 3, 3, "IVmaj7"},
		{"small numeral, unknown suffix", "viblah", NoQuality, 2, 4, ""},
		{"letter in the bass", "I/Bb", NoBass, 2, 2, "I/5"},
		{"letter in the bass, outside the chord", "I/Db", NoBass, 2, 2, "I/b7"},
		{"degree too high", "I/12", NoBass, 2, 2, ""},
		{"nothing after the slash", "I/", NoBass, 2, 0, ""},
		{"applied to a diminished chord", "V7/viio", NotApplied, 6, 1, "V7/vii"},
		{"applied to a seventh chord", "V7/V7", NotApplied, 4, 1, "V7/V"},
		{"applied to nonsense", "V7/iiv", NoRoot, 3, 3, "V7/iv"},
		{"two basses", "V65/5", NoBass, 4, 1, "V65"},
		{"too long", "I" + strings.Repeat("/V", MaxSymbol), TooLong, 0, 2*MaxSymbol + 1, ""},
	} {
		t.Run(r.name, func(t *testing.T) {
			_, err := ParseNumeral(r.in, mustKey(t, "Eb major"))
			var e *SymbolError
			if !errors.As(err, &e) {
				t.Fatalf("%q: %v", r.in, err)
			}
			if e.Kind != r.kind || e.Offset != r.at || e.Length != r.len || e.Suggest != r.suggest {
				t.Errorf("%q: %+v", r.in, *e)
			}
			if e.Suggest != "" {
				if _, err := ParseNumeral(e.Suggest, mustKey(t, "Eb major")); err != nil {
					t.Errorf("%q suggests %v", r.in, err)
				}
			}
		})
	}
}
