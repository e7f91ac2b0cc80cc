package cue

import "plinth/songspec/timeline"

// Join tells the passes of a song what joins each to its neighbours: who they are, the
// push that takes a pass's first chord early, the accents that a neighbour writes on that
// push, and the stops behind it. It is called once all passes are in order.
func Join(passes []timeline.Pass) {
	for i := range passes {
		p := &passes[i]
		p.Before, p.After, p.Entry, p.Joint = nil, nil, nil, nil
		if i > 0 {
			b := &passes[i-1]
			p.Before = neighbour(b, len(b.Chords)-1, len(b.Bars)-1)
		}
		if i+1 < len(passes) {
			a := &passes[i+1]
			p.After = neighbour(a, 0, 0)
		}
	}
	for i := 1; i < len(passes); i++ {
		join(&passes[i-1], &passes[i])
	}
}

// neighbour is what the pass beside it may know of a pass, by its chord and its bar at the
// border.
func neighbour(p *timeline.Pass, chord, bar int) *timeline.Neighbour {
	return &timeline.Neighbour{
		Section: p.Section, Ordinal: p.Ordinal, Chord: p.Chords[chord].Chord, Energy: p.EnergyAt(bar),
		Feel: p.Feel, BPM: p.BPM, Bar: p.Bars[bar].Length, Tacet: p.Tacet,
	}
}

// join finds the push out of a pass that takes the next one's first chord early. The
// drummer marks it in the pass that ends; the others strike it in the pass that begins,
// ahead of its first bar line. An accent on it may be written on the push, between it
// and the bar line, or on the first beat, in one pass or in the other: it goes to the
// pass that plays the stroke.
func join(before, after *timeline.Pass) {
	w := &work{pass: before, out: &Cues{}, leads: -1}
	w.stretches()
	for i := range before.Events {
		if e := &before.Events[i]; e.Kind == timeline.Push && e.Target >= before.Length {
			w.addPush(int32(i), e)
		}
	}
	if w.leads < 0 {
		return
	}
	entry := before.Events[w.leads]
	push := entry.Tick
	entry.Bar, entry.Tick, entry.End, entry.Target = -1, push-before.Length, 0, 0
	entry.By = w.pushers(&before.Events[w.leads]) &^ after.Tacet
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
	// A push that begins on the first beat has the accent there: something is struck.
	opens := &work{pass: after, out: &Cues{}, leads: -1}
	opens.stretches()
	for i := 0; i < len(after.Events) && after.Events[i].Tick == 0; i++ {
		if e := &after.Events[i]; e.Kind == timeline.Push {
			opens.addPush(int32(i), e)
		}
	}
	for i := 0; i < len(after.Events) && after.Events[i].Tick == 0; i++ {
		if e := after.Events[i]; e.Kind == timeline.Accent && !opens.out.pushes[timeline.Drums].Begins(0) {
			add(before, e, push, before.Length, before.BarAt(push), e.By&entry.By&drums)
		}
	}
}
