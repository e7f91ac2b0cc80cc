package groove

import (
	"math/rand"
	"reflect"
	"sort"
	"testing"

	"plinth/songspec/timeline"
)

// Looking only at the chords near each push gives what going through all chords for
// every push gives, also where pushes cut into one another.
func TestPushesOneByOne(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for round := 0; round < 3000; round++ {
		pass := randomPass(t, r, 1+r.Intn(12))
		for n := r.Intn(8); n > 0; n-- {
			tick := r.Int63n(pass.Length/eighth) * eighth
			target := tick + eighth*(1+r.Int63n(8))
			pass.Events = append(pass.Events, timeline.Event{Kind: timeline.Push, Tick: tick, Target: min(target, pass.Length), By: timeline.All})
		}
		sort.SliceStable(pass.Events, func(i, j int) bool { return pass.Events[i].Tick < pass.Events[j].Tick })
		p := planOf(pass, compFeel("c==============="))
		var want []change
		for _, s := range pass.Chords {
			want = append(want, change{Start: s.Start, Nominal: s.Start, End: s.End, Chord: s.Chord})
		}
		got := p.pushAll(timeline.Piano, append([]change(nil), want...))
		for i := range pass.Events {
			want = pushed(nil, want, &pass.Events[i])
		}
		if len(want) != len(got) || len(want) > 0 && !reflect.DeepEqual(want, got) {
			t.Fatalf("pushes %+v:\n%+v instead of\n%+v", pass.Events, got, want)
		}
	}
}

// The first push that forbids a tick is found as looking at all of them finds it.
func TestPushAt(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	for round := 0; round < 3000; round++ {
		pass := &timeline.Pass{Length: 1 << 20, Bars: make([]timeline.Bar, 1)}
		for n := r.Intn(6); n > 0; n-- {
			from := r.Int63n(20)
			pass.Events = append(pass.Events, timeline.Event{Kind: timeline.Push, Tick: from, Target: from + 1 + r.Int63n(9), By: timeline.All})
		}
		sort.SliceStable(pass.Events, func(i, j int) bool { return pass.Events[i].Tick < pass.Events[j].Tick })
		pushes := (&plan{pass: pass}).pushSpans(timeline.Bass)
		for tick := int64(-1); tick < 32; tick++ {
			want, forbidden := int64(-1), false
			for _, w := range pushes {
				if !forbidden && tick > w.From && tick <= w.To {
					want, forbidden = w.From, true
				}
			}
			for _, w := range pushes {
				forbidden = forbidden && w.From != tick
			}
			got, ok := pushAt(pushes, tick)
			if ok != forbidden || ok && got.From != want {
				t.Fatalf("at %d among %+v: %+v %v instead of %d %v", tick, pushes, got, ok, want, forbidden)
			}
		}
	}
}
