package main

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

func TestMarked(t *testing.T) {
	bar := func(places ...int64) set[struck] {
		out := set[struck]{}
		for _, p := range places {
			out[struck{p, 38}] = true
		}
		return out
	}
	same := []set[struck]{bar(0, 1), bar(0, 1), bar(0, 1)}
	if marked(same) {
		t.Error("a bar like those before it is marked")
	}
	if !marked(append(same, bar(0, 5))) {
		t.Error("a new bar is not marked")
	}
	if marked([]set[struck]{bar(0, 1), bar(2, 3), bar(4, 5)}) {
		t.Error("a new bar after new bars is marked")
	}
}

func TestHatsAndGhosts(t *testing.T) {
	grace := hit(0, "snare", feel.Ghost, 30)
	grace.meant.Art = score.Grace
	p := testPass(t, timeline.Drums, "|: C :|x8", hit(0, "hat", feel.Normal, 60), hit(0, "hat_open", feel.Normal, 60),
		hit(quarter, "hat_foot", feel.Normal, 60), grace, hit(quarter, "snare", feel.Strong, 80),
		hit(2*quarter, "cross_stick", feel.Normal, 70), hit(3*quarter, "snare", feel.Ghost, 30),
		hit(7*testBar, "hat_open", feel.Normal, 60))
	ps := []*pass{p}
	expect(t, "open hats", openHats(ps), 2./3)
	expect(t, "open hats anywhere", openAnywhere(ps), 1./2)
	expect(t, "ghosts", ghosts(ps), 1./3)
}

// A kick that is louder from four bars to four has all of its variance there; one that is
// louder in every other bar has none.
func TestStrokeDynamics(t *testing.T) {
	for _, c := range []struct {
		loud func(bar int64) bool
		slow float64
	}{
		{func(bar int64) bool { return bar/4%2 == 1 }, 1},
		{func(bar int64) bool { return bar%2 == 1 }, 0},
	} {
		s := testSong(t, "ballad-eighths", []int{3}, "|: C :|x16")
		p := s.flat[3].passes[0]
		for bar := range int64(16) {
			v := 60.
			if c.loud(bar) {
				v = 70
			}
			p.notes[timeline.Drums] = append(p.notes[timeline.Drums], hit(bar*testBar, "kick", feel.Normal, v),
				hit(bar*testBar+quarter, "snare", feel.Strong, v))
		}
		deviation, slow := strokeDynamics([]*song{s})
		if len(deviation) != 2 || len(slow) != 2 {
			t.Fatalf("%d strokes are followed", len(deviation))
		}
		expect(t, "deviation", deviation[0], 5)
		expect(t, "slow", slow[0], c.slow)
		expect(t, "snare", snareAccents([]*song{s})[0], 1.4826*5)
	}
}

func TestDrumEndings(t *testing.T) {
	s := testSong(t, "ballad-eighths", []int{3}, "| C | F | G | C |")
	p := s.written.passes[0]
	end := int64(3 * testBar)
	p.notes[timeline.Piano] = []note{at(2*testBar, quarter, 60, 60), at(end, testBar, 60, 50)}
	p.notes[timeline.Bass] = []note{at(2*testBar, quarter, 36, 60), at(end, testBar, 36, 50)}
	p.notes[timeline.Drums] = []note{hit(end, "kick", feel.Normal, 60), hit(end, "crash", feel.Normal, 60)}
	look := func(together, softer float64) {
		t.Helper()
		tb := &table{}
		drumEndings(tb, []*song{s})
		expect(t, "together", tb.rows[0].values[0].number, together)
		expect(t, "softer", tb.rows[1].values[0].number, softer)
	}
	look(1, 1)
	p.notes[timeline.Drums] = append(p.notes[timeline.Drums], hit(end+quarter, "hat_foot", feel.Normal, 60))
	look(0, 1)
	p.notes[timeline.Drums] = p.notes[timeline.Drums][:1]
	look(0, 1)
	for i := range int64(8) {
		p.notes[timeline.Drums] = append(p.notes[timeline.Drums], hit(2*testBar+i*quarter/2, "hat", feel.Ghost, 20))
	}
	look(0, 1) // ghosts do not make a bar soft
	p.notes[timeline.Drums][0].velocity = 90
	look(0, 0)
}

func TestClosingFill(t *testing.T) {
	s := testSong(t, "ballad-eighths", []int{2, 4}, "| C | F |", "| C | F |")
	p := s.written.passes[0]
	n := hit(testBar+3*quarter, "snare", feel.Normal, 60)
	n.meant.Group = 1
	p.score.Parts[timeline.Drums].Groups = []score.Group{{Kind: score.Fill}}
	p.notes[timeline.Drums] = []note{hit(testBar, "kick", feel.Normal, 60), n}
	if got := p.closingFill(); got != "-960:38 " {
		t.Errorf("fill %q", got)
	}
	if got := s.written.passes[1].closingFill(); got != "" {
		t.Errorf("the last pass has the fill %q", got)
	}
}
