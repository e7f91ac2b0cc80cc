package harmony

import (
	"fmt"
	"strconv"
	"strings"

	"plinth/songspec/wording"
)

// sign takes the accidental of an altered degree, which may be + or -.
func (p *suffixParser) sign() (bits uint8) {
	switch {
	case p.eat("#") || p.eat("♯") || p.eat("+"):
		return sharp
	case p.eat("b") || p.eat("♭") || p.minus():
		return flat
	}
	return 0
}

// degree takes a degree that can have the alteration in bits; 0 when there is none. An
// altered second or fourth is the ninth or eleventh.
func (p *suffixParser) degree(bits uint8) int {
	at := p.i
	d := degrees[p.digits()]
	if bits != natural && (d == 2 || d == 4) {
		d += 7
	}
	if d == 0 || bits != natural && d == 3 || bits == sharp && (d == 6 || d == 13) || bits == flat && d == 11 {
		p.i = at
		return 0
	}
	return d
}

var degrees = map[string]int{"2": 2, "3": 3, "4": 4, "5": 5, "6": 6, "9": 9, "11": 11, "13": 13}

// item takes one addition. Inside brackets a number alone is an added tone.
func (p *suffixParser) item(inside bool) {
	at := p.i
	switch {
	case !inside && p.eat("("):
		p.group(at, ")")
	case !inside && p.eat("["):
		p.group(at, "]")
	case !inside && p.eat("/"):
		p.slashed(at)
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
		p.figure(at)
	default:
		p.alteration(at)
	}
}

// unread fails on everything from at on.
func (p *suffixParser) unread(at int) {
	if at > 0 && strings.Trim(p.s[at:], "b#♭♯+-") == "" {
		p.fail(at, len(p.s)-at, "A sign stands in front of its tone, as in C7b9 and C7#11.")
		return
	}
	p.fail(at, len(p.s)-at, fmt.Sprintf("%q is no chord quality here.", wording.Clip(p.s[at:], 12)))
}

const openBracket = "The bracket is not closed."

func (p *suffixParser) group(at int, end string) {
	for p.fault == nil {
		p.item(true)
		switch {
		case p.eat(end):
			return
		case p.i >= len(p.s):
			p.fail(at, len(p.s)-at, openBracket)
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
		p.fail(at, p.i-at, "A tone is added by its degree: add2, add4, add6, add9, add11, add13, "+
			"or one of them with b or #.")
		return
	}
	if d == 3 { // a suspension with its third: 7sus4add3
		if p.sus2|p.sus4 == 0 || bits != natural {
			p.fail(at, p.i-at, "A third is added only to a suspended chord.")
		}
		p.add3 = true
		return
	}
	p.added[d] |= bits
}

func (p *suffixParser) suspension(inside bool) {
	at := p.i
	figure := p.digits()
	if strings.Contains(figure, "2") {
		p.sus2 = natural
	}
	if figure != "2" {
		p.sus4 = natural
	}
	switch figure {
	case "":
		if inside && p.eat("(") {
			p.unread(at)
		}
	case "4", "2", "24", "42":
	case "7", "9", "13": // sus9 and 7sus9 are 9sus4
		n := sevenths[figure]
		if p.number == 0 && p.lead == leadNone || p.number >= 7 && p.number < n {
			p.number = n
			return
		}
		fallthrough
	default:
		p.fail(at, p.i-at, "A suspension is sus2, sus4 or sus24.")
	}
}

func (p *suffixParser) omission(at int) {
	d, _ := strconv.Atoi(p.digits())
	switch {
	case d == 3 || d == 5:
	case (d == 7 || d == 9 || d == 11) && d < p.number:
	default:
		p.fail(at, len(p.s)-at, "Only the third, the fifth, or a tone that a higher number has brought along is left "+
			"out: no3, no5, 13(no9).")
		return
	}
	p.no[d] = true
	_ = p.eat("rd") || p.eat("th")
}

func (p *suffixParser) alteration(at int) {
	plus := strings.HasPrefix(p.s[p.i:], "+")
	bits := p.sign()
	if bits == 0 {
		p.unread(at)
		return
	}
	if p.signedSeventh(at, bits) {
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
