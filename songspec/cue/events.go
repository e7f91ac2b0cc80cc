package cue

import "plinth/songspec/timeline"

// Played is how an event of a pass is played: by whom, in this pass or a neighbour, and
// where. Ticks are relative to the pass.
type Played struct {
	Acts       bool   // somebody plays it
	Why        Reason // why nobody does
	By         timeline.Players
	Moved      timeline.Players // those of By who play an accent with a push
	At, Target int64            // as in its cue; for an accent that moves for some players, where it moves to
}

// Events says how each event of a pass is played, in the order of Pass.Events. It agrees
// with Of, and costs less.
func Events(p *timeline.Pass) []Played {
	w := newWork(p)
	w.accents()
	w.others()
	out := make([]Played, len(p.Events))
	for _, d := range w.out.Dropped {
		out[d.Event].Why = d.Why
	}
	cues := w.out.List
	for i := range p.Events {
		if q, ok := w.pushCue(int32(i)); ok {
			cues = append(cues, q)
		}
	}
	for _, q := range cues {
		if q.Event < 0 {
			continue
		}
		e := &out[q.Event]
		if !e.Acts || q.Early {
			e.At, e.Target = q.At, q.Target
		}
		e.Acts, e.By = true, e.By|q.By|q.Out
		if q.Early {
			e.Moved |= q.By | q.Out
		}
	}
	return out
}
