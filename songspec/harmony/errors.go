package harmony

import (
	"strings"
	"unicode/utf8"
)

// ErrorKind says what about a symbol is wrong.
type ErrorKind uint8

// The kinds of SymbolError. A symbol that cannot be split is another mistake,
// at another place, than a quality nobody knows.
const (
	NoRoot     ErrorKind = iota + 1 // it does not begin with a root or a numeral
	NoQuality                       // the part after the root is no quality
	NoBass                          // the part after the slash is no bass
	NoKey                           // not a key, or a key without a signature
	NotApplied                      // the numeral after the slash cannot be a tonic
	TooLong                         // over MaxSymbol bytes
)

// MaxSymbol bounds a chord symbol, numeral, note or key in bytes.
const MaxSymbol = 64

// SymbolError is the author's mistake in a chord symbol, a numeral, a note or
// a key. Offset and Length are bytes of Text and point at the part that is
// wrong. Reason is a full sentence. Suggest is a whole symbol to write
// instead, "" when there is none near enough. Tongue is German or Solfege where
// a note of a chord has its name there.
type SymbolError struct {
	Kind           ErrorKind
	Text           string
	Offset, Length int
	Reason         string
	Suggest        string
	Tongue         Tongue
}

// Error is the reason with the symbol and the suggestion.
func (e *SymbolError) Error() string {
	text := e.Text
	if len(text) > MaxSymbol {
		cut := MaxSymbol
		for cut > 0 && !utf8.RuneStart(text[cut]) {
			cut--
		}
		text = text[:cut] + "..."
	}
	s := `"` + text + `": ` + e.Reason
	if e.Suggest != "" {
		s += ` Write "` + e.Suggest + `".`
	}
	return s
}

// firstRune is the length in bytes of the first character, 0 when there is none.
func firstRune(s string) int {
	_, size := utf8.DecodeRuneInString(s)
	return size
}

// capital offers the symbol with a capital first letter when that is what was
// missing.
func capital(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'g' {
		return strings.ToUpper(s[:1]) + s[1:]
	}
	return ""
}

// nearest is the candidate with the fewest single-letter changes from s, the
// earliest of equals; "" when more than most changes are needed. A change of
// two neighbours' order counts once.
func nearest(s string, candidates []string, most int) string {
	best, at := "", most+1
	for _, c := range candidates {
		if d := edits(s, c, at); d < at {
			best, at = c, d
		}
	}
	return best
}

// edits counts letters put in, left out, changed or swapped between a and b;
// it gives up at limit.
func edits(a, b string, limit int) int {
	ra, rb := []rune(a), []rune(b)
	if d := len(ra) - len(rb); d >= limit || -d >= limit {
		return limit
	}
	two := make([]int, len(rb)+1)
	one := make([]int, len(rb)+1)
	row := make([]int, len(rb)+1)
	for j := range one {
		one[j] = j
	}
	for i := 1; i <= len(ra); i++ {
		row[0] = i
		for j := 1; j <= len(rb); j++ {
			change := one[j-1]
			if ra[i-1] != rb[j-1] {
				change++
			}
			row[j] = min(change, one[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && ra[i-1] == rb[j-2] && ra[i-2] == rb[j-1] {
				row[j] = min(row[j], two[j-2]+1)
			}
		}
		two, one, row = one, row, two
	}
	return min(one[len(rb)], limit)
}
