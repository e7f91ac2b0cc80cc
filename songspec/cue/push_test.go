package cue

import (
	"math/rand"
	"reflect"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

const eighth = 480

// randomPushes are pushes in order that do not overlap.
func randomPushes(r *rand.Rand, length int64) Pushes {
	var out Pushes
	for at := eighth * r.Int63n(4); at < length-8*eighth; {
		p := Push{From: at, To: at + eighth*(1+r.Int63n(4))}
		out = append(out, p)
		at = p.To + eighth*r.Int63n(6)
	}
	return out
}

// Looking only at the chords near each push gives the same as going through all chords for
// every push, also where pushes meet.
func TestPushesOneByOne(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for round := 0; round < 3000; round++ {
		var want []Change
		at := int64(0)
		for i := 1 + r.Intn(24); i > 0; i-- {
			length := eighth * (1 + r.Int63n(8))
			c := Change{Start: at, Nominal: at, End: at + length, Chord: harmony.Chord{None: r.Intn(9) == 0},
				span: int32(i)}
			want = append(want, c)
			at += length
		}
		pushes := randomPushes(r, at+8*eighth)
		got := bringAllForward(pushes, append([]Change(nil), want...))
		for _, p := range pushes {
			want = bringForward(nil, want, p)
		}
		if len(want)+len(got) > 0 && !reflect.DeepEqual(want, got) {
			t.Fatalf("pushes %+v:\n%+v instead of\n%+v", pushes, got, want)
		}
	}
}

// Over gives the same as looking at every push.
func TestPushOver(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	for round := 0; round < 3000; round++ {
		pushes := randomPushes(r, 64*eighth)
		for tick := int64(-eighth); tick < 70*eighth; tick += eighth / 2 {
			var want Push
			for _, p := range pushes {
				if tick > p.From && tick <= p.To {
					want = p
				}
			}
			for _, p := range pushes {
				if p.From == tick {
					want = Push{}
				}
			}
			if got, ok := pushes.Over(tick); got != want || ok != (want != Push{}) {
				t.Fatalf("at %d among %+v: %+v instead of %+v", tick, pushes, got, want)
			}
		}
	}
}

// Of several pushes to one beat the first counts: for each player by himself inside a pass,
// for all players together over a border.
func TestFirstPushCounts(t *testing.T) {
	drums, piano := timeline.Only(timeline.Drums), timeline.Only(timeline.Piano)
	pass := timeline.Pass{Length: 3840, Bars: []timeline.Bar{{Length: 3840}},
		Chords: []timeline.Span{{Start: 0, End: 3840}}, After: &timeline.Neighbour{}}
	for _, row := range []struct {
		name   string
		events []timeline.Event
		want   [len(timeline.PlayerNames)]int64 // where each pushes; 0: he does not
	}{
		{"inside, by two players", []timeline.Event{
			{Kind: timeline.Push, Tick: 2160, Target: 2880, By: drums},
			{Kind: timeline.Push, Tick: 2400, Target: 2880, By: timeline.All},
		}, [len(timeline.PlayerNames)]int64{2160, 2400, 2400}},
		{"over the border", []timeline.Event{
			{Kind: timeline.Push, Tick: 3120, Target: 3840, By: drums},
			{Kind: timeline.Push, Tick: 3360, Target: 3840, By: piano},
		}, [len(timeline.PlayerNames)]int64{3120, 0, 0}},
	} {
		pass.Events = row.events
		c := Of(&pass)
		var got [len(timeline.PlayerNames)]int64
		for who := range got {
			if pushes := c.Pushes(timeline.Player(who)); len(pushes) > 0 {
				got[who] = pushes[0].From
			}
		}
		if got != row.want {
			t.Errorf("%s: %v instead of %v", row.name, got, row.want)
		}
		if len(c.Dropped) != 1 || c.Dropped[0].Event != 1 || c.Dropped[0].Why != Taken {
			t.Errorf("%s: dropped %+v", row.name, c.Dropped)
		}
	}
}
