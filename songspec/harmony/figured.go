package harmony

import (
	"slices"
	"strings"
)

// In figured bass, I6 is the first inversion and V2 the third one of V7; in pop and jazz charts
// they are an added sixth and an added second, and so they are here. Whoever writes 65 and 43
// beside them means the first.

// FiguredBass is a numeral whose figure is another chord in figured bass: I6, V2.
type FiguredBass struct {
	Inversion string // what figured bass means by it: "first inversion"
	Inverted  string // and how that is written here: I/3
	Tone      string // what it is here: "added sixth"
	Added     string // the same, written so that it can mean nothing else: Iadd6
	// Always is set if the chord that it is here is hardly ever written so: viio6, bII6, I6/4.
	Always bool
}

// IsFigured reports whether a numeral has a figure of figured bass that is nothing else, such
// as V65, or a name that goes with them, such as Cad64.
func IsFigured(s string) bool {
	head, _, _ := strings.Cut(s, "/")
	if _, ok := named[head]; ok {
		return head != "N"
	}
	_, size, ok := scanRoman(head)
	_, _, _, degree := cutFigure(head[size:])
	return ok && degree > 0
}

// ReadFiguredBass takes a numeral such as I6 or V2 apart. ok is false for any other text.
func ReadFiguredBass(s string, k Key) (f FiguredBass, ok bool) {
	head, rest := s, ""
	if slash := strings.IndexByte(s, '/'); slash >= 0 {
		head, rest = s[:slash], s[slash:]
	}
	r, size, ok := scanRoman(head)
	if !ok || size == len(head) || len(s) > MaxSymbol {
		return f, false
	}
	roman, word, figure := head[:size], head[size:len(head)-1], head[len(head)-1:]+rest
	diminished := slices.Contains([]string{"o", "°", "dim"}, word)
	if word != "" && word != "+" && !diminished {
		return f, false
	}
	stem := roman + word
	numeral := rest == "" || IsNumeral(rest[1:])
	switch {
	case figure == "6/4":
		f = FiguredBass{"second inversion", stem + "64", "added sixth over the chord's fourth", stem + "add6/4", true}
	case figure == "6/5":
		f = FiguredBass{"first inversion of the seventh", stem + "65", "added sixth over the fifth", stem + "add6/5",
			false}
	case figure[0] == '6' && numeral && diminished:
		f = FiguredBass{"first inversion", stem + rest + "/3", "diminished seventh", stem + "7" + rest, true}
	case figure[0] == '6' && numeral && r.degree == 1 && r.alter == -1 && !r.minor && word == "":
		f = FiguredBass{"first inversion", "N6" + rest, "added sixth", stem + "add6" + rest, true}
	case figure[0] == '6' && numeral:
		f = FiguredBass{"first inversion", stem + rest + "/3", "added sixth", stem + "add6" + rest, false}
	case figure[0] == '2' && numeral:
		f = FiguredBass{"third inversion", stem + "42" + rest, "added second", stem + "add2" + rest, false}
	default:
		return f, false
	}
	for _, try := range [...]string{s, f.Inverted, f.Added} {
		if _, e := readNumeral(try, k); e != nil {
			return f, false
		}
	}
	return f, true
}
