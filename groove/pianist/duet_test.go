package pianist

import (
	"slices"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/songspec/timeline"
)

// duet adds a second singer to a pass: of each sung note the next chord tone that lies a minor
// third or more below it, so many octaves lower.
func duet(pass *timeline.Pass, octaves int) {
	var second []timeline.SungNote
	for _, s := range pass.Sung {
		key := int(s.Key) - 3
		for i := range pass.Chords {
			c := &pass.Chords[i]
			for c.Start <= s.Tick && s.Tick < c.End && !c.Chord.None && c.Chord.PCSet()&(1<<(key%12)) == 0 {
				key--
			}
		}
		s.Key, s.Singer = uint8(key-12*octaves), 1
		second = append(second, s)
	}
	pass.Sung = append(pass.Sung, second...)
	slices.SortStableFunc(pass.Sung, func(a, b timeline.SungNote) int { return int(a.Tick - b.Tick) })
}

// The comp keeps out of the way of two singers as of one: under the thirty real vocals with a
// second voice below them, near or an octave lower.
func TestPop909Duets(t *testing.T) {
	set := library.Builtin()
	var rounds [3]roundSinger // one singer; a second one near; a second one low
	var ceilings [3]int
	for _, s := range popSongs(t) {
		vocal := s.midiNotes(t, "vocal.mid")
		whole := s.pass(t, 3)
		whole.Feel = "ballad-eighths"
		for from := 0; from < len(whole.Bars); from += 8 {
			for i := range rounds {
				pass := cutPass(whole, from, min(from+8, len(whole.Bars)), vocal)
				if i > 0 {
					duet(pass, i-1)
				}
				tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Take: 1}
				rounds[i].play(t, plan.New(tl, pass, set))
				ceilings[i] += Ceiling(tl.Piano, pass)
			}
		}
	}
	alone := &rounds[0]
	for i, name := range []string{"one singer", "a second one near", "a second one low"} {
		r := &rounds[i]
		t.Logf("%s: %s; %d of %d notes in unison; ceilings %d in all", name, r.String(), r.unisons, r.all, ceilings[i])
		if r.ringsOver+r.struckOver > 0 {
			t.Errorf("%s: the comp is above a high voice", name)
		}
		// Those in unison are of singers' tracks with notes of their own on top of each other.
		if 1000*r.clashing > 2*r.under || 1000*r.unisons > 6*r.all {
			t.Errorf("%s: %d of %d clash, %d of %d in unison", name, r.clashing, r.under, r.unisons, r.all)
		}
		if r.guided*100 < r.guides*95 || 2*r.all < alone.all || r.moved.octaves > 0 {
			t.Errorf("%s: the comp has gone: %d notes, %d of %d guide tones", name, r.all, r.guided, r.guides)
		}
	}
	if ceilings[1] > ceilings[0] || ceilings[2] > ceilings[1] {
		t.Errorf("the lowest voice sets the ceiling: %v", ceilings)
	}
}

// Worked by hand: the lower of two voices sets the ceiling, who sings little does not; what two
// sing together counts once.
func TestTwoSingers(t *testing.T) {
	pass := func() *timeline.Pass {
		p := groovetest.PassOf(t, "C", 2)
		p.Feel = "ballad-eighths"
		for i := range int64(8) {
			p.Sung = append(p.Sung, timeline.SungNote{Tick: i * eighth, Length: eighth, Key: 76},
				timeline.SungNote{Tick: i * eighth, Length: eighth, Key: 69, Singer: 1})
		}
		return p
	}
	p := pass()
	// E5 and A4 throughout: a major third under A4 is F4.
	if got := Ceiling(timeline.PianoSetup{}, p); got != 65 {
		t.Errorf("the ceiling is %s", groovetest.KeyName(got))
	}
	tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Take: 1}
	l := listen(plan.New(tl, p, library.Builtin()))
	if !l.isBusy(0) { // two a beat, and one and a half is busy
		t.Error("eighths throughout are not called busy")
	}
	if now := l.sungAt(eighth); now[0].Key != 76 || now[1].Key != 69 || now[2] != nil {
		t.Errorf("sung at the second eighth: %v", now)
	}
	// In quarters, two at a time, it is one a beat.
	p = pass()
	p.Sung = slices.DeleteFunc(p.Sung, func(n timeline.SungNote) bool { return n.Tick/eighth%2 == 1 })
	if listen(plan.New(tl, p, library.Builtin())).isBusy(0) {
		t.Error("two who sing quarters together are called busy")
	}
	// The lower one calls once: the ceiling is the other's, a third under E5 and so A4.
	p = pass()
	p.Sung = slices.DeleteFunc(p.Sung, func(n timeline.SungNote) bool { return n.Singer == 1 && n.Tick > 0 })
	if got := Ceiling(timeline.PianoSetup{}, p); got != 69 {
		t.Errorf("with a call below the ceiling is %s", groovetest.KeyName(got))
	}
}
