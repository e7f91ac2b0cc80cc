package harmony

import "strings"

// suffixParser reads the part of a chord symbol after its root: a word for the triad (the
// lead), a number, then additions in any order.
type suffixParser struct {
	s string
	i int

	lead    lead
	number  int  // 0, 5, 6, 7, 9, 11, 13
	nine    bool // a ninth written with a six: 69, 6/9
	major7  bool
	plus7   bool // a major seventh beside a diminished one: o7M7
	alt     bool
	sus2    uint8 // natural where it is there
	sus4    uint8
	add3    bool
	no      [14]bool  // left out, by degree
	altered [14]uint8 // alterations: they replace the natural tone
	added   [14]uint8 // additions: they stand beside it

	fault *fault
}

// fault is what is wrong with some bytes of a suffix, in a sentence.
type fault struct {
	why        string
	at, length int
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

// minor reports a lead with a minor third.
func (l lead) minor() bool { return l == leadMinor || l == leadDim || l == leadHalfDim }

// parseSuffix reads a whole suffix.
func parseSuffix(s string) (quality, *fault) {
	p := suffixParser{s: s}
	p.readLead()
	p.readNumber()
	for p.fault == nil && p.i < len(p.s) {
		p.item(false)
	}
	p.check()
	if p.fault != nil {
		return quality{}, p.fault
	}
	q := p.resolve()
	if _, n := q.tones(); n > MaxTones {
		p.fail(0, len(s), "A chord has at most 8 tones.")
	} else if n < 2 {
		p.fail(0, len(s), "A chord has at least one tone besides its root.")
	}
	return q, p.fault
}

func (p *suffixParser) fail(at, length int, why string) {
	if p.fault == nil {
		p.fault = &fault{why, at, length}
	}
}

// eat takes a token if it comes next.
func (p *suffixParser) eat(token string) bool {
	if strings.HasPrefix(p.s[p.i:], token) {
		p.i += len(token)
		return true
	}
	return false
}

// word takes a word if it comes next: in small letters, with a capital first letter, or in
// capitals, as hand-written chart fonts print it.
func (p *suffixParser) word(w string) bool {
	if p.i == len(p.s) || p.s[p.i]|0x20 != w[0] {
		return false // before the work below, most of the time
	}
	return p.eat(w) || p.eat(strings.ToUpper(w[:1])+w[1:]) || p.eat(strings.ToUpper(w))
}

func (p *suffixParser) minus() bool { return p.eat("-") || p.eat("−") || p.eat("–") }

func (p *suffixParser) triangle() bool {
	return p.eat("Δ") || p.eat("∆") || p.eat("△") || p.eat("^")
}

// majorWord takes a word for major if it comes next. "ma" is none in "madd9" and "maug".
func (p *suffixParser) majorWord() bool {
	if p.word("major") || p.word("maj") {
		return true
	}
	if at := p.i; p.word("ma") {
		if rest := (suffixParser{s: p.s, i: p.i}); !rest.word("dd") && !rest.word("ug") && !rest.word("lt") {
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
	case p.word("halfdim") || p.word("half-dim") || p.word("hdim") || p.eat("ø") || p.eat("Ø") || p.eat("∅") ||
		p.eat("h"):
		p.lead = leadHalfDim
	case p.word("diminished") || p.word("dim"):
		p.lead = leadDim
		p.eat(".")
	case p.eat("/o"): // typed for ø
		p.lead = leadHalfDim
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
}

// atMajor reports whether a word for major comes next.
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

// readNumber takes the number after the lead: 2, 5, 6, 7, 9, 11, 13, 67 or 69.
func (p *suffixParser) readNumber() {
	at := p.i
	d := p.digits()
	switch d {
	case "":
		if p.lead == leadDom {
			p.number = 7
		}
		return
	case "7", "9", "11", "13":
		p.number = sevenths[d]
		p.latinSeventh()
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
		p.five(at)
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

// bareFour is a fault of its own: of the two reference libraries one reads a suspension,
// the other a chord of fourths.
const bareFour = "A bare 4 says neither a suspended nor an added fourth: sus4 or add4 does."

// five reads a 5 after the lead: in "+5" and "-5" what was taken for the lead is the
// fifth's accidental. In "5+" and "5-" it follows.
func (p *suffixParser) five(at int) {
	switch {
	case p.lead == leadNone && p.s[p.i:] == "+":
		p.lead = leadAug
		p.i++
		return
	case p.lead == leadNone && p.minus() && p.i == len(p.s):
		p.altered[5] |= flat
		return
	case p.lead == leadNone:
		p.i = at + 1
		p.number = 5
		return
	case p.lead == leadAug && p.s[0] == '+':
		return // C+5 is C+
	case p.lead == leadMinor && p.s[0] == '-':
		p.lead = leadNone // C-5 is a major triad with a flat fifth
		p.altered[5] |= flat
		return
	}
	p.fail(at, 1, "A bare 5 is the power chord and takes no word before it.")
}
