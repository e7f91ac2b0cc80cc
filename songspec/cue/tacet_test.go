package cue

import (
	"fmt"
	"testing"

	"plinth/songspec/timeline"
)

// without is a pass of bars in the third of which players keep out.
func without(by timeline.Players, events ...timeline.Event) timeline.Pass {
	p := passOf(5, events...)
	p.Bars[2].Tacet = by
	return p
}

// Players who keep out of a bar are silent in it alone, and come in again on the bar line.
func TestTacetInABar(t *testing.T) {
	p := without(bass | piano)
	c := Of(&p)
	for who := range timeline.Player(len(timeline.PlayerNames)) {
		want, entries := "[]", "[]"
		if (bass | piano).Has(who) {
			want, entries = fmt.Sprint(Stretches{{2 * bar, 3 * bar}}), fmt.Sprint([]int64{3 * bar})
		}
		if got := fmt.Sprint(c.Silences(who)); got != want {
			t.Errorf("the %s: silent in %s instead of %s", who, got, want)
		}
		if got := fmt.Sprint(c.Entries(who)); got != entries {
			t.Errorf("the %s: enters at %s instead of %s", who, got, entries)
		}
	}
	for _, q := range c.List {
		if in := q.Bar == 2; q.Kind == Chord && in == q.By.Has(timeline.Piano) {
			t.Errorf("the chord of bar %d is struck by %v", q.Bar+1, q.By.Names())
		}
	}
}

// Events and pushes do not concern those who keep out of their bar, nor of the bar that a push
// leads to; the reason says so.
func TestEventsOfThoseWhoKeepOut(t *testing.T) {
	in := func(kind timeline.EventKind, at, to int64, by timeline.Players) timeline.Event {
		return timeline.Event{Kind: kind, Bar: int(at / bar), Tick: at, End: to, Target: to, By: by, Weight: 2}
	}
	for _, row := range []struct {
		name  string
		event timeline.Event
		tacet timeline.Players
		by    timeline.Players // who plays it
		drops []Dropped
	}{
		{"an accent", in(timeline.Accent, 2*bar, 2*bar, timeline.All), piano, drums | bass,
			[]Dropped{{0, piano, Tacet}}},
		{"an accent of theirs", in(timeline.Accent, 2*bar, 2*bar, piano), piano, 0, []Dropped{{0, piano, Tacet}}},
		{"an accent after it", in(timeline.Accent, 3*bar, 3*bar, timeline.All), piano, timeline.All, nil},
		{"a push into it", in(timeline.Push, 2*bar-eighth, 2*bar, timeline.All), piano, drums | bass,
			[]Dropped{{0, piano, NextTacet}}},
		{"a push inside it", in(timeline.Push, 2*bar+eighth, 2*bar+2*eighth, timeline.All), drums, pitched,
			[]Dropped{{0, drums, Tacet}}},
		{"a push out of it", in(timeline.Push, 3*bar-eighth, 3*bar, timeline.All), bass, drums | piano,
			[]Dropped{{0, bass, Tacet}}},
		{"a fill", in(timeline.Fill, 3*bar-2*eighth, 3*bar, drums), drums, 0, []Dropped{{0, drums, Tacet}}},
		{"a stop", in(timeline.Stop, 2*bar+eighth, 3*bar, timeline.All), bass, drums | piano, nil},
		{"a stop of nobody else", in(timeline.Stop, 2*bar+eighth, 3*bar, bass), bass, 0, []Dropped{{0, bass, Tacet}}},
	} {
		p := without(row.tacet, row.event)
		if got := fmt.Sprint(Of(&p).Dropped); got != fmt.Sprint(row.drops) {
			t.Errorf("%s: dropped %s instead of %v", row.name, got, row.drops)
		}
		if got := Events(&p)[0]; got.By != row.by || got.Acts != (row.by != 0) {
			t.Errorf("%s: played by %v instead of %v", row.name, got.By.Names(), row.by.Names())
		}
	}
}

// At a border, what a pass knows of the next is who keeps out of its first bar.
func TestJoinWithBarsTacet(t *testing.T) {
	push := timeline.Event{Kind: timeline.Push, Tick: bar - eighth, End: bar, Target: bar, By: timeline.All}
	passes := []timeline.Pass{passOf(1, push), passOf(2)}
	passes[1].Bars[0].Tacet = piano | drums
	Join(passes)
	if got := passes[0].After.Tacet; got != piano|drums {
		t.Errorf("after the border %v keep out", got.Names())
	}
	if got := passes[1].Entry.By &^ drums; got != bass {
		t.Errorf("the push over the border is struck by %v", got.Names())
	}
	if q := Of(&passes[1]); q.List[q.Opening].By != 0 {
		t.Errorf("%v open the second pass", q.List[q.Opening].By.Names())
	}
}

// In a stop of some the others play on: the song comes to rest under it, and no last hit stops it dead.
func TestStopOfSome(t *testing.T) {
	for _, row := range []struct {
		by, tacet     timeline.Players
		rests, hitEnd bool
	}{
		{timeline.All, 0, false, true},
		{bass | piano, 0, true, false},
		{bass | piano, drums, false, true},
	} {
		p := passOf(2, timeline.Event{Kind: timeline.Stop, Bar: 1, Tick: bar + 2*eighth, End: 2 * bar, By: row.by})
		for i := range p.Bars {
			p.Bars[i].Meter.Num, p.Bars[i].Meter.Den = 4, 4
		}
		p.Bars[1].Tacet = row.tacet
		c := Of(&p)
		if (c.Ending >= 0) != row.rests || (c.FinalHit >= 0) != row.hitEnd {
			t.Errorf("a stop of %v without %v: rests %t, last hit %t", row.by.Names(), row.tacet.Names(), c.Ending >= 0,
				c.FinalHit >= 0)
		}
		for who := range timeline.Player(len(timeline.PlayerNames)) {
			if got := c.Silences(who).Has(bar + 3*eighth); got != (row.by | row.tacet).Has(who) {
				t.Errorf("a stop of %v: the %s silent %t", row.by.Names(), who, got)
			}
		}
	}
}
