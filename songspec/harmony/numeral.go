package harmony

import "strings"

// A numeral is [accidentals] I to VII, then a chord suffix as letter symbols
// have it, then any number of /NUMERAL (applied to), then at most one /DEGREE
// (the bass). Conventions, those of pop and jazz charts:
//
//   - Upper case is major, lower case minor: the suffix of ii7 is m7. The 7 is
//     the minor seventh of a letter symbol, so I7 and bVII7 are dominant
//     sevenths; write Imaj7. iv6 is a minor triad with a sixth, not an inversion.
//   - b measures from the major scale in either mode: bVI is a major third below
//     the tonic in C major and in C minor. In minor, III, VI and VII without a
//     sign are those of the natural scale, so VI is bVI; vi and vii are raised,
//     as in the melodic scale; a # raises the natural scale's degree.
//   - V is major in minor too, as written; v is minor.
//   - After a slash a numeral is a key, V7/V; a number is the bass, I/5: the
//     chord's own tone of that degree, else the key's note there, else (for a
//     root outside the scale) that of the major scale on the root. With an
//     accidental it is measured from the major scale on the root: I/b7.
//   - 64, 65, 43 and 42 are the inversions they are everywhere, since no suffix
//     looks like them; N6 is bII over its third.
//
// The minor-mode degrees follow music21's default; the rest is common practice,
// no single source.

// romans are the numerals by degree, upper case.
var romans = [7]string{"I", "II", "III", "IV", "V", "VI", "VII"}

var allRomans = []string{"I", "i", "V", "v", "IV", "iv", "vi", "ii", "VI", "II", "iii", "III", "vii", "VII"}

// roman is one numeral without its suffix.
type roman struct {
	degree int // 0 to 6
	alter  int
	minor  bool // lower case
}

// scanRoman reads accidentals and a numeral at the start of s. size is 0 when
// there is none; ok is false when the letters are no numeral.
func scanRoman(s string) (r roman, size int, ok bool) {
	for {
		alter, took := accidental(s[size:])
		if took == 0 || r.alter*alter < 0 || r.alter+alter < -2 || r.alter+alter > 2 {
			break
		}
		r.alter, size = r.alter+alter, size+took
	}
	at := size
	upper, lower := false, false
	for size < len(s) && strings.IndexByte("IViv", s[size]) >= 0 {
		if s[size] >= 'a' {
			lower = true
		} else {
			upper = true
		}
		size++
	}
	if size == at {
		return roman{}, 0, false
	}
	r.minor = lower
	word := strings.ToUpper(s[at:size])
	for i, w := range romans {
		if w == word && upper != lower {
			r.degree = i
			return r, size, true
		}
	}
	return r, size, false
}

// root is the numeral's note in a key.
func (r roman) root(k Key) Name {
	semis := majorScale[r.degree] + r.alter
	if k.Minor {
		raised := r.alter == 0 && r.minor && (r.degree == 5 || r.degree == 6)
		if r.alter >= 0 && !raised {
			semis = minorScale[r.degree] + r.alter
		}
	}
	n, ok := k.Tonic.Up(r.degree, semis)
	if !ok || n.Alter < -1 || n.Alter > 1 {
		return k.Spell(n.PC())
	}
	return n
}

// numeralParser holds one symbol; end is where the part not yet read ends.
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

// ParseNumeral reads a Roman numeral in a key: "iv6", "bVI", "V7/V", "I/5". The
// error is a *SymbolError.
func ParseNumeral(s string, k Key) (Chord, error) {
	if isNoChord(s) {
		return NoChord(), nil
	}
	if len(s) > MaxSymbol {
		return Chord{}, tooLong(s)
	}
	p := numeralParser{s: s, end: len(s), home: k}
	c := p.parse()
	if p.err != nil {
		return Chord{}, p.err
	}
	return c, nil
}

func (p *numeralParser) parse() Chord {
	bass, bassAt := p.takeBass()
	local := p.takeTargets()
	if p.err != nil {
		return Chord{}
	}
	c, figure := p.head(local)
	switch {
	case p.err != nil:
	case figure != 0 && bass != "":
		p.fail(NoBass, bassAt, len(bass), "The figure before the slash has said the bass already.", p.s[:bassAt-1])
	case figure != 0:
		c.Bass = c.degreeNote(figure, local)
	case bass != "":
		c.Bass = p.bassNote(c, bass, bassAt, local)
	}
	return c
}

// lastSlash is the last slash outside brackets before the end.
func (p *numeralParser) lastSlash() int {
	i := strings.LastIndexByte(p.s[:p.end], '/')
	if i >= 0 && strings.IndexByte(p.s[i:p.end], ')') >= 0 {
		return -1
	}
	return i
}

// takeBass takes a degree after the last slash; the 9 of 6/9 is none.
func (p *numeralParser) takeBass() (digits string, at int) {
	slash := p.lastSlash()
	if slash < 1 {
		return "", 0
	}
	part := p.s[slash+1 : p.end]
	rest := part
	for {
		_, took := accidental(rest)
		if took == 0 {
			break
		}
		rest = rest[took:]
	}
	if rest == "" || strings.Trim(rest, "0123456789") != "" || part == "9" && p.s[slash-1] == '6' && !strings.HasSuffix(p.s[:slash], "6/9") {
		return "", 0
	}
	p.end = slash
	return part, slash + 1
}

// takeTargets takes the numerals after slashes, the outermost first, and
// returns the key they make a tonic of.
func (p *numeralParser) takeTargets() Key {
	type target struct {
		r        roman
		at, size int
	}
	var targets []target
	for slash := p.lastSlash(); slash >= 0; slash = p.lastSlash() {
		part := p.s[slash+1 : p.end]
		r, size, ok := scanRoman(part)
		switch {
		case size == 0 && p.suffixSlash(slash):
			slash = -1
		case size == 0:
			p.fail(NoBass, slash+1, p.end-slash-1,
				"After the slash of a numeral comes the degree in the bass, I/5, or the numeral of the chord it leads to, V7/V.",
				p.letterBass(slash))
			return Key{}
		case !ok:
			p.fail(NoRoot, slash+1, size, badRoman, p.s[:slash+1]+nearRoman(part[:size])+p.s[slash+1+size:])
			return Key{}
		case size < len(part):
			p.fail(NotApplied, slash+1+size, len(part)-size,
				"The numeral after the slash is a key and stands bare: only a major or a minor chord can be one.",
				p.s[:slash+1+size]+p.s[p.end:])
			return Key{}
		}
		if slash < 0 {
			break
		}
		targets = append(targets, target{r, slash + 1, size})
		p.end = slash
	}
	local := p.home
	for _, t := range targets {
		local = Key{Tonic: t.r.root(local), Minor: t.r.minor}
	}
	return local
}

// suffixSlash reports a slash that belongs to the suffix: 6/9 and m/maj7.
func (p *numeralParser) suffixSlash(slash int) bool {
	after := p.s[slash+1 : p.end]
	if after == "9" || strings.HasPrefix(after, "9") && !strings.HasPrefix(after, "9/") {
		return strings.HasSuffix(p.s[:slash], "6")
	}
	sp := suffixParser{s: after}
	return strings.HasSuffix(p.s[:slash], "m") && sp.atMajor()
}

// letterBass offers I/5 for I/G.
func (p *numeralParser) letterBass(slash int) string {
	n, size := scanName(p.s[slash+1 : p.end])
	if size == 0 || size != p.end-slash-1 {
		return ""
	}
	c, err := ParseNumeral(p.s[:slash], p.home)
	if err != nil {
		return ""
	}
	steps, _ := c.Root.Interval(n)
	for _, sign := range [...]string{"", "b", "#"} {
		try := p.s[:slash+1] + sign + string(rune('1'+steps))
		if got, err := ParseNumeral(try, p.home); err == nil && got.Bass == n {
			return try
		}
	}
	return ""
}

const badRoman = "A Roman numeral is I, II, III, IV, V, VI or VII, all capitals for major or all small for minor."

func nearRoman(s string) string {
	_, size, _ := scanRoman(s)
	at := size
	for at > 0 && strings.IndexByte("IViv", s[at-1]) >= 0 {
		at--
	}
	word := s[at:size]
	if r, _, ok := scanRoman(strings.ToUpper(word)); ok { // Iv: the first letter's case holds
		if word[0] >= 'a' {
			return s[:at] + strings.ToLower(romans[r.degree])
		}
		return s[:at] + romans[r.degree]
	}
	near := nearest(word, allRomans, 2)
	if near == "" {
		near = "I"
	}
	return s[:at] + near
}

// head reads the first numeral with its suffix. figure is the degree an
// inversion figure puts in the bass, 0 without one.
func (p *numeralParser) head(local Key) (c Chord, figure int) {
	s := p.s[:p.end]
	if strings.HasPrefix(s, "N") && (s == "N" || s == "N6") {
		c = p.build(roman{degree: 1, alter: -1}, local)
		k, _, _, _ := lookSuffix("")
		c.set(k)
		if s == "N6" {
			figure = 3
		}
		return c, figure
	}
	r, size, ok := scanRoman(s)
	switch {
	case size == 0:
		p.fail(NoRoot, 0, max(1, min(len(s), 1)), badRoman, "")
		return Chord{}, 0
	case !ok:
		p.fail(NoRoot, 0, size, badRoman, nearRoman(s[:size])+p.s[size:])
		return Chord{}, 0
	}
	c = p.build(r, local)
	rest := s[size:]
	k, fault, at, length := lookNumeralSuffix(rest, r.minor)
	if fault == "" {
		c.set(k)
		return c, 0
	}
	if k, figure, ok := figured(rest, r.minor); ok {
		c.set(k)
		return c, figure
	}
	suggest := ""
	if near := nearSuffix(rest); near != "" {
		if _, f, _, _ := lookNumeralSuffix(near, r.minor); f == "" {
			suggest = p.s[:size] + near + p.s[p.end:]
		}
	}
	p.fail(NoQuality, size+at, length, fault, suggest)
	return Chord{}, 0
}

func (p *numeralParser) build(r roman, local Key) Chord {
	root := r.root(local)
	if root.Alter < -1 || root.Alter > 1 {
		root = p.home.Spell(root.PC())
	}
	return Chord{Root: root, Bass: root}
}

func (c *Chord) set(k known) { c.Suffix, c.tones, c.n = k.suffix, k.tones, k.n }

// lookNumeralSuffix reads a numeral's suffix; lower case puts an m before one
// that names no minor or diminished triad itself.
func lookNumeralSuffix(rest string, minor bool) (k known, fault string, at, length int) {
	if !minor {
		return lookSuffix(rest)
	}
	p := suffixParser{s: rest}
	p.readLead()
	switch p.lead {
	case leadMinor, leadDim, leadHalfDim:
		return lookSuffix(rest)
	}
	if strings.HasPrefix(rest, "5") {
		return lookSuffix(rest)
	}
	k, fault, at, length = lookSuffix("m" + rest)
	if at--; at < 0 {
		at, length = 0, max(0, length-1)
	}
	return k, fault, at, length
}

// figured reads the inversion figures 64, 65, 43, 42 at the end of a suffix.
func figured(rest string, minor bool) (k known, degree int, ok bool) {
	if len(rest) < 2 {
		return known{}, 0, false
	}
	word, seventh := rest[:len(rest)-2], "7"
	switch rest[len(rest)-2:] {
	case "64":
		degree, seventh = 5, ""
	case "65":
		degree = 3
	case "43":
		degree = 5
	case "42":
		degree = 7
	default:
		return known{}, 0, false
	}
	switch word {
	case "", "o", "°", "ø", "dim", "+", "maj", "M", "m":
	default:
		return known{}, 0, false
	}
	k, fault, _, _ := lookNumeralSuffix(word+seventh, minor)
	return k, degree, fault == ""
}

// bassNote is the note of a bass degree, with or without accidentals.
func (p *numeralParser) bassNote(c Chord, digits string, at int, local Key) Name {
	alter, i := 0, 0
	for {
		a, took := accidental(digits[i:])
		if took == 0 {
			break
		}
		alter, i = alter+a, i+took
	}
	d := 0
	switch digits[i:] {
	case "1", "2", "3", "4", "5", "6", "7":
		d = int(digits[i] - '0')
	case "9":
		d = 2
	}
	if d == 0 || alter < -2 || alter > 2 {
		p.fail(NoBass, at, len(digits), "The degree in the bass is 1 to 7, with b or # if it needs one.", "")
		return Name{}
	}
	if i == 0 {
		return c.degreeNote(d, local)
	}
	return p.home.readable(c.Root.Up(d-1, degreeSemitones(d)+alter))
}

// readable respells a double accidental.
func (k Key) readable(n Name, ok bool) Name {
	if !ok || n.Alter < -1 || n.Alter > 1 {
		return k.Spell(n.PC())
	}
	return n
}

// degreeNote is the chord's own tone of a degree, else the key's note at that
// letter, else the major scale's on a root outside the key.
func (c Chord) degreeNote(d int, k Key) Name {
	for _, t := range c.tones[:c.n] {
		if int(t.Degree-1)%7 == d-1 {
			return k.readable(c.Root.Up(d-1, int(t.Semitones)))
		}
	}
	steps, semis := k.Tonic.Interval(c.Root)
	if k.scale()[steps] != semis {
		return k.readable(c.Root.Up(d-1, degreeSemitones(d)))
	}
	i := (steps + d - 1) % 7
	return k.readable(k.Tonic.Up(i, k.scale()[i]))
}

// ParseEither reads a letter symbol or a numeral and says which it was. The
// first character decides: a capital A to G is a letter symbol; I, V, i, v, or
// a flat or sharp before one of them, a numeral. So B is a note and bVI is not.
func ParseEither(s string, k Key) (c Chord, numeral bool, err error) {
	if !isNoChord(s) && looksNumeral(s) {
		c, err = ParseNumeral(s, k)
		return c, true, err
	}
	c, err = ParseChord(s)
	return c, false, err
}

func looksNumeral(s string) bool {
	if strings.HasPrefix(s, "N6") || s == "N" || strings.HasPrefix(s, "N/") {
		return true
	}
	for {
		_, took := accidental(s)
		if took == 0 {
			return s != "" && strings.IndexByte("IViv", s[0]) >= 0
		}
		s = s[took:]
	}
}
