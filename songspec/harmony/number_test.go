package harmony

import (
	"errors"
	"testing"
)

// TestNumbers: chords in numbers, and the numerals that are suggested. Common practice of
// studio charts, no single source: a number is a degree of the major scale, - is minor, and
// a figure after a slash is a degree of the key.
func TestNumbers(t *testing.T) {
	for _, c := range []struct{ text, key, want string }{
		{"1", "A", "I"}, {"4", "A", "IV"}, {"6-", "A", "vi"}, {"6m", "A", "vi"}, {"2-7", "A", "ii7"},
		{"57", "A", "V7"}, {"1maj7", "A", "Imaj7"},
		{"b7", "A", ""} /* or B7 */, {"♭7", "A", "♭VII"}, {"b3", "C", "bIII"}, {"#4o7", "C", "#ivo7"},
		{"7°", "C", "vii°"}, {"5sus", "C", "Vsus"},
		{"1/3", "A", "I/3"}, {"5/7", "A", "V/3"}, {"4/5", "C", "IV/2"}, {"4/1", "C", "IV/5"}, {"1/b7", "C", "I/b7"},
		{"6-/5", "C", "vi/7"}, {"1/1", "C", "I"},
		{"11", "C", ""}, {"8", "C", ""}, {"1/x", "C", ""},
	} {
		k, err := ParseKey(c.key)
		if err != nil {
			t.Fatal(err)
		}
		_, _, err = ParseEither(c.text, k)
		var e *SymbolError
		if !errors.As(err, &e) || e.Suggest != c.want {
			t.Errorf("%s in %s: %v, want %q", c.text, c.key, err, c.want)
		}
		if c.want == "" {
			continue
		}
		if _, err := ParseNumeral(c.want, k); err != nil {
			t.Error(err)
		}
	}
}
