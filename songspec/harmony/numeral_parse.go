package harmony

import (
	"cmp"
	"slices"
	"strings"

	"plinth/songspec/wording"
)

// numeralParser reads one symbol from its end; end is where the part not yet read ends.
type numeralParser struct {
	s    string
	end  int
	home Key
	err  *SymbolError
}

func (p *numeralParser) fail(kind ErrorKind, at, length int, reason, suggest string) {
	if p.err == nil {
		p.err = &SymbolError{Kind: kind, Text: p.s, Offset: at, Length: length, Reason: reason, Suggest: suggest}
	}
}

func (p *numeralParser) parse() Chord {
	bass, bassAt := p.takeBass()
	local := p.takeTargets()
	if p.err != nil {
		return Chord{}
	}
	c, root, figure := p.head(local)
	low := root
	switch {
	case p.err != nil:
		return Chord{}
	case figure != 0 && bass != "":
		p.fail(NoBass, bassAt, len(bass), "The figure before the slash has said the bass already.", p.s[:bassAt-1])
	case figure != 0:
		low = local.degree(&c, root, figure)
	case bass != "":
		low = p.bassPlace(&c, root, local, bass, bassAt)
	}
	// The bass is spelled from the root, so that D/F# stays a third.
	c.Root = p.home.readable(p.home.Tonic.Up(root.steps, root.semis))
	c.Bass = c.Root
	if low != root {
		c.Bass = p.home.readable(c.Root.Up(low.from(root)))
	}
	return c
}

const badRoman = "A Roman numeral is I, II, III, IV, V, VI or VII, all capitals for major or all small for minor."

// nearRoman is the numeral that one in wrong letters was probably meant to be.
func nearRoman(s string) string {
	_, at := oneOrTwo(s)
	word := s[at:]
	near := cmp.Or(wording.Closest(word, allRomans, 2), "I")
	if upper := strings.ToUpper(word); slices.Contains(romans[:], upper) { // Iv: the first letter decides
		near = upper
		if word[0] >= 'a' {
			near = strings.ToLower(upper)
		}
	}
	return s[:at] + near
}

// head reads the first numeral with its suffix. figure is the degree that an inversion
// figure puts in the bass, 0 without one.
func (p *numeralParser) head(local tonic) (c Chord, root place, figure int) {
	s := p.s[:p.end]
	if n, ok := named[s]; ok {
		c, _ = lookSuffix(n.suffix(local))
		return c, n.root(local), n.bass
	}
	r, size, ok := scanRoman(s)
	switch {
	case size == 0:
		p.fail(NoRoot, 0, firstRune(s), badRoman, "")
		return c, root, 0
	case !ok:
		p.fail(NoRoot, 0, size, badRoman, nearRoman(s[:size])+p.s[size:])
		return c, root, 0
	}
	rest := s[size:]
	c, f := lookNumeralSuffix(rest, r.minor)
	if f != nil {
		if c, figure, ok = figured(rest, r.minor, local.majorSeventh(r.root(local))); !ok {
			if whole := p.fraction(); whole != "" {
				p.fail(NoQuality, p.end-1, 3, "The two figures of an inversion stand together: 64, 65, 43, 42.", whole)
				return c, root, 0
			}
			suggest := ""
			if near := nearSuffix(rest); near != "" {
				suggest = p.s[:size] + near + p.s[p.end:]
			}
			p.fail(NoQuality, size+f.at, f.length, f.why, suggest)
		}
	}
	return c, r.root(local), figure
}

// lookNumeralSuffix reads a numeral's suffix. A numeral in small letters adds the m, unless
// the suffix itself names a minor or diminished triad.
func lookNumeralSuffix(rest string, minor bool) (Chord, *fault) {
	p := suffixParser{s: rest}
	p.readLead()
	if !minor || p.lead.minor() || strings.HasPrefix(rest, "5") {
		return lookSuffix(rest)
	}
	c, f := lookSuffix("m" + rest)
	if f != nil && f.at > 0 {
		f.at--
	} else if f != nil {
		f.length = max(0, f.length-1)
	}
	return c, f
}

// majorSeventh reports whether the key's own seventh over a root is a major one.
func (k tonic) majorSeventh(root place) bool {
	steps, _ := root.from(k.at)
	i := (steps + 6) % 7
	_, semis := k.at.up(i, k.scale()[i]).from(root)
	return semis == 11
}

// figures are those of figured bass that no suffix looks like, by the degree that they put
// in the bass.
var figures = map[string]int{"64": 5, "65": 3, "43": 5, "42": 7, "54": 1}

// cutFigure parts a suffix at a figure: a word for the triad stands before it, and brackets
// after it. degree is 0 when there is none.
func cutFigure(rest string) (word, figure, brackets string, degree int) {
	end := len(rest)
	if i := strings.IndexAny(rest, "(["); i >= 0 {
		end = i
	}
	at := max(0, end-2)
	word, figure, brackets = rest[:at], rest[at:end], rest[end:]
	if !slices.Contains([]string{"", "o", "°", "ø", "/o", "dim", "+", "maj", "M", "m"}, word) ||
		figure == "54" && word != "" {
		return word, figure, brackets, 0
	}
	return word, figure, brackets, figures[figure]
}

// figured reads the figures 64, 65, 43 and 42 of inversions, and 54 of a suspended fourth
// over the root. They come from figured bass, so their seventh is the key's own: I42 is
// Imaj7/7.
func figured(rest string, minor, major7 bool) (c Chord, degree int, ok bool) {
	word, figure, brackets, degree := cutFigure(rest)
	if degree == 0 {
		return Chord{}, 0, false
	}
	above := "7"
	switch {
	case figure == "64" && (word == "ø" || word == "/o"):
		word, above = "o", "" // without its seventh it is diminished
	case figure == "64":
		above = ""
	case figure == "54":
		above = "sus4"
	case (word == "" || word == "+") && !minor && major7:
		above = "maj7"
	}
	c, f := lookNumeralSuffix(word+above+brackets, minor)
	return c, degree, f == nil
}

// fraction offers V43 for V4/3, a figure written as a fraction; "" for any other symbol.
func (p *numeralParser) fraction() string {
	over, _, _ := strings.Cut(p.s[min(p.end+1, len(p.s)):], "/")
	if !strings.HasSuffix(p.s[:p.end], "4") || figures["4"+over] == 0 {
		return ""
	}
	return p.s[:p.end] + p.s[p.end+1:]
}

// bassPlace is the place of a bass degree, which may have accidentals.
func (p *numeralParser) bassPlace(c *Chord, root place, local tonic, digits string, at int) place {
	alter, i := accidentals(digits)
	d := strings.Index("123456789", digits[i:]) + 1
	switch {
	case len(digits)-i != 1 || d < 1 || d > 7 || alter < -2 || alter > 2:
		p.fail(NoBass, at, len(digits), "The degree in the bass is 1 to 7, with b or # if it needs one.", "")
		return root
	case i == 0:
		return local.degree(c, root, d)
	}
	return root.up(d-1, degreeSemitones(d)+alter)
}
