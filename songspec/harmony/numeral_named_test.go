package harmony

import "testing"

// The chords with names, in major and minor. Source: the tones that any handbook of harmony
// gives for them in C; the German, French and Italian sixths are spelled as the seventh chords
// that sound like them.
func TestNamedNumerals(t *testing.T) {
	for _, r := range []struct{ in, key, want, tones string }{
		{"Cad64", "C major", "C/G", "C E G"},
		{"Cad64", "C minor", "Cm/G", "C Eb G"},
		{"Cad64", "Eb minor", "Ebm/Bb", "Eb Gb Bb"},
		{"Cad64/V", "C minor", "G/D", "G B D"},
		{"Cad64/ii", "C major", "Dm/A", "D F A"},
		{"N6", "C minor", "Db/F", "Db F Ab"},
		{"N6", "E major", "F/A", "F A C"},
		{"N6/iv", "C minor", "Gb/Bb", "Gb Bb Db"},
		{"N", "C minor", "Db", "Db F Ab"},
		{"It6", "C major", "Ab7no5", "Ab C Gb"},
		{"It6", "C minor", "Ab7no5", "Ab C Gb"},
		{"Fr43", "C minor", "Ab7b5", "Ab C Ebb Gb"},
		{"Ger65", "C major", "Ab7", "Ab C Eb Gb"},
		{"Ger65", "A minor", "F7", "F A C Eb"},
		{"Ger65", "E major", "C7", "C E G Bb"},
		{"Ger65/V", "C major", "Eb7", "Eb G Bb Db"},
		{"Ger+6", "C major", "Ab7", "Ab C Eb Gb"},
		{"Fr+6", "C major", "Ab7b5", "Ab C Ebb Gb"},
		{"It+6", "C major", "Ab7no5", "Ab C Gb"},
	} {
		c, numeral, err := ParseEither(r.in, mustKey(t, r.key))
		if err != nil || !numeral {
			t.Errorf("%s in %s: numeral %v, %v", r.in, r.key, numeral, err)
			continue
		}
		if c.String() != r.want || spelledTones(c) != r.tones {
			t.Errorf("%s in %s is %s, %s; want %s, %s", r.in, r.key, c, spelledTones(c), r.want, r.tones)
		}
	}
}

// In every key the names are the same chords, with root and bass on the letter of their
// degree, unless that takes a double accidental.
func TestNamedNumeralsInEveryKey(t *testing.T) {
	sames := map[string]string{"N6": "bII/3", "It6": "bVI7no5", "Fr43": "bVI7b5", "Ger65": "bVI7", "N": "bII"}
	for fifths := -7; fifths <= 7; fifths++ {
		for _, minor := range []bool{false, true} {
			k := keyOf(fifths, minor)
			sames["Cad64"] = "I64"
			if minor {
				sames["Cad64"] = "i64"
			}
			for name, same := range sames {
				got, err := ParseNumeral(name, k)
				want, bad := ParseNumeral(same, k)
				if err != nil || bad != nil || got != want {
					t.Errorf("%s in %s is %s (%v), want %s as %s (%v)", name, k, got, err, want, same, bad)
				}
			}
		}
	}
}

// Letters that begin like the names are letters.
func TestLettersLikeNames(t *testing.T) {
	for in, want := range map[string]string{"Cadd4": "Cadd4", "Cadd9": "Cadd9", "F6": "F6", "Cad": "", "Fr": "",
		"Ger": "", "Cad6": "", "Ger65x": ""} {
		c, numeral, err := ParseEither(in, Key{})
		if numeral || (err == nil) != (want != "") || err == nil && c.String() != want {
			t.Errorf("%s is %s, numeral %v, %v", in, c, numeral, err)
		}
	}
}
