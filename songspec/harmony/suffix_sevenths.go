package harmony

import "strings"

// sevenths are the numbers with a seventh in them.
var sevenths = map[string]int{"7": 7, "9": 9, "11": 11, "13": 13}

// latinSeventh takes the word for major after a number: 7M is maj7 in Latin countries.
func (p *suffixParser) latinSeventh() {
	at := p.i
	switch {
	case !p.majorWord():
	case p.i < len(p.s) && p.s[p.i] >= '0' && p.s[p.i] <= '9': // 9maj7 says which seventh by itself
		p.i = at
	case p.lead == leadMajor || p.lead == leadTriangle || p.lead == leadHalfDim || p.lead == leadDom:
		p.fail(at, p.i-at, hasSeventh)
	default:
		p.major7 = true
	}
}

const hasSeventh = "This chord has its seventh already."

// majorSeventh reads maj7, the word first.
func (p *suffixParser) majorSeventh(at int) {
	triangle := p.triangle()
	if !triangle {
		p.majorWord()
	}
	d := p.digits()
	number := sevenths[d]
	if triangle && d == "" {
		number = 7
	}
	if number == 0 {
		p.unread(at)
		return
	}
	p.takeSeventh(at, number, true)
}

// takeSeventh gives a seventh, with what the number stands for besides, to a chord that has
// none, and makes the seventh of 9, 11 and 13 a major one: m9(maj7).
func (p *suffixParser) takeSeventh(at, number int, major bool) {
	plain := p.lead == leadNone || p.lead == leadMinor || p.lead == leadAug
	switch {
	case p.number == 0 && (plain || p.lead == leadDim && major):
	case p.number == 5:
		p.no[3] = true
	case p.number == 6 && (plain || p.lead == leadMajor && major):
		p.added[13] |= natural
		if p.nine {
			p.added[9] |= natural
		}
		p.nine = false
	case p.number >= 9 && plain && number == 7 && major && !p.major7:
		number = p.number
	case p.number >= 7 && p.lead == leadDim && number == 7 && major && !p.major7:
		p.plus7 = true
		return
	default:
		p.fail(at, p.i-at, hasSeventh)
		return
	}
	p.number, p.major7 = number, major
}

// signedSeventh takes the 7 of (#7) and (b7), and of m+7 and m-7 where + and - cannot say
// what the triad is. It reports whether there was one.
func (p *suffixParser) signedSeventh(at int, bits uint8) bool {
	sign := p.s[at:p.i]
	if rest := p.s[p.i:]; !strings.HasPrefix(rest, "7") || len(rest) > 1 && rest[1] >= '0' && rest[1] <= '9' ||
		!p.lead.minor() && !strings.ContainsAny(sign, "#b♯♭") {
		return false
	}
	p.i++
	p.takeSeventh(at, 7, bits == sharp)
	return true
}

// slashed reads what is added after a slash: a ninth, eleventh or thirteenth, 5- and 5+, and
// the seventh of sus4/7 and 6/7M. Other figures are more often meant for the bass.
func (p *suffixParser) slashed(at int) {
	if p.atMajor() {
		p.majorSeventh(at)
		return
	}
	start := p.i
	bits := p.sign()
	digits := p.digits()
	seventh := digits == "7" && bits == 0 && (p.sus2|p.sus4 != 0 || p.number == 6 || p.atMajor())
	signed := strings.IndexAny(p.s[p.i:], "+-−–") == 0
	p.i = start
	switch {
	case !seventh && digits != "9" && digits != "11" && digits != "13" && !(digits == "5" && bits == 0 && signed):
		p.unread(at)
	case bits != 0:
		p.alteration(at)
	default:
		p.figure(at)
	}
}

// figure reads a number in brackets or after a slash: it adds that tone and no other. A sign
// may follow it, as Latin countries write it.
func (p *suffixParser) figure(at int) {
	start := p.i
	if number := sevenths[p.digits()]; number != 0 && p.majorWord() {
		p.takeSeventh(at, number, true)
		return
	} else if number == 7 {
		p.takeSeventh(at, 7, false)
		return
	}
	p.i = start
	d := p.degree(natural)
	switch {
	case (d == 5 || d == 9 || d == 13) && p.minus():
		p.altered[d] |= flat
	case (d == 5 || d == 11) && p.eat("+"):
		p.altered[d] |= sharp
	case d == 0 || d == 3 || d == 5:
		p.unread(at)
	default:
		p.added[d] |= natural
	}
}
