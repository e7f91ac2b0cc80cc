package harmony

import (
	"strings"
	"unicode/utf8"
)

// ErrorKind says what about a symbol is wrong.
type ErrorKind uint8

// The kinds of SymbolError.
const (
	NoRoot     ErrorKind = iota + 1 // it does not begin with a root or a numeral
	NoQuality                       // the part after the root is no quality
	NoBass                          // the part after the slash is no bass
	NoKey                           // it is no key, or a key without a signature
	NotApplied                      // the numeral after the slash cannot be a tonic
	TooLong                         // it has more than MaxSymbol bytes
)

// MaxSymbol is how many bytes a chord symbol, numeral, note or key has at most.
const MaxSymbol = 64

// SymbolError is a mistake in a chord symbol, a numeral, a note or a key. Text is all that
// was written; Offset and Length, in bytes of Text, mark the part that is wrong. Reason is
// a full sentence. Suggest is the whole symbol to write instead, "" when none is near
// enough. Tongue is German or Solfege if a note of a chord has a name in that tongue.
type SymbolError struct {
	Kind           ErrorKind
	Text           string
	Offset, Length int
	Reason         string
	Suggest        string
	Tongue         Tongue
}

// Error is the symbol, the reason and the suggestion in one line.
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

// firstRune is the length in bytes of the first character, 0 for an empty text.
func firstRune(s string) int {
	_, size := utf8.DecodeRuneInString(s)
	return size
}

// capital is the symbol with a capital first letter if that is a note's small letter, "a"
// to "g"; "" for any other.
func capital(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'g' {
		return strings.ToUpper(s[:1]) + s[1:]
	}
	return ""
}
