package main

import (
	"slices"
	"testing"

	"plinth/groove/score"
	"plinth/songspec/realsongs"
	"plinth/songspec/timeline"
)

// A chord, a single note over it, a single note over nothing, and a bass note that is no comp.
func TestAttacks(t *testing.T) {
	notes := slices.Concat(chord(0, 2*quarter, 55, 60, 64), chord(quarter, quarter, 67), chord(2*quarter, quarter, 40),
		chord(3*quarter, quarter, 60))
	p := testPass(t, timeline.Piano, "| C |", notes...)
	ps := []*pass{p}
	expect(t, "singles", singles(ps), 2./3)
	expect(t, "over a held note", singlesOverHeld(ps), 1./2)
	expect(t, "attacks a beat", compDensity(ps), 3./4)
	expect(t, "notes sounding", sounding(ps), (3*2+1+1)/4.)
	expect(t, "strikes on 1", strikesOnOne(ps), 1)
	p.notes[timeline.Piano] = notes[3:]
	expect(t, "strikes on 1, without it", strikesOnOne(ps), 0)
}

func TestHands(t *testing.T) {
	notes := chord(0, quarter, 48, 55, 64)
	notes[0].velocity, notes[2].velocity = 60, 59
	p := testPass(t, timeline.Piano, "| C |", notes...)
	expect(t, "the top is softer", upperNotSofter([]*pass{p}), 0)
	notes[2].velocity = 60
	expect(t, "the top is as loud", upperNotSofter([]*pass{p}), 1)
	notes[0].meant.Voice, notes[1].meant.Voice, notes[1].velocity = score.Left, score.Left, 70
	expect(t, "the left hand is louder", upperNotSofter([]*pass{p}), 0)
}

// Seven bars with chords on 1 and 3, and an eighth bar with single notes elsewhere.
func TestPhrase(t *testing.T) {
	var notes []note
	for bar := range int64(7) {
		notes = append(notes, chord(bar*testBar, quarter, 60, 64)...)
		notes = append(notes, chord(bar*testBar+2*quarter, 2*quarter, 60, 64)...)
	}
	notes = append(notes, at(7*testBar, quarter, 60, 60), at(7*testBar+quarter, quarter, 62, 60))
	p := testPass(t, timeline.Piano, "|: C :|x8", notes...)
	w := p.phraseOf(notes, 0)
	expect(t, "overlap", w.overlap(), (6+1./3)/7)
	expect(t, "loop", w.loop(), 6./7)
	expect(t, "distinct rhythms", w.distinct(), 2)
	expect(t, "distinct lengths", w.distinctLengths(), 2)
	expect(t, "the last bar apart", w.lastApart(), 2./3)
	if !slices.Equal(p.phrases(), []int{0}) {
		t.Errorf("phrases at %v", p.phrases())
	}
}

// What is loud on 1 in every bar varies by place alone; a loud bar varies by bar.
func TestTouchOfPhrase(t *testing.T) {
	for _, c := range []struct {
		loud           func(bar, beat int64) bool
		byBar, byPlace float64
	}{
		{func(_, beat int64) bool { return beat == 0 }, 0, 1},
		{func(bar, _ int64) bool { return bar == 3 }, 1, 0},
	} {
		var notes []note
		for i := range int64(16) {
			bar, beat := i/2, i%2
			n := at(bar*testBar+beat*2*quarter, quarter, 60, 50)
			if c.loud(bar, beat) {
				n.velocity = 70
			}
			notes = append(notes, n)
		}
		w := testPass(t, timeline.Piano, "|: C :|x8", notes...).phraseOf(notes, 0)
		byBar, _ := w.touchByBar()
		byPlace, ok := w.touchByPlace()
		expect(t, "by bar", byBar, c.byBar)
		expect(t, "by place", byPlace, c.byPlace)
		if !ok {
			t.Error("sixteen attacks are enough")
		}
		if _, ok := testPass(t, timeline.Piano, "|: C :|x8").phraseOf(notes[:8], 0).touch(); ok {
			t.Error("eight attacks are not")
		}
	}
}

// How the comp goes from C to F.
func TestChanges(t *testing.T) {
	to := func(before []note, after ...[]note) []note {
		return slices.Concat(append([][]note{before}, after...)...)
	}
	c := func(keys ...uint8) []note { return chord(0, testBar, keys...) }
	f := func(keys ...uint8) []note { return chord(testBar, testBar, keys...) }
	for _, x := range []struct {
		name                                           string
		notes                                          []note
		heard, early, steps, unmoved, foreign, octaves float64
	}{
		{"by step", to(c(55, 60, 64), f(57, 60, 65)), 1, 0, 1, 0, 0, 0},
		{"with one tone", to(c(55, 60, 64), f(65)), 0, 0, 1, 0, 0, 0},
		{"two beats late", to(c(55, 60, 64), chord(testBar+2*quarter, quarter, 57, 60)), 0, 0, 0, 0, 0, 0},
		{"one after the other", to(c(55, 60, 64), f(57), chord(testBar+quarter, quarter, 65)),
			1, 0, 1, 0, 0, 0},
		{"early", to(chord(0, testBar-eighth, 55, 64), chord(testBar-eighth, testBar, 57, 65)), 1, 1, 1, 0, 0, 0},
		{"a beat early", to(chord(0, testBar-quarter, 55, 64), chord(testBar-quarter, 2*quarter, 57, 65)),
			0, 0, 0, 0, 0, 0},
		{"by a third", to(c(55, 60, 64), f(57, 60)), 1, 0, 0, 0, 0, 0},
		{"E rings on", to(chord(0, testBar+quarter, 60, 64), f(57, 65)), 1, 0, 1, 0, 1, 0},
		{"E rings a little", to(chord(0, testBar+quarter/8, 60, 64), f(57, 65)),
			1, 0, 1, 0, 0, 0},
		{"the top stays", to(c(55, 60), f(57, 60)), 1, 0, 1, 1, 0, 0},
		{"with the bass", to(c(55, 60), f(57, 65)), 1, 0, 0, 0, 0, 1},
	} {
		got := changesOf([]*pass{testPass(t, timeline.Piano, "| C | F |", x.notes...)})
		expect(t, x.name+": heard", got.heard.share(), x.heard)
		expect(t, x.name+": early", got.early.share(), x.early)
		expect(t, x.name+": foreign", got.foreign.share(), x.foreign)
		if got.steps.all > 0 {
			expect(t, x.name+": steps", got.steps.share(), x.steps)
			expect(t, x.name+": unmoved", got.unmoved.share(), x.unmoved)
			expect(t, x.name+": octaves", got.octaves.share(), x.octaves)
		}
	}
}

func TestAccentsAndEndings(t *testing.T) {
	s := testSong(t, "ballad-eighths", []int{3}, "| C | F | G | C |")
	p := s.written.passes[0]
	accent := func(tick, length int64) note {
		n := at(tick, length, 64, 60)
		n.meant.Art = score.Accent
		return n
	}
	p.notes[timeline.Piano] = []note{at(0, 100, 60, 60), accent(quarter, eighth), at(quarter+eighth, 100, 60, 60),
		accent(2*quarter, quarter)}
	short, crowded := accents([]*song{s})
	expect(t, "short accents", short, .5)
	expect(t, "crowded accents", crowded, .5)

	last := chord(3*testBar, testBar, 48, 60, 72)
	last[0].meant.Voice = score.Left
	p.notes[timeline.Piano] = append(chord(2*testBar, quarter, 60, 64), last...)
	rows := func() []row {
		tb := &table{}
		pianoEndings(tb, []*song{s})
		return tb.rows
	}
	for i, want := range []float64{1, 0, 0} {
		expect(t, rows()[i].figure, rows()[i].values[0].number, want)
	}
	for i := range p.notes[timeline.Piano][2:] {
		n := &p.notes[timeline.Piano][2+i]
		n.velocity, n.meant.Art = 50, score.Rolled
	}
	p.notes[timeline.Piano][4].key = 65
	for i, want := range []float64{0, 1, 1} {
		expect(t, rows()[i].figure, rows()[i].values[0].number, want)
	}
}

func TestVoice(t *testing.T) {
	p := testPass(t, timeline.Piano, "| C |", slices.Concat(chord(0, quarter, 60), chord(quarter, quarter, 61),
		chord(2*quarter, quarter, 64), chord(3*quarter, quarter, 74))...)
	p.Sung = []timeline.SungNote{{Tick: 0, Length: 2 * quarter, Key: 72}, {Tick: 2 * quarter, Length: eighth, Key: 63},
		{Tick: 3 * quarter, Length: eighth, Key: 74}}
	rub, over := rubs(p), overVoice(p)
	expect(t, "C# a major seventh under C", rub.share(), 1./4)
	expect(t, "E over Eb", over.share(), 1./4)
	if got := barText([]realsongs.PopChord{{Beat: 1, Beats: 2, Root: "C", Quality: "maj", Bass: "E"},
		{Beat: 3, Beats: 2, Root: "A", Quality: "min7", Bass: "A"}}, 4); got != "C/E / Am7 /" {
		t.Errorf("bar %q", got)
	}
	if got := barText(nil, 4); got != "N.C." {
		t.Errorf("an empty bar is %q", got)
	}
}
