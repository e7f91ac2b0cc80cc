package harmony

import (
	"strings"
	"sync"
)

// noChord is the symbol of a silent harmony.
const noChord = "N.C."

// NoChord is N.C.: there is no chord for the band to play.
func NoChord() Chord { return Chord{None: true} }

func isNoChord(s string) bool {
	return s == noChord || s == "NC" || s == "N.C" || s == "n.c."
}

// commonSuffixes is built once from commonSpellings and never changed. Most chords of a
// song are found in it without parsing. Its chords have no root yet.
var commonSuffixes = sync.OnceValue(func() map[string]Chord {
	m := make(map[string]Chord, len(commonSpellings))
	for _, s := range commonSpellings {
		c, f := readSuffix(s)
		if f != nil {
			panic("harmony: common spelling " + s + ": " + f.why)
		}
		m[s] = c
	}
	return m
})

// lookSuffix reads a suffix; the chord has no root yet.
func lookSuffix(s string) (Chord, *fault) {
	if c, ok := commonSuffixes()[s]; ok {
		return c, nil
	}
	return readSuffix(s)
}

func readSuffix(s string) (Chord, *fault) {
	q, f := parseSuffix(s)
	if f != nil {
		return Chord{}, f
	}
	tones, n := q.tones()
	return Chord{Suffix: q.suffix(), tones: tones, n: int8(n)}, nil
}

// splitBass finds the slash of a slash chord: the last one outside brackets that has a
// note after it. slash is -1 when there is none.
func splitBass(s string) (slash int, bass Name) {
	i := strings.LastIndexByte(s, '/')
	if i < 0 || strings.LastIndexByte(s, ')') > i {
		return -1, Name{}
	}
	n, size := scanName(s[i+1:])
	if size == 0 || size < len(s)-i-1 {
		return -1, Name{}
	}
	return i, n
}

// ParseChord reads a letter symbol of at most MaxSymbol bytes: "Cm7b5/Gb", "N.C.". The
// bass after the slash need not be a tone of the chord. The error is a *SymbolError.
func ParseChord(s string) (Chord, error) {
	if isNoChord(s) {
		return NoChord(), nil
	}
	if len(s) > MaxSymbol {
		return Chord{}, tooLong(s)
	}
	c, err := parseEnglish(s)
	if err != nil {
		if e := foreignChord(s); e != nil {
			err = e
		}
	}
	return c, err
}

// parseEnglish reads a letter symbol other than N.C., and knows of no other tongue.
func parseEnglish(s string) (Chord, error) {
	root, size := scanName(s)
	if size == 0 {
		return Chord{}, noRoot(s)
	}
	low, end := root, len(s)
	if slash, bass := splitBass(s); slash >= size {
		low, end = bass, slash
	}
	c, f := lookSuffix(s[size:end])
	if f != nil {
		return Chord{}, badSuffix(s, size, end, f)
	}
	c.Root, c.Bass = root, low
	return c, nil
}

// String is the symbol in plinth's own spelling: "Cm7b5/Gb", "N.C.".
// ParseChord reads it back to the same chord.
func (c Chord) String() string {
	if c.None {
		return noChord
	}
	s := c.Root.String() + c.Suffix
	if c.Bass != c.Root {
		s += "/" + c.Bass.String()
	}
	return s
}

// Tones are the chord's tones from the root up, in the order of their degrees; nil for
// N.C. A slash bass is not added to them. Alter is measured from the major scale on the
// root, so a diminished seventh has -2.
func (c Chord) Tones() []Tone {
	return append([]Tone(nil), c.tones[:c.n]...)
}

// Transpose moves a chord from one key to another and spells it for the new key. Root
// and bass keep their letter distance from the tonic if that needs one accidental at most,
// and no B#, E#, Cb or Fb that the new key does not have. Otherwise they take the new
// key's own name for the pitch. A bass that is a tone of the chord is spelled from the
// root. The modes of the keys do not matter. Common practice, no single source.
func (c Chord) Transpose(from, to Key) Chord {
	if c.None || from.Tonic == to.Tonic {
		return c
	}
	old := c.Root
	c.Root = move(c.Root, from, to)
	switch {
	case c.Bass == old:
		c.Bass = c.Root
	case c.has(old, c.Bass):
		steps, semis := old.Interval(c.Bass)
		c.Bass = to.readable(c.Root.Up(steps, semis))
	default:
		c.Bass = move(c.Bass, from, to)
	}
	return c
}

// move transposes a name from one key to another.
func move(n Name, from, to Key) Name {
	steps, semis := from.Tonic.Interval(n)
	up, ok := to.Tonic.Up(steps, semis)
	if !ok || up.awkward() && !to.calls(up) {
		return to.Spell(up.PC())
	}
	return up
}

// has reports whether a name is a tone of the chord on root, spelled as such.
func (c Chord) has(root, n Name) bool {
	steps, semis := root.Interval(n)
	for _, t := range c.tones[:c.n] {
		if int(t.Semitones) == semis && int(t.Degree-1)%7 == steps {
			return true
		}
	}
	return false
}

// ToneCount is the number of tones, 0 for N.C.
func (c Chord) ToneCount() int { return int(c.n) }

// Tone is the i-th tone of Tones, without a copy of the others.
func (c Chord) Tone(i int) Tone { return c.tones[:c.n][i] }

// PCSet is the pitch classes of Tones as bits: bit 0 is C, bit 11 is B.
func (c Chord) PCSet() uint16 {
	var set uint16
	for _, t := range c.tones[:c.n] {
		set |= 1 << mod12(c.Root.PC()+int(t.Semitones))
	}
	return set
}

// Spell is the name of a tone of the chord by the letter of its degree: the third of Ab
// minor is Cb. Where that needs more than a double accidental, it is the plain name.
func (c Chord) Spell(t Tone) Name {
	n, _ := c.Root.Up(int(t.Degree-1), int(t.Semitones))
	return n
}
