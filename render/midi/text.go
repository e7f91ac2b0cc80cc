package midi

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// plain are characters that Unicode does not take apart into a letter and marks,
// in the spelling that a musician would type without them. Common practice, no
// single source.
var plain = map[rune]string{
	'♭': "b", '♯': "#", '♮': "", '𝄪': "x", '𝄫': "bb",
	'ß': "ss", 'ẞ': "SS", 'æ': "ae", 'Æ': "AE", 'œ': "oe", 'Œ': "OE", 'ø': "o", 'Ø': "O",
	'đ': "d", 'Đ': "D", 'ð': "d", 'Ð': "D", 'þ': "th", 'Þ': "Th", 'ł': "l", 'Ł': "L", 'ı': "i",
	'ħ': "h", 'Ħ': "H", 'ŋ': "n", 'Ŋ': "N",
	'‘': "'", '’': "'", '‚': "'", '“': `"`, '”': `"`, '„': `"`, '«': `"`, '»': `"`, '‹': "'", '›': "'",
	'–': "-", '—': "-", '‐': "-", '‑': "-", '−': "-", '⁄': "/", '·': "-", '•': "-", '×': "x",
	'¡': "!", '¿': "?",
}

// ASCII is s in printable ASCII, since programs disagree on what else a text
// event may hold: marks are taken off letters, accidentals become b and #, control
// characters and runs of blanks become one blank, and what has no plain form
// becomes a question mark. When no letter or digit is left it is the fallback.
func ASCII(s, fallback string) string {
	if isPlain(s) {
		return s
	}
	var b strings.Builder
	for _, r := range norm.NFKD.String(s) {
		text, known := plain[r]
		switch {
		case known:
			b.WriteString(text)
		case unicode.Is(unicode.Mn, r):
		case unicode.IsSpace(r) || unicode.IsControl(r):
			b.WriteByte(' ')
		case r < unicode.MaxASCII:
			b.WriteRune(r)
		default:
			b.WriteByte('?')
		}
	}
	out := strings.Join(strings.Fields(b.String()), " ")
	if !strings.ContainsFunc(out, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
		return fallback
	}
	return out
}

// isPlain says that ASCII would leave s as it is, which is what it mostly does.
func isPlain(s string) bool {
	letters := false
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case c < ' ' || c > '~', c == ' ' && (i == 0 || i == len(s)-1 || s[i-1] == ' '):
			return false
		case c >= '0' && c <= '9', c|0x20 >= 'a' && c|0x20 <= 'z':
			letters = true
		}
	}
	return letters
}
