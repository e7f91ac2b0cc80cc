package harmony

import (
	"slices"
	"strings"
)

// Applied is a numeral with another one after its slash, such as V7/V: it is a chord of
// the key whose tonic the second one is.
type Applied struct {
	Target string   // what stands after the first slash: V, V/V
	Leads  Function // what the numeral does in the target's key
	Plagal bool     // the numeral is IV or iv
	Tonic  Name     // the root of the target, to which the chord should go on
	Home   bool     // the target is the key's own tonic: V/I is V
	// Over is the chord that was meant if the slash was meant to name a bass: F/G for
	// IV/V in C. OverWritten is how that is written here, IV/2; it is "" if the bass
	// would be the root, so that there is no such chord.
	Over        Chord
	OverWritten string
}

// Function is what the first numeral of an applied chord does in the target's key.
type Function uint8

// A chord that leads goes to the target by itself: V, vii°, and bII, which stands in for
// V. A chord that prepares goes to such a dominant: II, ii and iv. All others only pass.
// Handbooks of harmony give V, V7, vii°, vii°7 and viiø7 as applied chords, and ii and iv
// before them: common practice, no single source.
const (
	Passing Function = iota
	Preparing
	Leading
)

// ReadApplied takes an applied numeral apart. ok is false for anything else, and also for
// an applied numeral with a figure, a degree for its bass or a name: whoever writes V7/V/3,
// I64/V or Ger65/V knows what the slash means.
func ReadApplied(s string, k Key) (a Applied, ok bool) {
	if strings.IndexByte(s, '/') < 0 || len(s) > MaxSymbol || !looksNumeral(s) || isNoChord(s) {
		return a, false
	}
	p := numeralParser{s: s, end: len(s), home: k}
	if bass, _ := p.takeBass(); bass != "" {
		return a, false
	}
	local := p.takeTargets()
	if p.err != nil || p.end == len(s) {
		return a, false
	}
	c, _, figure := p.head(local)
	if p.err != nil || figure != 0 {
		return a, false
	}
	a.Target = s[p.end+1:]
	head := s[:p.end]
	r, _, ok := scanRoman(head)
	if !ok {
		return a, false
	}
	a.Leads = function(r, &c)
	a.Plagal = r.degree == 3 && r.alter == 0
	a.Tonic = k.readable(k.Tonic.Up(local.at.steps, local.at.semis))
	a.Home = local.at == place{}
	if bare, e := readNumeral(head, k); e == nil {
		a.Over, a.OverWritten = overBass(head, bare, a.Tonic, k)
	}
	return a, true
}

// function is what a numeral does in its key.
func function(r roman, c *Chord) Function {
	minor := slices.Contains(c.tones[:c.n], Tone{Degree: 3, Alter: -1, Semitones: 3})
	diminished := slices.Contains(c.tones[:c.n], Tone{Degree: 5, Alter: -1, Semitones: 6})
	switch {
	case r.degree == 4 && r.alter == 0 && !minor: // V, V7, V+
		return Leading
	case r.degree == 6 && r.alter >= 0 && minor && diminished: // vii°, viiø7
		return Leading
	case r.degree == 1 && r.alter == -1 && !minor: // bII7, N
		return Leading
	case r.degree == 1 && r.alter == 0, r.degree == 3 && r.alter == 0 && minor:
		return Preparing
	}
	return Passing
}

// overBass is a numeral over a bass note, as a chord and as written: F over G is IV/2 in
// C. The text is "" when the bass is the root.
func overBass(head string, c Chord, bass Name, k Key) (Chord, string) {
	if c.Root == bass {
		return Chord{}, ""
	}
	return withDegree(head, c, bass, k)
}

// withDegree is overBass for any bass: the root is the degree 1.
func withDegree(head string, c Chord, bass Name, k Key) (Chord, string) {
	steps, _ := c.Root.Interval(bass)
	for _, sign := range [...]string{"", "b", "#"} {
		try := head + "/" + sign + string(rune('1'+steps))
		if got, e := readNumeral(try, k); e == nil && got.Bass == bass {
			return got, try
		}
	}
	return Chord{}, ""
}

// OverTonic is the chord that a writer perhaps means by IV/1: IV over the key's tonic, and
// how that is written. The 1 counts in the chord, so what is written has its own root in
// the bass. ok is false for any other text.
func OverTonic(s string, k Key) (over Chord, written string, ok bool) {
	head, one := strings.CutSuffix(s, "/1")
	if !one || strings.ContainsRune(head, '/') || !looksNumeral(head) {
		return Chord{}, "", false
	}
	c, e := readNumeral(head, k)
	if e != nil {
		return Chord{}, "", false
	}
	over, written = overBass(head, c, k.Tonic, k)
	return over, written, written != ""
}

// Bare is the scale degree of the target, 1 to 7; 0 when it has an accidental or is itself
// applied.
func (a Applied) Bare() int {
	r, size, ok := scanRoman(a.Target)
	if !ok || size < len(a.Target) || r.alter != 0 || strings.Contains(a.Target, "/") {
		return 0
	}
	return r.degree + 1
}
