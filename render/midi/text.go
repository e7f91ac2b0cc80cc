package midi

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// asciiSpelling has the characters that Unicode does not take apart into a letter and
// marks, each as a musician would type it in ASCII. Common practice, no single source.
var asciiSpelling = map[rune]string{
	'♭': "b", '♯': "#", '♮': "", '𝄪': "x", '𝄫': "bb",
	'ß': "ss", 'ẞ': "SS", 'æ': "ae", 'Æ': "AE", 'œ': "oe", 'Œ': "OE", 'ø': "o", 'Ø': "O",
	'đ': "d", 'Đ': "D", 'ð': "d", 'Ð': "D", 'þ': "th", 'Þ': "Th", 'ł': "l", 'Ł': "L", 'ı': "i",
	'ħ': "h", 'Ħ': "H", 'ŋ': "n", 'Ŋ': "N",
	'‘': "'", '’': "'", '‚': "'", '“': `"`, '”': `"`, '„': `"`,
	'«': `"`, '»': `"`, '‹': "'", '›': "'",
	'–': "-", '—': "-", '‐': "-", '‑': "-", '−': "-", '⁄': "/", '·': "-", '•': "-", '×': "x",
	'¡': "!", '¿': "?",
}

// toASCII returns s in printable ASCII, because programs disagree on what else a text
// event may hold. Letters lose their marks, accidentals become b and #, control characters
// and runs of blanks become one blank, and a character without an ASCII spelling becomes a
// question mark. Where no letter or digit is left it returns the fallback.
func toASCII(s, fallback string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(s) {
		text, known := asciiSpelling[r]
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
