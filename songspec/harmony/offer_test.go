package harmony

import (
	"errors"
	"testing"
)

// An offer keeps what the wrong symbol clearly says of its tones; where none does, there is
// none. Judged by hand: "" is a symbol that could be several chords, or one that no common
// spelling says.
func TestOffers(t *testing.T) {
	for _, r := range []struct{ wrong, offer string }{
		{"Cmja7", "Cmaj7"}, {"Cmaj8", "Cmaj7"}, {"Cm(maj8)", "Cm(maj7)"}, {"Cdmi7", "Cdim7"},
		{"C77", "C7"}, {"Cm77", "Cm7"}, {"Cmaj77", "Cmaj7"}, {"Csus44", "Csus4"}, {"C7su4", "C7sus4"},
		{"C7atl", "C7alt"}, {"Cad9", "Cadd9"}, {"C7(b9", "C7b9"}, {"Cm(add9", "Cmadd9"}, {"C7#8", "C7#9"},
		{"Cm7b5x", "Cm7b5"}, {"C9sus5", "C9sus4"}, {"Csus5", "Csus4"}, {"C-8", "C-"}, {"C+8", "C+"}, {"Cj7", "Cmaj7"},
		{"Cmj7", "Cmaj7"}, {"Cmj", "Cmaj"}, {"Cmj9/E", "Cmaj9/E"},
		{"Cm7(maj7)", "Cm(maj7)"}, {"C711", "C11"},
		// What near spellings there are would drop or change a tone.
		{"C54", ""}, {"C7(maj7)", ""}, {"C7(mja7)", ""}, {"C6(b9", "C6(b9)"}, {"C7#99", ""}, {"Cm7b55", ""},
		{"C9b55", ""}, {"C7(no9)", ""}, {"C7no7", ""}, {"C6(m7)", ""}, {"C6/8", ""}, {"C2b5#9x", ""},
		{"Cm(maj9", "Cm(maj9)"}, {"C7[b9#5", "C7b9#5"}, {"C7(b9]", "C7(b9)"}, {"C13[b9#5", "C13[b9#5]"},
		{"C/b7", "C/Bb"}, {"C7/b5", ""}, {"C7b", ""}, {"C7-", ""}, {"Ebm/3", "Ebm/Gb"}, {"C/b1", ""},
		{"C/#A", ""}, {"C/7", ""}, {"F:min7", "Fmin7"}, {"F:hdim7", ""}, {"Cø77", "Cø7"},
		{"Cmaj711", ""}, {"C7alt9", ""}, {"Cdimsus4", ""},
	} {
		_, err := ParseChord(r.wrong)
		var e *SymbolError
		if !errors.As(err, &e) || e.Suggest != r.offer {
			t.Errorf("%s: %v, want the offer %q", r.wrong, err, r.offer)
		}
	}
}

// The same for numerals, whose small letters say minor.
func TestNumeralOffers(t *testing.T) {
	for _, r := range []struct{ wrong, offer string }{
		{"IVmja7", "IVmaj7"}, {"ii77", "ii7"}, {"V7(b9", "V7b9"}, {"V4/3", "V43"}, {"V4/2", "V42"}, {"ii4/3", "ii43"},
		{"V754", ""}, {"V6(b9", ""}, {"i7(maj7)", ""}, {"V65x", ""}, {"V4/5", ""}, {"I7(no9)", ""},
	} {
		_, err := ParseNumeral(r.wrong, Key{})
		var e *SymbolError
		if !errors.As(err, &e) || e.Suggest != r.offer {
			t.Errorf("%s: %v, want the offer %q", r.wrong, err, r.offer)
		}
	}
}

// Two mistakes in every common spelling, everywhere: an offer has all tones of the spelling
// whose figures are still there.
func TestOffersKeepFigures(t *testing.T) {
	offers := 0
	for _, s := range commonSpellings {
		for at := 0; at <= len(s); at++ {
			for _, slip := range []string{"x", "8", "5", "9", "b", "#", "(", "sus", "maj7", "no9"} {
				wrong := s[:at] + slip + s[at:]
				if _, f := lookSuffix(wrong); f == nil {
					continue
				}
				near := nearSuffix(wrong)
				if near == "" || otherSpellings[wrong] != "" {
					continue
				}
				offers++
				c, _ := lookSuffix(near)
				for _, said := range readClaims(wrong).all {
					if said.has != 0 && c.PCSet()&said.has == 0 || c.PCSet()&said.lack != 0 {
						t.Errorf("%q offers %q, which does not keep %s", wrong, near, said.text)
					}
				}
			}
		}
	}
	if offers < 500 {
		t.Errorf("%d offers", offers)
	}
}
