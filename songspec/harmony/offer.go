package harmony

import (
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"plinth/songspec/wording"
)

// An offer must not change the chord: it keeps all that the wrong symbol clearly says of its
// tones, and where everything in the symbol is clear, it says no more. What a slip of the
// keyboard has made unclear, such as mja, an offer may mend.

// nearSuffix is the common spelling that a suffix was probably meant to be. It differs
// by one letter at most, or by two when the suffix is long.
func nearSuffix(s string) string {
	if other := otherSpellings[s]; other != "" {
		return other
	}
	most := 1
	if len(s) > 4 {
		most = 2
	}
	if strings.Trim(s[max(len(s)-1, 0):], "b#+-") == "" && len(s) > 1 {
		return "" // 7b may be 7b5 and 7b9, and 7 is neither
	}
	said := readClaims(s)
	var keep []string
	for i, near := range commonSpellings {
		if said.keptBy(near, commonClaims()[i]) {
			keep = append(keep, near)
		}
	}
	return wording.Closest(s, keep, most)
}

// commonClaims are what commonSpellings say, built once.
var commonClaims = sync.OnceValue(func() []claims {
	all := make([]claims, len(commonSpellings))
	for i, s := range commonSpellings {
		all[i] = readClaims(s)
	}
	return all
})

// claim is one thing that a suffix says: the chord has one of some tones, and none of
// others. Tones are bits, by semitones above the root. degree is that of a figure, 0 for a
// word.
type claim struct {
	text      string
	degree    int
	has, lack uint16
}

// claims are what a suffix clearly says, whether or not it can be read. Odd words and figures
// are those that say nothing.
type claims struct {
	all                []claim
	oddWord, oddFigure bool
	worded             bool // it begins with letters
}

// figure adds what a figure says with the sign or word before it.
func (c *claims) figure(before string, degree int, has, lack uint16) {
	c.all = append(c.all, claim{before + strconv.Itoa(degree), degree, has, lack})
}

// tones are semitones above the root as bits.
func tones(semitones ...int) (bits uint16) {
	for _, s := range semitones {
		bits |= 1 << mod12(s)
	}
	return bits
}

// wordClaims are what words say of the tones; maj and no say it of the figure after them.
var wordClaims = map[string]claim{
	"m":   {"m", 0, tones(3), tones(4)},
	"dim": {"dim", 0, tones(6), tones(4, 7)},
	"ø":   {"ø", 0, tones(10), tones(4, 7)},
	"aug": {"aug", 0, tones(8), tones(7)},
	"sus": {"sus", 0, tones(2, 5), tones(3, 4)},
}

// claimWords are the words of suffixes, with the shortest word that says the same.
var claimWords = []struct{ word, says string }{
	{"minor", "m"}, {"min", "m"}, {"mi", "m"}, {"m", "m"}, {"major", "maj"}, {"maj", "maj"}, {"ma", "maj"},
	{"M", "maj"},
	{"Δ", "maj"}, {"∆", "maj"}, {"△", "maj"}, {"^", "maj"}, {"diminished", "dim"}, {"dim", "dim"},
	{"halfdim", "ø"}, {"hdim", "ø"}, {"h", "ø"}, {"ø", "ø"}, {"Ø", "ø"}, {"∅", "ø"},
	{"o", "dim"}, {"°", "dim"}, {"º", "dim"}, {"augmented", "aug"},
	{"aug", "aug"}, {"sus", "sus"}, {"omit", "no"}, {"no", "no"}, {"add", "add"}, {"alt", "alt"}, {"dom", "dom"},
}

// splitWords takes a run of letters apart into known words. ok is false if it is anything
// else.
func splitWords(run string) (says []string, ok bool) {
	if run == "" {
		return nil, true
	}
	for _, w := range claimWords {
		n := len(w.word)
		if len(run) < n || run[:n] != w.word && (n == 1 || !strings.EqualFold(run[:n], w.word)) {
			continue
		}
		if more, ok := splitWords(run[n:]); ok {
			return append([]string{w.says}, more...), true
		}
	}
	return nil, false
}

// letterRun is the length of the letters at the start of s. The b of susb9 is a sign.
func letterRun(s string) int {
	end := strings.IndexFunc(s, func(r rune) bool {
		return !unicode.IsLetter(r) && !strings.ContainsRune("°^∆△∅", r)
	})
	if end < 0 {
		return len(s)
	}
	if end > 0 && s[end-1] == 'b' && s[end] >= '0' && s[end] <= '9' {
		end--
	}
	return end
}

func readClaims(suffix string) (out claims) {
	p := suffixParser{s: suffix}
	out.worded = letterRun(suffix) > 0
	major, without := false, false
	for p.i < len(suffix) {
		at := p.i
		if n := letterRun(suffix[at:]); n > 0 {
			p.i += n
			says, ok := splitWords(suffix[at:p.i])
			out.oddWord = out.oddWord || !ok
			major, without = slices.Contains(says, "maj"), slices.Contains(says, "no")
			for _, w := range says {
				if c, ok := wordClaims[w]; ok {
					out.all = append(out.all, c)
				}
			}
			continue
		}
		bits := p.sign()
		d := p.claimedDegree()
		switch {
		case at == 0 && bits != 0 && d != 5: // C-7 and C+7
			word := map[uint8]string{flat: "m", sharp: "aug"}[bits]
			out.all = append(out.all, wordClaims[word])
			p.i = at + firstRune(suffix)
		case d == 0 && bits != 0:
			out.oddFigure = true
		case d == 0:
			p.i += firstRune(suffix[at:])
			out.oddFigure = out.oddFigure || !strings.Contains("()[]/, ", suffix[at:p.i])
		case without:
			out.figure("no", d, 0, tones(degreeSemitones(d), degreeSemitones(d)-1))
			without = false
		default:
			latin := d >= 7 && !major && p.eat("M")
			out.signed(d, bits, latin || d >= 7 && major && bits == 0)
			major = false
		}
	}
	return out
}

// claimedDegree takes a degree, a figure at a time: 54 is 5 and 4. It is 0 when there is none.
func (p *suffixParser) claimedDegree() int {
	for _, d := range [...]int{11, 13, 2, 3, 4, 5, 6, 7, 9} {
		if p.eat(strconv.Itoa(d)) {
			return d
		}
	}
	return 0
}

// signed adds what a figure with its sign says. A bare 7 is any seventh.
func (c *claims) signed(d int, bits uint8, major bool) {
	semis := degreeSemitones(d)
	switch {
	case major:
		c.figure("maj", 7, tones(11), 0)
		if d > 7 {
			c.figure("", d, tones(semis), 0)
		}
	case bits == flat:
		c.figure("b", d, tones(semis-1), 0)
	case bits == sharp:
		c.figure("#", d, tones(semis+1), 0)
	case d == 7:
		c.figure("", d, tones(9, 10, 11), 0)
	default:
		c.figure("", d, tones(semis), 0)
	}
}

// keptBy reports whether a common spelling keeps what is said. What it says more must be
// what something odd was meant to be; and an m has its place in front.
func (c *claims) keptBy(near string, says claims) bool {
	chord := commonSuffixes()[near]
	set := chord.PCSet()
	for _, said := range c.all {
		if said.has != 0 && set&said.has == 0 || set&said.lack != 0 {
			return false
		}
	}
	for _, more := range says.all {
		odd := c.oddWord && (c.worded || more.text != "m")
		if more.degree > 0 {
			odd = c.oddFigure
		}
		if !odd && !slices.ContainsFunc(c.all, func(said claim) bool {
			return said.text == more.text ||
				said.degree == 0 && said.has&more.has != 0 || // sus5 may be sus4
				c.oddWord && said.degree == more.degree && more.degree > 0 // mja7 is maj7
		}) {
			return false
		}
	}
	return true
}
