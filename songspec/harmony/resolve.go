package harmony

// check refuses what can be read but means nothing.
func (p *suffixParser) check() {
	all := len(p.s)
	switch {
	case p.lead == leadDom && p.number < 7:
		p.fail(0, all, "A dominant chord has a number: 7, 9, 11 or 13.")
	case p.lead == leadHalfDim && p.number == 6:
		p.fail(0, all, "A half-diminished chord has a seventh, not a sixth.")
	case p.alt && (p.lead != leadNone && p.lead != leadDom || p.number != 0 && p.number != 7 || p.sus2|p.sus4 != 0 ||
		p.altered != [14]uint8{} || p.added != [14]uint8{}):
		p.fail(0, all, "An altered chord is 7alt and nothing else; or write its alterations one by one.")
	case (p.lead == leadDim || p.lead == leadHalfDim) && p.sus2|p.sus4 != 0:
		p.fail(0, all, "A diminished chord is made by its third and cannot be suspended.")
	}
}

// altChord is what plinth plays for 7alt: one altered fifth and one altered ninth. Players
// choose among the altered tones: common practice, no single source.
var altChord = quality{deg: [14]uint8{1: natural, 3: natural, 5: sharp, 7: flat, 9: sharp}, alt: true}

// resolve works out the tones. Where the reference libraries differ, it follows
// testdata/reference/chord_choices.csv.
func (p *suffixParser) resolve() quality {
	if p.alt {
		return altChord
	}
	if p.add3 { // the third is there, so a second or fourth is added to it
		p.added[2] |= p.sus2
		p.added[4] |= p.sus4
		p.sus2, p.sus4 = 0, 0
	}
	var q quality
	q.deg[1] = natural
	minor := p.lead.minor()
	p.third(&q, minor)
	p.fifth(&q)
	p.sevenths(&q)
	p.extensions(&q, minor)
	p.additions(&q)
	for d, out := range p.no {
		if out {
			q.deg[d] = 0
		}
	}
	q.merge()
	return q
}

func (p *suffixParser) third(q *quality, minor bool) {
	switch {
	case p.number == 5:
	case p.sus2|p.sus4 != 0:
		q.deg[2], q.deg[4] = p.sus2, p.sus4
	case minor:
		q.deg[3] = flat
	default:
		q.deg[3] = natural
	}
}

// fifth sets the fifth. An altered fifth takes the place of the natural one, and so does a
// b13, with which both reference libraries leave the natural fifth out.
func (p *suffixParser) fifth(q *quality) {
	switch {
	case p.lead == leadDim || p.lead == leadHalfDim:
		q.deg[5] = flat | p.altered[5]
	case p.lead == leadAug:
		q.deg[5] = sharp | p.altered[5]
	case p.altered[5] != 0:
		q.deg[5] = p.altered[5]
	case p.altered[13] == 0:
		q.deg[5] = natural
	}
}

func (p *suffixParser) sevenths(q *quality) {
	switch {
	case p.number < 7 && p.lead == leadHalfDim:
		q.deg[7] = flat
	case p.number < 7 && !(p.lead == leadTriangle && p.major7):
	case p.major7:
		q.deg[7] = natural
	case p.lead == leadDim:
		q.deg[7] = dflat
	default:
		q.deg[7] = flat
	}
	if p.plus7 {
		q.deg[7] |= natural
	}
	if p.number == 6 {
		q.deg[6] = natural
	}
}

// extensions adds the ninth, eleventh and thirteenth that the number stands for. An 11
// leaves out the major third, with which it clashes; a 13 has the eleventh only over a
// minor third. Common practice, no single source.
func (p *suffixParser) extensions(q *quality, minor bool) {
	if p.number >= 9 || p.nine {
		q.deg[9] = natural
	}
	if p.number == 11 || p.number == 13 && minor {
		q.deg[11] = natural
	}
	if p.number == 13 {
		q.deg[13] = natural
	}
	for _, d := range [...]int{9, 11, 13} {
		if p.altered[d] != 0 {
			q.deg[d] = p.altered[d]
		}
	}
	if p.number == 11 && q.has(3, natural) && q.has(11, natural) {
		q.deg[3] = 0
	}
}

// additions adds the added tones. Over a seventh a second, fourth or sixth is the ninth,
// eleventh or thirteenth; over a sixth a second is the ninth of 6/9.
func (p *suffixParser) additions(q *quality) {
	six := p.number == 6 || p.added[6]&natural != 0
	for d, bits := range p.added {
		if bits&natural != 0 && (d == 2 || d == 4 || d == 6) && q.deg[7] != 0 || d == 2 && bits != 0 && six {
			q.deg[d+7] |= natural
			bits &^= natural
		}
		q.deg[d] |= bits
	}
}
