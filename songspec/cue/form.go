package cue

import (
	"iter"

	"plinth/songspec/timeline"
)

// form makes the cues that no event asks for: how the pass opens and how the song ends. A song of
// one bar is a loop, and does not end.
func (w *work) form() {
	w.opening()
	if w.pass.After != nil || len(w.pass.Bars) < 2 && w.pass.Before == nil {
		return
	}
	last := len(w.pass.Bars) - 1
	b := &w.pass.Bars[last]
	q := Cue{At: b.Start, Target: b.Start, Until: w.pass.Length, Event: -1, Span: -1, Bar: int32(last),
		By: w.playsAt(last)}
	for i := range w.pass.Chords { // the song comes to rest on its last chord
		q.At = max(q.At, w.pass.Chords[i].Start)
	}
	q.Target = q.At
	if w.restful(b.Start, q.At) { // an accent of the whole band on that chord is how it is struck
		q.Kind = Ending
		w.add(q)
		return
	}
	if q.At > b.Start {
		return
	}
	if end := w.deadEnd(last); end > 0 {
		q.Kind, q.Until = FinalHit, end
		w.add(q)
	}
}

// opening adds the opening, unless the pass comes in softer than what was before it. It is
// for the players who did not strike the first chord ahead of the bar line. The drummer has
// none where the first bar is for its written hits alone.
func (w *work) opening() {
	q := Cue{Kind: Opening, Until: w.pass.Length, Event: -1, Span: -1, By: w.playsAt(0)}
	if w.out.Alone[0] {
		q.By &^= drums
	}
	if e := w.pass.Entry; e != nil {
		q.By &^= e.By & drums
		for who := range w.out.of {
			if p := timeline.Player(who); e.By.Has(p) && !w.out.of[who].pushes.Begins(0) {
				q.By &^= timeline.Only(p)
			}
		}
	}
	if b := w.pass.Before; b != nil {
		if b.Energy > w.pass.EnergyFrom {
			return
		}
		q.Rises = b.Energy < w.pass.EnergyFrom
	}
	w.add(q)
}

// button reports whether the song ends on dry hits of the whole band, the first of them on its
// last bar line, and nothing else: no time goes on behind them. Common practice, no single source.
func (w *work) button() bool {
	last := len(w.pass.Bars) - 1
	if w.pass.After != nil || last < 1 {
		return false
	}
	start, first := w.pass.Bars[last].Start, w.pass.Length
	for _, e := range w.tasksFrom(start) {
		if e.Kind != timeline.Accent || !e.Short || !w.byAll(e) {
			return false
		}
		first = min(first, e.Tick)
	}
	return first == start
}

// tasksFrom are the events that give the band something to do from a tick on, with their indices.
func (w *work) tasksFrom(start int64) iter.Seq2[int, *timeline.Event] {
	return func(yield func(int, *timeline.Event) bool) {
		for i := range w.pass.Events {
			switch e := &w.pass.Events[i]; e.Kind {
			case timeline.Hold, timeline.Rit, timeline.Accel, timeline.Space, timeline.Cue:
			default:
				if max(e.End, e.Tick+1) > start && !yield(i, e) {
					return
				}
			}
		}
	}
}

// byAll reports whether an event names everybody who plays in its bar.
func (w *work) byAll(e *timeline.Event) bool {
	by := w.playsAt(e.Bar)
	return e.By&by == by
}

// restful reports whether the song file has nothing for the band to do from a tick on, but for
// hits of the whole band on its last chord that may ring. A push that nobody plays does not count,
// nor does a stop in which some go on, nor a caesura at its end.
func (w *work) restful(start, last int64) bool {
	for i, e := range w.tasksFrom(start) {
		counts := true
		switch e.Kind {
		case timeline.Push:
			counts = w.out.acts[i]
		case timeline.Accent:
			counts = e.Short || e.Alone || e.Tick != last || !w.byAll(e)
		case timeline.Stop:
			counts = w.stopsAll(e)
		case timeline.Caesura: // at the song's end it cuts off what rings
			counts = e.End < w.pass.Length
		}
		if counts {
			return false
		}
	}
	return true
}

// stopsAll reports whether nobody plays on in a stop.
func (w *work) stopsAll(e *timeline.Event) bool {
	by := w.playsAt(e.Bar)
	for who := range w.out.of {
		s, _ := w.out.of[who].silences.At(e.Tick)
		if by.Has(timeline.Player(who)) && s.End < e.End {
			return false
		}
	}
	return true
}

// deadEnd is where a stop begins that ends the song within a beat of its last bar line, with
// nothing new in that bar; 0 if there is none.
func (w *work) deadEnd(last int) int64 {
	b, end := &w.pass.Bars[last], int64(0)
	for i := range w.pass.Events {
		switch e := &w.pass.Events[i]; e.Kind {
		case timeline.Push:
			if w.out.acts[i] && e.Target >= b.Start {
				return 0
			}
		case timeline.Accent, timeline.Fill:
			if e.Tick >= b.Start {
				return 0
			}
		case timeline.Stop:
			if !w.stopsAll(e) {
				continue
			}
			if e.Tick <= b.Start && e.End > b.Start {
				return 0
			}
			if end == 0 && e.Tick > b.Start && e.Tick <= b.Start+b.Meter.PlayedBeat() && e.End >= w.pass.Length {
				end = e.Tick
			}
		}
	}
	return end
}
