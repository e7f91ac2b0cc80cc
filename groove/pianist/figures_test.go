package pianist

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// dealt are the figures of a pass, by number, of a level with n of them.
func dealt(p *plan.Plan, n int) []int {
	var c Pianist
	c.Prepare(p)
	var out []int
	for bar := range p.Pass.Bars {
		list := p.Level(bar).Comp
		fig := c.figure(bar)
		out = append(out, slices.IndexFunc(list[:n], func(f feel.Figure) bool { return &f.Right[0] == &fig.Right[0] }))
	}
	return out
}

// six are six figures that differ.
var six = []string{"c===============", "c=======c=======", "c===c===c=======", "c===c===c===c===", "c=======c===c===",
	"c=====c========="}

// Figures are dealt out by phrase: the first begins it and, in some takes, its second four
// bars; the last stands only at the end of eight, about every other time; those between are in
// one order in all passes of a section but for two bars of four at most, and no bar has the
// figure of the bar before.
func TestFiguresAreDealtByPhrase(t *testing.T) {
	orders, closed, joints, same := map[string]bool{}, 0, 0, 0
	for take := 1; take <= 20; take++ {
		var passes [][]int
		for ordinal := range 3 {
			pass := groovetest.PassOf(t, strings.Repeat("C|", 15)+"C", 3)
			pass.Ordinal, pass.After.Energy = ordinal, 3
			p := groovetest.PlanOf(pass, groovetest.CompFeel(six...))
			p.Song.Take = take
			got := dealt(p, len(six))
			for bar, k := range got {
				if bar%8 == 0 && k != 0 || bar%4 != 0 && k == 0 || k == 5 && bar%8 != 7 || bar > 0 && got[bar-1] == k {
					t.Errorf("take %d, pass %d, bar %d has figure %d: %v", take, ordinal, bar+1, k+1, got)
				}
				if bar%8 == 7 {
					joints++
				}
				if k == 5 {
					closed++
				}
			}
			passes = append(passes, got)
		}
		orders[fmt.Sprint(passes[0])] = true
		alike := 0
		for bar := range passes[0] {
			if passes[0][bar] == passes[1][bar] {
				alike++
			}
		}
		same += alike
	}
	if same < 20*6 || same > 20*12 {
		t.Errorf("%d of %d bars have the same figure in the next pass", same, 20*16)
	}
	if len(orders) < 10 {
		t.Errorf("20 takes have %d orders", len(orders))
	}
	if closed*3 < joints || closed*3 > joints*2 {
		t.Errorf("%d of %d phrases are closed", closed, joints)
	}
}

// Where the band falls into the next section, the last bar closes; where it rises, it has a
// figure of a level half-way there; lead = false leaves the level as it is.
func TestFiguresLeadOverTheBorder(t *testing.T) {
	f := groovetest.CompFeel(six...)
	for e := range f.Levels {
		f.Levels[e].Comp = slices.Clone(f.Levels[e].Comp)
	}
	for _, row := range []struct {
		from, to, level int
		lead, closes    bool
	}{{3, 4, 4, true, false}, {2, 5, 4, true, false}, {4, 2, 3, true, true}, {5, 4, 4, true, true},
		{3, 5, 3, false, false}} {
		pass := groovetest.PassOf(t, strings.Repeat("C|", 7)+"C", row.from)
		pass.After.Energy, pass.Lead = row.to, row.lead
		var c Pianist
		c.Prepare(groovetest.PlanOf(pass, f))
		if got := c.compLevel(7).Energy; got != row.level {
			t.Errorf("%d to %d: the last bar is of level %d, want %d", row.from, row.to, got, row.level)
		}
		before := row.from
		if row.lead && row.to > row.from+1 {
			before++
		}
		if got := c.compLevel(6).Energy; got != before {
			t.Errorf("%d to %d: the bar before is of level %d", row.from, row.to, got)
		}
		if row.lead && (c.figure(7) == &c.compLevel(7).Comp[5]) != row.closes {
			t.Errorf("%d to %d: closed is %v", row.from, row.to, !row.closes)
		}
	}
}

// In a figure of two hands a hand that strikes lets go what it held, the right hand's whole
// chord is what the left does not hold, and a rest ends one hand alone.
func TestHandsOfAFigure(t *testing.T) {
	f := groovetest.CompFeel("c===3=--c===----/1=======1=======")
	notes := comp(groovetest.PlanOf(groovetest.PassOf(t, "C", 3), f))
	for _, row := range []struct {
		at    int64
		right int
		left  int
	}{{0, 2, 1}, {quarter, 1, 1}, {quarter + eighth, 0, 1}, {2 * quarter, 2, 1}, {3*quarter + 1, 0, 1}} {
		right, left := 0, 0
		for _, n := range notesAt(notes, row.at) {
			if n.Voice == score.Left {
				left++
			} else {
				right++
			}
		}
		if right != row.right || left != row.left {
			t.Errorf("at %v the right hand has %d notes and the left %d, want %d and %d", inBars([]int64{row.at}),
				right, left, row.right, row.left)
		}
	}
}

// The inner voice moves to a note of the key that no other voice has, and comes back.
func TestInnerVoiceMoves(t *testing.T) {
	moved := 0
	for _, chord := range []string{"C", "Am7", "F", "Dm7", "G7", "Em"} {
		notes := comp(groovetest.PlanOf(groovetest.PassOf(t, chord, 3), groovetest.CompFeel("c=======m===2===")))
		before, in, after := notesAt(notes, quarter), notesAt(notes, 2*quarter), notesAt(notes, 3*quarter)
		if len(before) != 3 || len(in) != 3 || len(after) != 3 {
			t.Errorf("%s: %d, %d and %d notes sound", chord, len(before), len(in), len(after))
			continue
		}
		key := func(list []score.Note, i int) int {
			var keys []int
			for _, n := range list {
				keys = append(keys, int(n.Key))
			}
			slices.Sort(keys)
			return keys[i]
		}
		for i := range 3 {
			if a, b, c := key(before, i), key(in, i), key(after, i); a != c || i != 1 && a != b {
				t.Errorf("%s: voice %d goes %d, %d, %d", chord, i+1, a, b, c)
			}
		}
		d := abs(key(in, 1) - key(before, 1))
		if d > 0 {
			moved++
		}
		if d > 2 || groovetest.PassOf(t, chord, 3).Key.PCSet()&(1<<(key(in, 1)%12)) == 0 {
			t.Errorf("%s: the inner voice moves from %d to %d", chord, key(before, 1), key(in, 1))
		}
	}
	if moved < 3 {
		t.Errorf("the inner voice moves in %d chords of 6", moved)
	}
}

// The comp leaves the half beat before a hit free, and the hit is half a beat long.
func TestRoomBeforeAHit(t *testing.T) {
	pass := groovetest.PassOf(t, "C|C", 4)
	groovetest.AddEvent(pass, timeline.Accent, 1, quarter, quarter)
	notes := comp(groovetest.PlanOf(pass, groovetest.CompFeel("c===c=c=c===c=c=/1===1===1===1===")))
	for _, n := range notes {
		switch at := n.At - bar44; {
		case at >= quarter/2 && at < quarter:
			t.Errorf("%s is struck half a beat or less before the hit", groovetest.KeyName(int(n.Key)))
		case at == quarter && n.Held != eighth:
			t.Errorf("%s of the hit is held for %d ticks", groovetest.KeyName(int(n.Key)), n.Held)
		}
	}
}

// A chord is told at once: its third, or what stands for it, sounds soon after the change, and
// no chord begins on a colour alone.
func TestChordsAreTold(t *testing.T) {
	for _, row := range []struct{ chart, figure string }{
		{"C G7sus4|C", "c=======1===2=3=/----------------"}, {"Ab6|Db", "1===2=======3==="},
		{"Am6/E|E7", "1=2=3==========="},
		{"Gsus4 G|C", "c=======1=====2=/----------------"}, {"F7b9|Bb", "--1===2===3=====/1==============="},
	} {
		p := groovetest.PlanOf(groovetest.PassOf(t, row.chart, 3), groovetest.CompFeel(row.figure))
		var c Pianist
		c.Prepare(p)
		notes := c.Play(nobody()).Notes
		for i := range c.changes {
			ch := &c.changes[i]
			var soon, first []int
			for _, n := range notes {
				k := slices.Index(c.voicings[i].Notes[:c.voicings[i].N], n.Key)
				if n.At < ch.Start || n.At > ch.Start+(ch.End-ch.Start)/2 || k < 0 {
					continue
				}
				soon = append(soon, c.rank(i, k))
				if len(first) == 0 || n.At == notes[0].At {
					first = append(first, c.rank(i, k))
				}
			}
			if len(soon) < 2 || slices.Min(soon) > seventh || slices.Min(first) == colour {
				t.Errorf("%s in %s: the first strikes of %s tell %v, the first %v", row.figure, row.chart, ch.Chord,
					soon, first)
			}
		}
	}
}

// A feel may keep its figure under changing chords: then no change brings a strike of its own,
// the new chord is heard within a beat and a half, and nothing of the old one rings. In one
// that goes ahead the last off-beat before a change has the new chord, five times of seven,
// and is not struck otherwise.
func TestFiguresUnderChanges(t *testing.T) {
	const late, ahead = "--c=--------c===", "--c=----------c="
	early := 0
	for take := 1; take <= 100; take++ {
		for _, row := range []struct {
			figure string
			way    feel.Changes
			want   []int64
		}{
			{late, feel.OnTime, []int64{0, eighth, 3 * quarter, bar44, bar44 + eighth, bar44 + 3*quarter}},
			{late, feel.InTurn, []int64{0, eighth, 3 * quarter, bar44 + eighth, bar44 + 3*quarter}},
			{ahead, feel.Ahead, []int64{0, eighth, bar44 - eighth, bar44 + eighth, 2*bar44 - eighth}},
		} {
			pass := groovetest.PassOf(t, "C|F#m", 3)
			f := groovetest.CompFeel(row.figure)
			f.Changes = row.way
			p := groovetest.PlanOf(pass, f)
			p.Song.Take = take
			notes := comp(p)
			got := struck(notes)
			if row.way == feel.Ahead && slices.Contains(got, bar44-eighth) {
				early++
			} else if row.way == feel.Ahead {
				row.want = slices.Delete(row.want, 2, 3)
			}
			if !slices.Equal(got, row.want) {
				t.Errorf("%s, way %d: struck at %v, want %v", row.figure, row.way, inBars(got), inBars(row.want))
			}
			for _, n := range notesAt(notes, bar44) {
				if pc := n.Key % 12; pc != 6 && pc != 9 && pc != 1 {
					t.Errorf("%s, way %d: %s rings into F#m", row.figure, row.way, groovetest.KeyName(int(n.Key)))
				}
			}
		}
	}
	if early < 60 || early > 90 {
		t.Errorf("the chord comes ahead %d times of 100", early)
	}
}

// The song's last chord is rolled over two hands, an octave and a half or more from its lowest
// note to its highest or, of two voices, nearly that, and nothing is struck after it.
func TestLastChordIsWide(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		for _, chord := range []string{"C", "Am7", "Ebmaj7", "F/A", "Db6", "G7sus4"} {
			pass := groovetest.PassOf(t, "F|"+chord, energy)
			pass.After = nil
			p := groovetest.PlanOf(pass, groovetest.CompFeel("c===c===c===c==="))
			if p.Ending() != 1 {
				t.Fatal("the song does not come to rest")
			}
			low, high, hands := 128, 0, map[score.Voice]bool{}
			for _, n := range played(p) {
				if n.At > bar44 {
					t.Errorf("%s at %d: %s comes after the last chord", chord, energy, groovetest.KeyName(int(n.Key)))
				}
				if n.At == bar44 {
					low, high = min(low, int(n.Key)), max(high, int(n.Key))
					hands[n.Voice] = true
					if !n.Art.Has(score.Rolled) || n.Roll > 0 || n.End() != pass.Length {
						t.Errorf("%s at %d: %+v", chord, energy, n)
					}
				}
			}
			if high-low < []int{14, 18, 18, 18, 18}[energy-1] || len(hands) != 2 {
				t.Errorf("%s at %d: the last chord is from %s to %s, in %d hands", chord, energy,
					groovetest.KeyName(low), groovetest.KeyName(high), len(hands))
			}
		}
	}
}

// notesAt are the notes that sound at a tick.
func notesAt(notes []score.Note, at int64) []score.Note {
	var out []score.Note
	for _, n := range notes {
		if n.At <= at && n.End() > at {
			out = append(out, n)
		}
	}
	return out
}

// played is the pass as Play has it, over nobody.
func played(p *plan.Plan) []score.Note {
	var c Pianist
	c.Prepare(p)
	return c.Play(nobody()).Notes
}
