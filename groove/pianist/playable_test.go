package pianist

import (
	"fmt"
	"math/rand"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/voicing"
	"plinth/songspec/timeline"
)

// Whatever the chart, the events and the tab: in order, inside the pass, one key
// once at a time, no attack in a stop, playable and clear.
func TestCompIsPlayable(t *testing.T) {
	tabs := []string{"c===============", "1-2-3-2-1-2-3-2-", "l===u===l===u===", "c--c--c---c-c---",
		"r===============", "1234543212345432", "--c---c---c---cu"}
	for seed := int64(0); seed < 300; seed++ {
		r := rand.New(rand.NewSource(seed))
		pass := randomPass(t, r, 8)
		randomEvents(pass, r)
		p := groovetest.PlanOf(pass, groovetest.CompFeel(tabs[r.Intn(len(tabs))]))
		notes := comp(p)
		checkNotes(t, fmt.Sprintf("seed %d", seed), p, notes)
		if t.Failed() {
			return
		}
	}
}

func randomEvents(p *timeline.Pass, r *rand.Rand) {
	for i := 0; i < 6; i++ {
		bar, at := r.Intn(len(p.Bars)), int64(r.Intn(16))*quarter/4
		switch r.Intn(5) {
		case 0:
			groovetest.AddEvent(p, timeline.Accent, bar, at, at).Weight = 1 + r.Intn(3)
		case 1:
			groovetest.AddEvent(p, timeline.Accent, bar, at, at).Alone = true
		case 2:
			groovetest.AddPush(p, bar, bar44-quarter/4*(1+int64(r.Intn(4))))
		case 3:
			groovetest.AddEvent(p, timeline.Stop, bar, at, bar44)
		case 4:
			groovetest.AddEvent(p, timeline.Hold, bar, at/quarter*quarter, at/quarter*quarter+quarter)
		}
	}
	groovetest.SortEvents(p)
}

func checkNotes(t *testing.T, what string, p *plan.Plan, notes []score.Note) {
	t.Helper()
	silences := p.Cues.Silences(timeline.Piano)
	high := Ceiling(p.Song.Piano, p.Pass)
	var until [128]int64
	for i, n := range notes {
		if i > 0 && n.At < notes[i-1].At {
			t.Errorf("%s: out of order at %d", what, n.At)
		}
		if n.End() <= n.At || n.End() > p.Pass.Length {
			t.Errorf("%s: a note from %d to %d in a pass of %d", what, n.At, n.End(), p.Pass.Length)
		}
		if int(n.Key) > high || int(n.Key) < compFloor {
			t.Errorf("%s: %s outside the comp's room", what, groovetest.KeyName(int(n.Key)))
		}
		if n.At < until[n.Key] {
			t.Errorf("%s: %s at %d struck while it sounds", what, groovetest.KeyName(int(n.Key)), n.At)
		}
		until[n.Key] = n.End()
		for _, s := range silences {
			if n.At < s.End && n.End() > s.Start {
				t.Errorf("%s: a note from %d to %d in the stop %d to %d", what, n.At, n.End(), s.Start, s.End)
			}
		}
	}
	for _, at := range struck(notes) {
		keys := soundingAt(notes, at)
		if !voicing.Playable(keys, p.Song.Piano.Span) {
			t.Errorf("%s: two hands do not hold %s", what, groovetest.KeyList(keys))
		}
		if a, b, bad := voicing.FirstMuddy(keys); bad {
			t.Errorf("%s: %s under %s", what, groovetest.KeyName(a), groovetest.KeyName(b))
		}
	}
}

// The energies' bounds hold over any tab; only the chart and the events go over
// them.
func TestAttacksPerBeat(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		pass := groovetest.PassOf(t, "C|Am|F|G", energy)
		notes := comp(groovetest.PlanOf(pass, groovetest.CompFeel("cccccccccccccccc")))
		n := int64(len(struck(notes)))
		if n*1000 > 16*AttacksPerBeat.At(energy) {
			t.Errorf("energy %d: %d attacks in 16 beats", energy, n)
		}
	}
}
