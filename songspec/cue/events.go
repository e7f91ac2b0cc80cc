package cue

import "plinth/songspec/timeline"

// Played is how an event of a pass is played: by whom, here or in a neighbour pass, and
// where. Ticks are relative to the pass.
type Played struct {
	Acts       bool   // it does anything at all
	Why        Reason // where it does not
	By         timeline.Players
	Moved      timeline.Players // those of them who play an accent with a push
	At, Target int64            // as in its cue; of an accent that moves for some, where it moves to
}

// Events are the events of a pass as they are played, in the order of Pass.Events. It is
// what Of finds of them, without the chords.
func Events(p *timeline.Pass) []Played {
	w := newWork(p)
	w.accents()
	w.others()
	out := make([]Played, len(p.Events))
	for _, d := range w.out.Dropped {
		out[d.Event].Why = d.Why
	}
	add := func(q *Cue) {
		e := &out[q.Event]
		if !e.Acts || q.Early {
			e.At, e.Target = q.At, q.Target
		}
		e.Acts, e.By = true, e.By|q.By|q.Out
		if q.Early {
			e.Moved |= q.By | q.Out
		}
	}
	for i := range w.out.List {
		if q := &w.out.List[i]; q.Event >= 0 {
			add(q)
		}
	}
	for i := range p.Events {
		if q, ok := w.pushCue(int32(i)); ok {
			add(&q)
		}
	}
	return out
}
