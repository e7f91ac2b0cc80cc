package cue

import (
	"testing"

	"plinth/songspec/timeline"
)

const bar = 3840

// passOf is a pass in 4/4 with one chord for each bar.
func passOf(bars int, events ...timeline.Event) timeline.Pass {
	p := timeline.Pass{Length: int64(bars) * bar, Events: events}
	for i := 0; i < bars; i++ {
		at := int64(i) * bar
		p.Bars = append(p.Bars, timeline.Bar{Start: at, Length: bar})
		p.Chords = append(p.Chords, timeline.Span{Start: at, End: at + bar})
	}
	return p
}

// An accent on a push over the border, between it and the bar line, or on the beat that
// is pushed, is struck with the push by the players of both events: by the drummer in the
// pass that ends, by the others in the pass that begins.
func TestAccentOnThePushOverTheBorder(t *testing.T) {
	drums, bass, piano := timeline.Only(timeline.Drums), timeline.Only(timeline.Bass), timeline.Only(timeline.Piano)
	const push = 2*bar - eighth
	for _, row := range []struct {
		name         string
		at           int64 // from the first pass's start
		push, accent timeline.Players
		first, next  timeline.Players // who strikes it early, in either pass
	}{
		{"on the push", push, timeline.All, timeline.All, drums, bass | piano},
		{"in between", push + eighth/2, timeline.All, timeline.All, drums, bass | piano},
		{"on the beat", 2 * bar, timeline.All, timeline.All, drums, bass | piano},
		{"the push is the pianist's", 2 * bar, piano, timeline.All, 0, piano},
		{"the accent is the bassist's", 2 * bar, timeline.All, bass, 0, bass},
		{"nobody does both", 2 * bar, drums, piano, 0, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			accent := timeline.Event{Kind: timeline.Accent, Tick: row.at, End: row.at, Bar: 1, By: row.accent,
				Weight: 3,
				Alone:  true}
			out := timeline.Event{Kind: timeline.Push, Bar: 1, Tick: push, Target: 2 * bar, By: row.push}
			passes := []timeline.Pass{passOf(2, out), passOf(2)}
			if row.at < 2*bar {
				passes[0].Events = append(passes[0].Events, accent)
			} else {
				accent.Tick, accent.End, accent.Bar = 0, 0, 0
				passes[1].Events = append(passes[1].Events, accent)
			}
			Join(passes)
			var got, others [2]timeline.Players
			for i := range passes {
				for _, q := range Of(&passes[i]).List {
					if q.Kind != Accent || q.At != [2]int64{push, -eighth}[i] {
						continue
					}
					got[i] |= q.By
					others[i] |= q.Out
					if q.Weight != 3 || q.Target != [2]int64{2 * bar, 0}[i] {
						t.Errorf("pass %d: %+v", i, q)
					}
				}
			}
			if got != [2]timeline.Players{row.first, row.next} {
				t.Errorf("struck by %v and %v, want %v and %v", got[0].Names(), got[1].Names(), row.first.Names(),
					row.next.Names())
			}
			if row.at < 2*bar && others[0] != row.next || row.at == 2*bar && others[1] != row.first {
				t.Errorf("struck in the neighbour by %v and %v", others[0].Names(), others[1].Names())
			}
		})
	}
}

// A push brings nothing early into a pass that begins on N.C., into a pass where its players
// are tacet, and over the song's end. Each gives its reason.
func TestPushLeadsNowhere(t *testing.T) {
	for _, row := range []struct {
		name  string
		next  func(p *timeline.Pass)
		alone bool
		why   Reason
	}{
		{"N.C.", func(p *timeline.Pass) { p.Chords[0].Chord.None = true }, false, NoChord},
		{"tacet", func(p *timeline.Pass) { p.Tacet = timeline.All }, false, NextTacet},
		{"the end", nil, true, SongEnds},
	} {
		push := timeline.Event{Kind: timeline.Push, Tick: bar - eighth, Target: bar, By: timeline.All}
		passes := []timeline.Pass{passOf(1, push), passOf(1)}
		if row.alone {
			passes = passes[:1]
		} else {
			row.next(&passes[1])
		}
		Join(passes)
		c := Of(&passes[0])
		if c.Acts(0) || len(c.Dropped) != 1 || c.Dropped[0].Why != row.why || c.End(timeline.Bass) != bar {
			t.Errorf("%s: acts %v, dropped %+v, the bass ends at %d", row.name, c.Acts(0), c.Dropped,
				c.End(timeline.Bass))
		}
		if !row.alone && passes[1].Entry != nil {
			t.Errorf("%s: an entry out of nowhere", row.name)
		}
	}
}
