package cue

import "plinth/songspec/timeline"

// Join fills in Before, After, Entry and Joint of every pass of a song: its neighbours, the
// push of its first chord, the accents that a neighbour writes on that push, and the stops
// after it. Call it when all passes are in order and have chords and bars.
func Join(passes []timeline.Pass) {
	for i := range passes {
		p := &passes[i]
		p.Before, p.After, p.Entry, p.Joint = nil, nil, nil, nil
		if i > 0 {
			b := &passes[i-1]
			p.Before = neighbour(b, len(b.Chords)-1, len(b.Bars)-1)
		}
		if i+1 < len(passes) {
			p.After = neighbour(&passes[i+1], 0, 0)
		}
	}
	for i := 1; i < len(passes); i++ {
		join(&passes[i-1], &passes[i])
	}
}

// neighbour is what the pass beside p may know of it. chord and bar are the indices of its
// chord and bar at the border.
func neighbour(p *timeline.Pass, chord, bar int) *timeline.Neighbour {
	return &timeline.Neighbour{
		Section: p.Section, Ordinal: p.Ordinal, Chord: p.Chords[chord].Chord, Energy: p.EnergyAt(bar),
		Feel: p.FeelAt(bar), BPM: p.BPMAt(bar), Meter: p.Meter, Bar: p.Bars[bar].Length, Tacet: p.TacetAt(bar),
		Band: p.BandIn(bar),
	}
}

// join finds the push that takes the first chord of after into before. The drummer plays it
// as part of before, the others as part of after, ahead of its first bar line. An accent
// struck with it may be written in either pass: on the push, between it and the bar line,
// or on the first beat. It is handed to the pass that plays it.
func join(before, after *timeline.Pass) {
	w := &work{pass: before, out: &Cues{}, leads: -1}
	w.stretches()
	w.addPushes(func(e *timeline.Event) bool { return e.Target >= before.Length })
	if w.leads < 0 {
		return
	}
	entry := before.Events[w.leads]
	push := entry.Tick
	entry.Bar, entry.Tick, entry.End, entry.Target = -1, push-before.Length, 0, 0
	entry.By = w.pushers(&before.Events[w.leads]) &^ after.TacetAt(0)
	after.Entry = &entry
	add := func(to *timeline.Pass, e timeline.Event, tick, target int64, bar int, by timeline.Players) {
		if by == 0 {
			return
		}
		e.Tick, e.End, e.Target, e.Bar, e.By, e.Alone = tick, tick, target, bar, by, false
		to.Joint = append(to.Joint, e)
	}
	for _, e := range before.Events {
		switch {
		case e.Kind == timeline.Accent && e.Tick >= push:
			add(after, e, entry.Tick, 0, 0, e.By&entry.By&pitched)
		case e.Kind == timeline.Stop && e.End > push:
			e.Tick, e.End = e.Tick-before.Length, e.End-before.Length
			after.Joint = append(after.Joint, e)
		}
	}
	// If another push begins on the first beat, an accent there is struck there.
	next := &work{pass: after, out: &Cues{}, leads: -1}
	next.stretches()
	next.addPushes(func(e *timeline.Event) bool { return e.Tick == 0 })
	for _, e := range after.Events {
		if e.Tick == 0 && e.Kind == timeline.Accent && !next.out.of[timeline.Drums].pushes.Begins(0) {
			add(before, e, push, before.Length, before.BarAt(push), e.By&entry.By&drums)
		}
	}
}
