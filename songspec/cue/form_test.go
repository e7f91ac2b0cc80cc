package cue

import (
	"testing"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// A pass has an opening unless it is softer than what was before it, for the players who
// have not struck its first chord already. Whoever begins another push on its first beat
// strikes there again. In a bar for its written hits alone the drummer has no opening.
func TestOpening(t *testing.T) {
	into := func(by timeline.Players) timeline.Event {
		return timeline.Event{Kind: timeline.Push, Tick: bar - eighth, End: bar - eighth, Target: bar, By: by}
	}
	again := timeline.Event{Kind: timeline.Push, Target: 2 * eighth, By: timeline.All}
	hits := timeline.Event{Kind: timeline.Accent, Tick: eighth, End: eighth, By: timeline.All, Weight: 2, Alone: true}
	for _, row := range []struct {
		name          string
		before, here  int // energies
		first, second []timeline.Event
		opens         bool
		by            timeline.Players
		rises         bool
	}{
		{"as strong as what was before", 3, 3, nil, nil, true, timeline.All, false},
		{"stronger", 3, 4, nil, nil, true, timeline.All, true},
		{"less strong", 4, 3, nil, nil, false, 0, false},
		{"pushed by everybody", 3, 4, []timeline.Event{into(timeline.All)}, nil, true, 0, true},
		{"pushed by the pianist", 3, 4, []timeline.Event{into(piano)}, nil, true, drums | bass, true},
		{"pushed by everybody, and again", 3, 4, []timeline.Event{into(timeline.All)}, []timeline.Event{again}, true,
			pitched, true},
		{"a bar of written hits", 3, 4, nil, []timeline.Event{hits}, true, pitched, true},
	} {
		passes := []timeline.Pass{passOf(1, row.first...), passOf(1, row.second...)}
		passes[0].EnergyFrom, passes[0].EnergyTo = row.before, row.before
		passes[1].EnergyFrom, passes[1].EnergyTo = row.here, row.here
		Join(passes)
		c := Of(&passes[1])
		if c.Opening < 0 || !row.opens {
			if (c.Opening >= 0) != row.opens {
				t.Errorf("%s: opens %v", row.name, !row.opens)
			}
			continue
		}
		if q := c.List[c.Opening]; q.By != row.by || q.Rises != row.rises {
			t.Errorf("%s: by %v, rises %t, want %v, %t", row.name, q.By.Names(), q.Rises, row.by.Names(), row.rises)
		}
	}
}

// A song comes to rest on its last bar, or stops dead there after a last hit, if a stop
// follows within a beat, or just plays to its end.
func TestHowASongEnds(t *testing.T) {
	const beat = 2 * eighth
	stop := func(from, to int64) timeline.Event {
		return timeline.Event{Kind: timeline.Stop, Bar: 1, Tick: bar + from, End: bar + to, By: timeline.All}
	}
	hit := func(tick int64, by timeline.Players, short bool) timeline.Event {
		return timeline.Event{Kind: timeline.Accent, Bar: 1, Tick: bar + tick, End: bar + tick, By: by, Short: short}
	}
	for _, row := range []struct {
		name   string
		bars   int
		events []timeline.Event
		kind   Kind // Chord where there is none
		until  int64
	}{
		{"two bars", 2, nil, Ending, 2 * bar},
		{"one bar", 1, nil, Chord, 0},
		{"stopped on the second beat", 2, []timeline.Event{stop(beat, bar)}, FinalHit, bar + beat},
		{"stopped before it, and on it again", 2, []timeline.Event{stop(eighth, bar), stop(beat, bar)}, FinalHit,
			bar + eighth},
		{"stopped after the second beat", 2, []timeline.Event{stop(beat+1, bar)}, Chord, 0},
		{"stopped for a beat", 2, []timeline.Event{stop(beat, 2*beat)}, Chord, 0},
		{"stopped at once", 2, []timeline.Event{stop(0, bar)}, Chord, 0},
		{"a hit of all that rings", 2, []timeline.Event{hit(0, timeline.All, false)}, Ending, 2 * bar},
		{"a hit of some", 2, []timeline.Event{hit(0, drums, false)}, Chord, 0},
		{"a later hit", 2, []timeline.Event{hit(beat, timeline.All, false)}, Chord, 0},
		{"a dry hit", 2, []timeline.Event{hit(0, timeline.All, true)}, Chord, 0},
	} {
		p := passOf(row.bars, row.events...)
		for i := range p.Bars {
			p.Bars[i].Meter = meter.Common
		}
		c := Of(&p)
		kind, until := Chord, int64(0)
		for _, i := range []int32{c.Ending, c.FinalHit} {
			if i >= 0 {
				kind, until = c.List[i].Kind, c.List[i].Until
			}
		}
		if kind != row.kind || until != row.until {
			t.Errorf("%s: kind %d to %d, want kind %d to %d", row.name, kind, until, row.kind, row.until)
		}
	}
}

// A last pass of one bar, as of a section cut to its last one, comes to rest as a longer one does; a
// song of one bar is a loop.
func TestALastPassOfOneBarComesToRest(t *testing.T) {
	passes := []timeline.Pass{passOf(2), passOf(1)}
	Join(passes)
	if c := Of(&passes[1]); c.Ending < 0 || c.List[c.Ending].At != 0 || c.List[c.Ending].By != timeline.All {
		t.Errorf("behind two bars: ending %d of %+v", c.Ending, c.List)
	}
	alone := passOf(1)
	if c := Of(&alone); c.Ending >= 0 {
		t.Errorf("alone: %+v", c.List[c.Ending])
	}
}

// Where the last bar has several chords the song comes to rest on the last of them, but does
// not stop dead there.
func TestTheLastOfSeveralChords(t *testing.T) {
	for _, stop := range []bool{false, true} {
		p := passOf(2)
		p.Chords[1].End = bar + bar/2
		p.Chords = append(p.Chords, timeline.Span{Start: bar + bar/2, End: 2 * bar})
		if stop {
			p.Events = []timeline.Event{{Kind: timeline.Stop, Bar: 1, Tick: bar + bar/4, End: 2 * bar,
				By: timeline.All}}
		}
		for i := range p.Bars {
			p.Bars[i].Meter = meter.Common
		}
		c := Of(&p)
		switch {
		case !stop && (c.Ending < 0 || c.List[c.Ending].At != bar+bar/2 || c.List[c.Ending].Bar != 1):
			t.Errorf("the ending is cue %d of %+v", c.Ending, c.List)
		case stop && (c.Ending >= 0 || c.FinalHit >= 0):
			t.Errorf("with a stop: ending %d, last hit %d", c.Ending, c.FinalHit)
		}
	}
}

// Dry hits of the whole band on the song's last bar line and behind it are all that is played in
// that bar: a button. Common practice, no single source.
func TestButton(t *testing.T) {
	hit := func(tick int64, by timeline.Players) timeline.Event {
		return timeline.Event{Kind: timeline.Accent, Bar: int(tick / bar), Tick: tick, End: tick, By: by, Short: true}
	}
	rings := hit(bar, timeline.All)
	rings.Short = false
	fill := timeline.Event{Kind: timeline.Fill, Bar: 1, Tick: bar + bar/2, End: 2 * bar, By: drums}
	for _, row := range []struct {
		name   string
		events []timeline.Event
		more   bool // another pass comes
		button bool
	}{
		{"one hit", []timeline.Event{hit(bar, timeline.All)}, false, true},
		{"two hits", []timeline.Event{hit(bar, timeline.All), hit(bar+bar/2, timeline.All)}, false, true},
		{"hits before it, too", []timeline.Event{hit(bar/2, drums), hit(bar, timeline.All)}, false, true},
		{"after time", []timeline.Event{hit(bar+bar/2, timeline.All)}, false, false},
		{"by the drums", []timeline.Event{hit(bar, drums)}, false, false},
		{"one that rings", []timeline.Event{rings}, false, false},
		{"a fill behind it", []timeline.Event{hit(bar, timeline.All), fill}, false, false},
		{"no end", []timeline.Event{hit(bar, timeline.All)}, true, false},
	} {
		p := passOf(2, row.events...)
		for i := range p.Bars {
			p.Bars[i].Meter = meter.Common
		}
		if row.more {
			p.After = &timeline.Neighbour{}
		}
		if c := Of(&p); c.Alone[1] != row.button || c.Alone[0] {
			t.Errorf("%s: nothing but hits in bars %v, want it in the last: %t", row.name, c.Alone, row.button)
		}
	}
}
