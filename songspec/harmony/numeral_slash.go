package harmony

import "strings"

// lastSlash is the last slash outside brackets before the end.
func (p *numeralParser) lastSlash() int {
	i := strings.LastIndexByte(p.s[:p.end], '/')
	if i >= 0 && strings.IndexByte(p.s[i:p.end], ')') >= 0 {
		return -1
	}
	return i
}

// takeBass takes a degree after the last slash. A 9, 11 or 13 is an added tone.
func (p *numeralParser) takeBass() (digits string, at int) {
	slash := p.lastSlash()
	if slash < 1 {
		return "", 0
	}
	part := p.s[slash+1 : p.end]
	_, signs := accidentals(part)
	rest := part[signs:]
	if rest == "" || strings.Trim(rest, "0123456789") != "" || rest == "9" || rest == "11" || rest == "13" {
		return "", 0
	}
	p.end = slash
	return part, slash + 1
}

// takeTargets takes the numerals after slashes, the last one first, and returns the key
// that they lead to.
func (p *numeralParser) takeTargets() tonic {
	var targets []roman
	for slash := p.lastSlash(); slash >= 0; slash = p.lastSlash() {
		part := p.s[slash+1 : p.end]
		r, size, ok := scanRoman(part)
		if size == 0 && p.suffixSlash(slash) {
			break
		}
		switch {
		case size == 0:
			p.fail(NoBass, slash+1, p.end-slash-1,
				"After the slash of a numeral comes the degree in the bass, I/5, "+
					"or the numeral of the chord it leads to, V7/V.",
				p.letterBass(slash))
			return tonic{}
		case !ok:
			p.fail(NoRoot, slash+1, size, badRoman, p.s[:slash+1]+nearRoman(part[:size])+p.s[slash+1+size:])
			return tonic{}
		case size < len(part):
			p.fail(NotApplied, slash+1+size, len(part)-size,
				"The numeral after the slash is a key and stands bare: only a major or a minor chord can be one.",
				p.s[:slash+1+size]+p.s[p.end:])
			return tonic{}
		}
		targets = append(targets, r)
		p.end = slash
	}
	local := tonic{minor: p.home.Minor}
	for _, r := range targets {
		local = tonic{at: r.root(local), minor: r.minor}
	}
	return local
}

// suffixSlash reports a slash that belongs to the suffix: 6/9, 7/b9, m/maj7, and vii/o7 for
// viiø7.
func (p *numeralParser) suffixSlash(slash int) bool {
	after := p.s[slash+1 : p.end]
	_, signs := accidentals(after)
	for _, added := range [...]string{"9", "11", "13", "7M"} {
		if strings.HasPrefix(after[signs:], added) {
			return true
		}
	}
	sp := suffixParser{s: after}
	return sp.atMajor() || strings.HasPrefix(after, "o") && strings.Trim(p.s[:slash], "IViv#b♯♭") == ""
}

// letterBass offers I/5 for I/G.
func (p *numeralParser) letterBass(slash int) string {
	n, size := scanName(p.s[slash+1 : p.end])
	if size == 0 || size != p.end-slash-1 {
		return ""
	}
	c, e := readNumeral(p.s[:slash], p.home)
	if e != nil {
		return ""
	}
	_, written := withDegree(p.s[:slash], c, n, p.home)
	return written
}
