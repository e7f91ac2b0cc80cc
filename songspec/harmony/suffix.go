package harmony

import "strings"

// suffixParser reads the part of a chord symbol after its root: a word for the
// triad, a number, then any number of additions in any order.
type suffixParser struct {
	s string
	i int

	lead    lead
	number  int  // 0, 5, 6, 7, 9, 11, 13
	nine    bool // a ninth written with a six: 69, 6/9
	major7  bool
	plus7   bool // a major seventh beside a diminished one: o7M7
	alt     bool
	sus2    bool
	sus4    bool
	no3     bool
	no5     bool
	altered [14]uint8 // alterations: they replace the natural tone
	added   [14]uint8 // additions: they stand beside it

	faultAt, faultLen int
	fault             string
}

type lead uint8

const (
	leadNone lead = iota
	leadMajor
	leadTriangle
	leadMinor
	leadDim
	leadHalfDim
	leadAug
	leadDom
)

// parseSuffix reads a whole suffix. When fault is not "" it is a sentence that
// says what is wrong with the bytes from at on.
func parseSuffix(s string) (q quality, fault string, at, length int) {
	p := suffixParser{s: s}
	p.readLead()
	if p.fault == "" {
		p.readNumber()
	}
	for p.fault == "" && p.i < len(p.s) {
		p.item(false)
	}
	if p.fault == "" {
		p.check()
	}
	if p.fault == "" {
		q = p.resolve()
		if _, n := q.tones(); n > MaxTones {
			p.fail(0, len(s), "A chord has at most 8 tones.")
		} else if n < 2 {
			p.fail(0, len(s), "A chord has at least one tone besides its root.")
		}
	}
	return q, p.fault, p.faultAt, p.faultLen
}

func (p *suffixParser) fail(at, length int, why string) {
	if p.fault == "" {
		p.fault, p.faultAt, p.faultLen = why, at, length
	}
}

// eat takes a token when the text goes on with it.
func (p *suffixParser) eat(token string) bool {
	if strings.HasPrefix(p.s[p.i:], token) {
		p.i += len(token)
		return true
	}
	return false
}

// word takes a word in small letters, with a capital first letter, or in
// capitals, as hand-written chart fonts print it.
func (p *suffixParser) word(w string) bool {
	if len(p.s)-p.i < len(w) {
		return false
	}
	got := p.s[p.i : p.i+len(w)]
	if got == w || got == strings.ToUpper(w) || got[:1] == strings.ToUpper(w[:1]) && got[1:] == w[1:] {
		p.i += len(w)
		return true
	}
	return false
}

func (p *suffixParser) minus() bool { return p.eat("-") || p.eat("−") || p.eat("–") }

func (p *suffixParser) triangle() bool {
	return p.eat("Δ") || p.eat("∆") || p.eat("△") || p.eat("^")
}

// majorWord takes a word for major. "ma" is not one in "madd9" or "maug".
func (p *suffixParser) majorWord() bool {
	if p.word("major") || p.word("maj") {
		return true
	}
	if at := p.i; p.word("ma") {
		if rest := strings.ToLower(p.s[p.i:]); !strings.HasPrefix(rest, "dd") && !strings.HasPrefix(rest, "ug") && !strings.HasPrefix(rest, "lt") {
			return true
		}
		p.i = at
	}
	return p.eat("M")
}

func (p *suffixParser) readLead() {
	switch {
	case p.triangle():
		p.lead, p.major7 = leadTriangle, true
	case p.word("minor") || p.word("min") || p.word("mi"):
		p.lead = leadMinor
	case p.majorWord():
		p.lead = leadMajor
	case p.eat("m") || p.minus():
		p.lead = leadMinor
	case p.word("halfdim") || p.word("half-dim") || p.word("hdim") || p.eat("ø") || p.eat("Ø") || p.eat("∅") || p.eat("h"):
		p.lead = leadHalfDim
	case p.word("diminished") || p.word("dim"):
		p.lead = leadDim
		p.eat(".")
	case p.eat("°") || p.eat("º") || !strings.HasPrefix(p.s, "omit") && p.eat("o"):
		p.lead = leadDim
	case p.word("augmented") || p.word("aug"):
		p.lead = leadAug
		p.eat(".")
	case p.eat("+"):
		p.lead = leadAug
	case p.word("dom"):
		p.lead = leadDom
	}
	if p.lead == leadMinor {
		p.eat("/") // m/maj7: only a word for major may follow
		if p.i > 0 && p.s[p.i-1] == '/' && !p.atMajor() {
			p.fail(p.i-1, len(p.s)-p.i+1, "After the slash comes a bass note.")
		}
	}
}

// atMajor looks for a word for major without taking it.
func (p *suffixParser) atMajor() bool {
	at := p.i
	ok := p.triangle() || p.majorWord()
	p.i = at
	return ok
}

// digits takes a run of digits.
func (p *suffixParser) digits() string {
	at := p.i
	for p.i < len(p.s) && p.s[p.i] >= '0' && p.s[p.i] <= '9' {
		p.i++
	}
	return p.s[at:p.i]
}

// readNumber takes the number after the lead: 5, 6, 7, 9, 11, 13, 2, 69, 67.
func (p *suffixParser) readNumber() {
	at := p.i
	d := p.digits()
	switch d {
	case "":
		if p.lead == leadDom {
			p.number = 7
		}
		return
	case "7":
		p.number = 7
	case "9":
		p.number = 9
	case "11":
		p.number = 11
	case "13":
		p.number = 13
	case "6":
		p.number = 6
		if strings.HasPrefix(p.s[p.i:], "/9") && !strings.HasPrefix(p.s[p.i:], "/9/9") {
			p.i += 2
			p.nine = true
		}
	case "69":
		p.number, p.nine = 6, true
	case "67":
		p.number = 7
		p.added[13] |= natural
	case "5":
		if p.lead == leadNone {
			p.number = 5
			return
		}
		p.lead5(at)
	case "2":
		p.added[2] |= natural
	case "4":
		p.fail(at, 1, bareFour)
	default:
		p.fail(at, len(d), "A chord's number is 5, 6, 7, 9, 11, 13, 69 or 2.")
	}
	if p.lead == leadMajor && p.number >= 7 {
		p.major7 = true
	}
	if p.lead == leadTriangle && p.number == 6 {
		p.major7 = false
	}
}

// bareFour is a fault of its own: one dictionary reads a suspension, the other a
// chord of fourths.
const bareFour = "A bare 4 says neither a suspended nor an added fourth: sus4 or add4 does."

// lead5 handles "+5" and "-5", where the sign was the fifth's accidental.
func (p *suffixParser) lead5(at int) {
	switch {
	case p.lead == leadAug && p.s[0] == '+':
		return // C+5 is C+
	case p.lead == leadMinor && p.s[0] == '-':
		p.lead = leadNone // C-5 is a major triad with a flat fifth
		p.altered[5] |= flat
		return
	}
	p.fail(at, 1, "A bare 5 is the power chord and takes no word before it.")
}

// sign takes the accidental of an altered degree, + and - among them.
func (p *suffixParser) sign() (bits uint8) {
	switch alter, size := accidental(p.s[p.i:]); {
	case size > 0 && (alter == 1 || alter == -1):
		p.i += size
		if alter > 0 {
			return sharp
		}
		return flat
	case p.eat("+"):
		return sharp
	case p.minus():
		return flat
	}
	return 0
}

// degree takes a degree and returns it with its second or fourth raised to the
// ninth or eleventh where the accidental asks for it; 0 when there is none.
func (p *suffixParser) degree(bits uint8) int {
	at := p.i
	d := 0
	switch p.digits() {
	case "2":
		d = 2
		if bits != natural {
			d = 9
		}
	case "3":
		d = 3
	case "4":
		d = 4
		if bits != natural {
			d = 11
		}
	case "5":
		d = 5
	case "6":
		d = 6
	case "9":
		d = 9
	case "11":
		d = 11
	case "13":
		d = 13
	}
	if d == 0 || bits == sharp && (d == 6 || d == 13) || bits == flat && (d == 11 || d == 3) || bits == sharp && d == 3 {
		p.i = at
		return 0
	}
	return d
}

// item takes one addition. Inside brackets a bare number is an added tone.
func (p *suffixParser) item(inside bool) {
	at := p.i
	switch {
	case !inside && p.eat("("):
		p.group(at)
	case p.word("add"):
		p.addition(at)
	case p.word("sus"):
		p.suspension(inside)
	case p.word("omit") || p.word("no"):
		p.omission(at)
	case p.word("alt"):
		p.alt = true
		if p.number == 0 && p.digits() != "7" {
			p.i = at + 3
		}
	case p.atMajor():
		p.majorSeventh(at)
	case p.number == 7 && p.lead == leadNone && (p.word("diminished") || p.word("dim")):
		p.lead = leadDim
	case p.number >= 7 && p.word("aug"):
		p.altered[5] |= sharp
	case inside && p.i < len(p.s) && p.s[p.i] >= '0' && p.s[p.i] <= '9':
		if d := p.degree(natural); d == 0 || d == 3 || d == 5 {
			p.unread(at)
		} else {
			p.added[d] |= natural
		}
	default:
		p.alteration(at)
	}
}

// unread fails on everything from at on.
func (p *suffixParser) unread(at int) {
	p.fail(at, len(p.s)-at, "No chord quality goes on like this.")
}

func (p *suffixParser) group(at int) {
	for p.fault == "" {
		p.item(true)
		switch {
		case p.fault != "":
		case p.eat(")"):
			return
		case p.i >= len(p.s):
			p.fail(at, len(p.s)-at, "The bracket is not closed.")
		default:
			for p.eat(",") || p.eat(" ") || p.eat("/") {
			}
		}
	}
}

func (p *suffixParser) addition(at int) {
	bits := p.sign()
	if bits == 0 {
		bits = natural
	}
	d := p.degree(bits)
	if d == 0 || d == 5 {
		p.fail(at, p.i-at, "A tone is added by its degree: add2, add4, add6, add9, add11, add13, or one of them with b or #.")
		return
	}
	p.added[d] |= bits
}

func (p *suffixParser) suspension(inside bool) {
	at := p.i
	switch p.digits() {
	case "":
		if inside && p.eat("(") {
			p.unread(at)
		}
		p.sus4 = true
	case "4":
		p.sus4 = true
	case "2":
		p.sus2 = true
	case "24", "42":
		p.sus2, p.sus4 = true, true
	case "7":
		p.sus4 = true
		p.susNumber(at, 7)
	case "9":
		p.sus4 = true
		p.susNumber(at, 9)
	case "13":
		p.sus4 = true
		p.susNumber(at, 13)
	default:
		p.fail(at, p.i-at, "A suspension is sus2, sus4 or sus24.")
	}
}

// susNumber reads sus9 as 9sus4.
func (p *suffixParser) susNumber(at, n int) {
	if p.number != 0 || p.lead != leadNone {
		p.fail(at, p.i-at, "A suspension is sus2, sus4 or sus24.")
		return
	}
	p.number = n
}

func (p *suffixParser) omission(at int) {
	switch p.digits() {
	case "3":
		p.no3 = true
	case "5":
		p.no5 = true
	default:
		p.fail(at, len(p.s)-at, "Only the third or the fifth is left out: no3, no5.")
		return
	}
	_ = p.eat("rd") || p.eat("th")
}

// majorSeventh reads maj7 after a minor, diminished or augmented triad.
func (p *suffixParser) majorSeventh(at int) {
	triangle := p.triangle()
	if !triangle {
		p.majorWord()
	}
	d := p.digits()
	n := [...]string{7: "7", 9: "9", 11: "11", 13: "13"}
	number := 0
	for i, w := range n {
		if w != "" && w == d {
			number = i
		}
	}
	if number == 0 && triangle && d == "" {
		number = 7
	}
	switch {
	case number == 0:
		p.unread(at)
	case p.number == 0 && p.lead != leadMajor && p.lead != leadTriangle && p.lead != leadHalfDim && p.lead != leadDom:
		p.number, p.major7 = number, true
	case p.number == 7 && p.lead == leadDim && number == 7 && !p.major7:
		p.plus7 = true
	default:
		p.fail(at, p.i-at, "This chord has its seventh already.")
	}
}

func (p *suffixParser) alteration(at int) {
	plus := strings.HasPrefix(p.s[p.i:], "+")
	bits := p.sign()
	if bits == 0 {
		p.unread(at)
		return
	}
	d := p.degree(bits)
	switch {
	case d == 0 && plus:
		p.altered[5] |= sharp // 7+, 9+, m+
	case d == 0:
		p.i = at
		p.unread(at)
	case d == 6:
		p.added[6] |= bits // a minor sixth stands beside the fifth
	default:
		p.altered[d] |= bits
	}
}
