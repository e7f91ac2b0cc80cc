package harmony

import "testing"

// added are spellings of charts in Latin countries, sevenths that a sign or a bracket raises,
// and tones added after a slash. Common practice, no single source; the symbol at the right is
// plinth's own, and the tones stand beside it.
var added = []struct{ in, want, tones string }{
	{"C7M", "Cmaj7", "C E G B"},
	{"C9M", "Cmaj9", "C E G B D"},
	{"C7maj", "Cmaj7", "C E G B"},
	{"C7M(9)", "Cmaj9", "C E G B D"},
	{"C7M/9", "Cmaj9", "C E G B D"},
	{"C7M(#11)", "Cmaj7#11", "C E G B F#"},
	{"C7M#11", "Cmaj7#11", "C E G B F#"},
	{"C7M/13", "Cmaj7add13", "C E G B A"},
	{"C7M(#5)", "Cmaj7#5", "C E G# B"},
	{"C+7M", "Cmaj7#5", "C E G# B"},
	{"Cm7M", "Cm(maj7)", "C Eb G B"},
	{"Cm(7M)", "Cm(maj7)", "C Eb G B"},
	{"Cm7M/9", "Cm(maj9)", "C Eb G B D"},
	{"C°7M", "Cdim(maj7)", "C Eb Gb B"},
	{"C/7M", "Cmaj7", "C E G B"},
	{"Cm9(maj7)", "Cm(maj9)", "C Eb G B D"},
	{"Cm11(maj7)", "Cm(maj11)", "C Eb G B D F"},
	{"C9(maj7)", "Cmaj9", "C E G B D"},
	{"Cm(#7)", "Cm(maj7)", "C Eb G B"},
	{"Cm#7", "Cm(maj7)", "C Eb G B"},
	{"Cm+7", "Cm(maj7)", "C Eb G B"},
	{"Cm(+7)", "Cm(maj7)", "C Eb G B"},
	{"C-#7", "Cm(maj7)", "C Eb G B"},
	{"C(#7)", "Cmaj7", "C E G B"},
	{"C+7", "C7#5", "C E G# Bb"},
	{"Cm-7", "Cm7", "C Eb G Bb"},
	{"Cm(b7)", "Cm7", "C Eb G Bb"},
	{"C(7)", "C7", "C E G Bb"},
	{"C5(b7)", "C7no3", "C G Bb"},
	{"C6(maj7)", "Cmaj7add13", "C E G B A"},
	{"C6/7M", "Cmaj7add13", "C E G B A"},
	{"C6/7", "C7add13", "C E G Bb A"},
	{"Cm6(maj7)", "Cm(maj7)add13", "C Eb G B A"},
	{"C6/9(maj7)", "Cmaj13", "C E G B D A"},
	{"C7/9", "C9", "C E G Bb D"},
	{"C7/b9", "C7b9", "C E G Bb Db"},
	{"C7/#9", "C7#9", "C E G Bb D#"},
	{"C7/#11", "C7#11", "C E G Bb F#"},
	{"C7/13", "C7add13", "C E G Bb A"},
	{"C7/b13", "C7b13", "C E Bb Ab"},
	{"C7/9/13", "C13", "C E G Bb D A"},
	{"C7/b9/b13", "C7b9b13", "C E Bb Db Ab"},
	{"C7b9/13", "C13b9", "C E G Bb Db A"},
	{"C9/13", "C13", "C E G Bb D A"},
	{"Cmaj7/9", "Cmaj9", "C E G B D"},
	{"Cm7/9", "Cm9", "C Eb G Bb D"},
	{"Cm7/11", "Cm7add11", "C Eb G Bb F"},
	{"Cm7/9/11", "Cm11", "C Eb G Bb D F"},
	{"C/9", "Cadd9", "C E G D"},
	{"Cm/9", "Cmadd9", "C Eb G D"},
	{"C6/9/11", "C6/9add11", "C E G A D F"},
	{"C7/5-", "C7b5", "C E Gb Bb"},
	{"C7/5+", "C7#5", "C E G# Bb"},
	{"C7/9-", "C7b9", "C E G Bb Db"},
	{"C7(5-)", "C7b5", "C E Gb Bb"},
	{"C7(9-/13-)", "C7b9b13", "C E Bb Db Ab"},
	{"C7(11+)", "C7#11", "C E G Bb F#"},
	{"Cm7/5-", "Cm7b5", "C Eb Gb Bb"},
	{"C5+", "Caug", "C E G#"},
	{"C5-", "C(b5)", "C E Gb"},
	{"Csus4/7", "C7sus4", "C F G Bb"},
	{"Csus4(7)", "C7sus4", "C F G Bb"},
	{"Csus4(b7)", "C7sus4", "C F G Bb"},
	{"Csus4/7/9", "C9sus4", "C F G Bb D"},
	{"Csus4/9", "Csus4add9", "C F G D"},
	{"Csus2/7", "C7sus2", "C D G Bb"},
	{"C7sus9", "C9sus4", "C F G Bb D"},
	{"C7sus13", "C13sus4", "C F G Bb D A"},
	{"C9sus13", "C13sus4", "C F G Bb D A"},
	{"C13(no9)", "C7add13", "C E G Bb A"},
	{"C13(no11)", "C13", "C E G Bb D A"},
	{"Cm13(no9)", "Cm7add11add13", "C Eb G Bb F A"},
	{"Cm11(no9)", "Cm7add11", "C Eb G Bb F"},
	{"C9(no7)", "Cadd9", "C E G D"},
	{"C7[b9]", "C7b9", "C E G Bb Db"},
	{"C7[b9/b13]", "C7b9b13", "C E Bb Db Ab"},
	{"C/o7", "Cm7b5", "C Eb Gb Bb"},
}

func TestAddedSpellings(t *testing.T) {
	for _, r := range added {
		c := mustChord(t, r.in)
		if c.String() != r.want || spelledTones(c) != r.tones {
			t.Errorf("%s is %s, %s; want %s, %s", r.in, c, spelledTones(c), r.want, r.tones)
		}
		checkChord(t, r.in, c)
	}
}

// After a slash a figure is an added tone and a letter the bass, also one after the other.
func TestFigureAndBass(t *testing.T) {
	for _, r := range []struct{ in, want string }{
		{"C7/9/E", "C9/E"},
		{"C7/9/Bb", "C9/Bb"},
		{"C7/b9/Db", "C7b9/Db"},
		{"C7M/9/B", "Cmaj9/B"},
		{"Csus4/7/G", "C7sus4/G"},
		{"C6/9/G", "C6/9/G"},
		{"Bb7/13/Ab", "Bb7add13/Ab"},
		{"Db7/Cb", "Db7/Cb"},
		{"Cm/maj7/Bb", "Cm(maj7)/Bb"},
		{"C/9/E", "Cadd9/E"},
		{"C13(no9)/E", "C7add13/E"},
	} {
		if c := mustChord(t, r.in); c.String() != r.want {
			t.Errorf("%s is %s, want %s", r.in, c, r.want)
		}
	}
}

// What these spellings look like, and are not, stays an error.
func TestNoAddedSpelling(t *testing.T) {
	for _, s := range []string{"C/b7", "C7/b5", "C/#4", "C/b6", "C6/#7", "Cm7/b3", "C7/2", "C7/3",
		"C7/4", "C7/5", "C7/6", "C7/7", "C/7", "C7/9/", "C7/8", "C7/10", "C7M7",
		"CM7M", "Cø7M", "C7(maj7)", "Cmaj9(b7)", "Cmaj7(no7)", "C7(no9)", "C13(no13)", "C7sus7", "C9sus9", "C7[b9)",
		"C7(b9]", "C(-7)", "C7/E/9", "Csus4/8"} {
		if c, err := ParseChord(s); err == nil {
			t.Errorf("%s is read as %s", s, c)
		}
	}
}

// Lifted by each number of semitones, a spelling is the same chord on the new root, and the
// bass stays the degree that it was.
func TestAddedSpellingsLifted(t *testing.T) {
	from := Key{}
	for _, r := range added {
		for lift := 1; lift < 12; lift++ {
			to := from.Transpose(lift)
			c := mustChord(t, r.in+"/G")
			got, want := c.Transpose(from, to), to.Spell(lift).String()+c.Suffix
			if bass := "/" + got.Bass.String(); got.String() != want+bass || got.Bass.PC() != mod12(7+lift) {
				t.Errorf("%s in %s is %s, want %s%s", c, to, got, want, bass)
			}
			if steps, _ := got.Root.Interval(got.Bass); steps != 4 && !got.Bass.awkward() && c.has(c.Root, c.Bass) {
				t.Errorf("%s in %s is %s: the bass is no fifth", c, to, got)
			}
		}
	}
}

func spelledTones(c Chord) string {
	s := ""
	for i, t := range c.Tones() {
		if i > 0 {
			s += " "
		}
		s += c.Spell(t).String()
	}
	return s
}
