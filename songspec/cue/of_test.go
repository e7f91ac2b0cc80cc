package cue

import (
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// The sets of one pitched player.
const (
	bass  = timeline.Players(1 << timeline.Bass)
	piano = timeline.Players(1 << timeline.Piano)
)

// chart is a pass of one bar with chords a, b, c and so on, each so many eighths long.
func chart(eighths ...int64) timeline.Pass {
	p := passOf(1)
	p.Chords = nil
	at := int64(0)
	for i, n := range eighths {
		p.Chords = append(p.Chords, timeline.Span{Start: at, End: at + n*eighth,
			Chord: harmony.Chord{Suffix: string(rune('a' + i))}})
		at += n * eighth
	}
	return p
}

// inEighths are chords as they are played, with start and end in eighths, and after a > the
// beat that is pushed.
func inEighths(changes []Change) string {
	var out []string
	for _, c := range changes {
		text := fmt.Sprintf("%s%d-%d", c.Chord.Suffix, c.Start/eighth, c.End/eighth)
		if c.Pushed() {
			text += fmt.Sprintf(">%d", c.Nominal/eighth)
		}
		out = append(out, text)
	}
	return strings.Join(out, " ")
}

// A push brings the chord of its beat and nothing of the chords whose place it takes: a
// chord that would begin with the push and end at its beat is not played.
func TestWhatAPushBrings(t *testing.T) {
	for _, row := range []struct {
		name     string
		chords   []int64
		from, to int64
		want     string
	}{
		{"the chord of the beat cuts the one before short", []int64{4, 4}, 3, 4, "a0-3 b3-8>4"},
		{"the chord goes on over the beat", []int64{8}, 3, 4, "a0-3 a3-8>4"},
		{"a chord begins with the push and ends at the beat", []int64{2, 2, 4}, 2, 4, "a0-2 c2-8>4"},
		{"a chord begins after the push and ends at the beat", []int64{3, 1, 4}, 2, 4, "a0-2 c2-8>4"},
		{"a chord begins with the push and goes on", []int64{2, 6}, 2, 4, "a0-2 b2-8>4"},
		{"a chord begins after the push and goes on", []int64{3, 5}, 2, 4, "a0-2 b2-8>4"},
	} {
		p := chart(row.chords...)
		p.Events = []timeline.Event{{Kind: timeline.Push, Tick: row.from * eighth, End: row.from * eighth,
			Target: row.to * eighth, By: timeline.All}}
		if got := inEighths(Of(&p).Changes(timeline.Piano)); got != row.want {
			t.Errorf("%s: %s instead of %s", row.name, got, row.want)
		}
	}
}

// A player who is tacet in a pass strikes no cue in it.
func TestWhoKeepsOutStrikesNothing(t *testing.T) {
	for who := range timeline.Player(len(timeline.PlayerNames)) {
		passes := []timeline.Pass{passOf(2,
			timeline.Event{Kind: timeline.Accent, Tick: eighth, End: eighth, By: timeline.All, Weight: 2},
			timeline.Event{Kind: timeline.Fill, Tick: 6 * eighth, End: bar, By: timeline.All},
			timeline.Event{Kind: timeline.Push, Tick: 7 * eighth, End: 7 * eighth, Target: bar, By: timeline.All},
			timeline.Event{Kind: timeline.Push, Bar: 1, Tick: 2*bar - eighth, End: 2*bar - eighth, Target: 2 * bar,
				By: timeline.All}), passOf(1)}
		passes[0].Tacet = timeline.Only(who)
		Join(passes)
		c := Of(&passes[0])
		for _, q := range c.List {
			if q.By.Has(who) || q.Out.Has(who) {
				t.Errorf("%s keeps out and has %+v", who, q)
			}
		}
		if len(c.Pushes(who)) > 0 || c.End(who) != passes[0].Length {
			t.Errorf("%s keeps out, pushes at %+v and ends at %d", who, c.Pushes(who), c.End(who))
		}
		if c.Acts(1) == (who == timeline.Drums) {
			t.Errorf("without %s the fill acts: %v", who, c.Acts(1))
		}
	}
}

// A push out of a pass brings the next pass's chord, which has no chord and no bar here. The
// drummer plays it here; the others strike it there, if they are not tacet there, and with
// it an accent that is written on it.
func TestPushOutOfAPass(t *testing.T) {
	const push = bar - eighth
	passes := []timeline.Pass{passOf(1,
		timeline.Event{Kind: timeline.Accent, Tick: push, End: push, By: timeline.All, Weight: 2},
		timeline.Event{Kind: timeline.Push, Tick: push, End: push, Target: bar, By: timeline.All}), passOf(1)}
	passes[1].Tacet = piano
	Join(passes)
	c := Of(&passes[0])
	found := 0
	for _, q := range c.List {
		if q.At != push {
			continue
		}
		found++
		if q.Target != bar || q.By != drums || q.Out != bass {
			t.Errorf("%d to %d: by %v, in the next pass by %v", q.Kind, q.Target, q.By.Names(), q.Out.Names())
		}
		if q.Kind == Chord && (q.Span != -1 || q.Bar != 1) {
			t.Errorf("the push has chord %d and bar %d of a pass of one bar", q.Span, q.Bar)
		}
	}
	for _, q := range Of(&passes[1]).List {
		if q.Kind == Chord && q.Pushed() && (q.At != -eighth || q.By != bass || q.Out != drums) {
			t.Errorf("in the next pass at %d by %v, and in front of it by %v", q.At, q.By.Names(), q.Out.Names())
		}
	}
	if want := []Dropped{{0, piano, NextTacet}}; found != 2 || fmt.Sprint(c.Dropped) != fmt.Sprint(want) {
		t.Errorf("%d cues on the push; dropped %+v instead of %+v", found, c.Dropped, want)
	}
}

// An accent of everybody, where only the pianist pushes: the pianist strikes it with the
// push, the others where it is written, once.
func TestAccentOnThePushOfOne(t *testing.T) {
	const push = bar - eighth
	passes := []timeline.Pass{passOf(1,
		timeline.Event{Kind: timeline.Accent, Tick: push, End: push, By: timeline.All, Weight: 2},
		timeline.Event{Kind: timeline.Push, Tick: push, End: push, Target: bar, By: piano}), passOf(1)}
	Join(passes)
	var by [2]timeline.Players
	for i := range passes {
		for _, q := range Of(&passes[i]).List {
			if q.Kind == Accent {
				by[i] |= q.By
			}
		}
	}
	if by != [2]timeline.Players{drums | bass, piano} {
		t.Errorf("struck by %v, and in the next pass by %v", by[0].Names(), by[1].Names())
	}
}

// For an event that players play in different places, Events gives the place of the push, and
// the players who move.
func TestEventThatMovesForSome(t *testing.T) {
	const push = bar - eighth
	p := passOf(2, timeline.Event{Kind: timeline.Push, Tick: push, End: push, Target: bar, By: piano},
		timeline.Event{Kind: timeline.Accent, Bar: 1, Tick: bar, End: bar, By: timeline.All, Weight: 2})
	got := Events(&p)[1]
	if want := (Played{Acts: true, By: timeline.All, Moved: piano, At: push, Target: bar}); got != want {
		t.Errorf("%+v instead of %+v", got, want)
	}
}

// The cues of a pass are in order of time, and in the order of their kinds where they are in
// the same place.
func TestCuesInOrder(t *testing.T) {
	p := passOf(3, timeline.Event{Kind: timeline.Accent, End: 0, By: timeline.All, Weight: 2},
		timeline.Event{Kind: timeline.Space, Tick: eighth, End: bar},
		timeline.Event{Kind: timeline.Stop, Tick: 6 * eighth, End: 7 * eighth, By: timeline.All},
		timeline.Event{Kind: timeline.Push, Tick: 7 * eighth, End: 7 * eighth, Target: bar, By: timeline.All},
		timeline.Event{Kind: timeline.Accent, Bar: 1, Tick: bar, End: bar, By: timeline.All, Weight: 2},
		timeline.Event{Kind: timeline.Hold, Bar: 1, Tick: bar + eighth, End: bar + 2*eighth},
		timeline.Event{Kind: timeline.Fill, Bar: 1, Tick: bar + 6*eighth, End: 2 * bar, By: timeline.All})
	list := Of(&p).List
	for i := 1; i < len(list); i++ {
		if a, b := &list[i-1], &list[i]; a.At > b.At || a.At == b.At && a.Kind > b.Kind {
			t.Errorf("kind %d at %d comes before kind %d at %d", a.Kind, a.At, b.Kind, b.At)
		}
	}
	if len(list) < 9 {
		t.Errorf("only %d cues", len(list))
	}
}
