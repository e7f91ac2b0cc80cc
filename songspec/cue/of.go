package cue

import (
	"cmp"
	"slices"

	"plinth/songspec/timeline"
)

// work is a pass whose cues are being worked out.
type work struct {
	pass  *timeline.Pass
	out   *Cues
	leads int32 // the event that pushes the next pass's first chord into this one; -1: none
}

// The drummer strikes no chords, the pitched players do.
const (
	drums   = timeline.Players(1 << timeline.Drums)
	pitched = timeline.All &^ drums
)

// newWork begins with what all cues of a pass depend on: where it is silent, and who pushes.
func newWork(p *timeline.Pass) *work {
	out := &Cues{Alone: make([]bool, len(p.Bars)), acts: make([]bool, len(p.Events)), length: p.Length}
	w := &work{pass: p, out: out, leads: -1}
	w.stretches()
	w.findPushes()
	return w
}

// Of returns the cues of a pass. It looks at the pass alone: Join has put into it what its
// neighbours have to do with it.
func Of(p *timeline.Pass) *Cues {
	w := newWork(p)
	w.chords()
	w.accents()
	w.others()
	w.form()
	slices.SortStableFunc(w.out.List, func(a, b Cue) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Kind, b.Kind))
	})
	w.settle()
	return w.out
}

// Acts reports whether an event of the pass is played by anybody.
func (c *Cues) Acts(event int) bool { return c.acts[event] }

func (w *work) add(q Cue) { w.out.List = append(w.out.List, q) }

// drop notes that players do not play an event.
func (w *work) drop(event int32, by timeline.Players, why Reason) {
	if by != 0 {
		w.out.Dropped = append(w.out.Dropped, Dropped{event, by, why})
	}
}

// plays are the players who are not tacet.
func (w *work) plays() timeline.Players { return timeline.All &^ w.pass.Tacet }

// stretches finds the silences, the held beats and the rits.
func (w *work) stretches() {
	w.findSilences()
	for i := range w.pass.Events {
		switch e := &w.pass.Events[i]; e.Kind {
		case timeline.Hold:
			w.out.Holds = append(w.out.Holds, Stretch{e.Tick + 1, e.End})
		case timeline.Rit:
			w.out.Rits = w.out.Rits.with(e.Tick, e.End)
		}
	}
}

// findPushes finds the pushes of every player, and where each player's part ends.
func (w *work) findPushes() {
	if e := w.pass.Entry; e != nil {
		for who := range w.out.of {
			if e.By.Has(timeline.Player(who)) {
				w.out.of[who].pushes = Pushes{{From: e.Tick, To: 0}}
			}
		}
	}
	w.addPushes(func(*timeline.Event) bool { return true })
	for who := range w.out.of {
		w.out.of[who].end = w.pass.Length
		if pushes := w.out.of[who].pushes; len(pushes) > 0 && pushes[len(pushes)-1].Out {
			w.out.of[who].end = pushes[len(pushes)-1].From
		}
	}
}

// otherKinds are the cues of the events that are no hits and no pushes.
var otherKinds = map[timeline.EventKind]Kind{timeline.Stop: Stop, timeline.Fill: Fill, timeline.Hold: Hold,
	timeline.Rit: Rit, timeline.Accel: Accel, timeline.Space: Space,
	timeline.Cue: Signal, timeline.Caesura: Caesura}

// others makes cues of the stops, fills, holds, rits, accels, spaces, signals and caesuras.
func (w *work) others() {
	for i := range w.pass.Events {
		e := &w.pass.Events[i]
		q := Cue{At: e.Tick, Target: e.Tick, Until: e.End, Event: int32(i), Span: -1, Bar: int32(e.Bar),
			By: w.playsAt(e.Bar)}
		var ok bool
		if q.Kind, ok = otherKinds[e.Kind]; !ok {
			continue
		}
		if e.Kind == timeline.Caesura {
			q.At, q.Target = e.Cut, e.Cut
		}
		if e.Kind == timeline.Stop {
			if q.By &= e.By; q.By == 0 {
				w.drop(int32(i), e.By, Tacet)
				continue
			}
		}
		if e.Kind == timeline.Fill {
			q.By &= e.By & drums
			q.Until = w.out.of[timeline.Drums].silences.Next(e.Tick, e.End)
			why := w.whySilent(timeline.Drums, e.Tick)
			switch {
			case why == Tacet:
				w.drop(int32(i), e.By&drums, why)
				continue
			case q.By == 0:
				continue
			case w.out.Alone[w.pass.BarAt(e.Tick)]:
				w.drop(int32(i), e.By, HitsAlone)
				continue
			case why != Unsaid:
				w.drop(int32(i), e.By, why)
				continue
			}
		}
		w.out.acts[i] = true
		w.add(q)
	}
}

// settle fills in the indices into List, which is complete and in order now.
func (w *work) settle() {
	w.out.Opening, w.out.Ending, w.out.FinalHit = -1, -1, -1
	for i := range w.out.List {
		switch w.out.List[i].Kind {
		case Opening:
			w.out.Opening = int32(i)
		case Ending:
			w.out.Ending = int32(i)
		case FinalHit:
			w.out.FinalHit = int32(i)
		}
	}
	for who := range w.out.of {
		at := 0 // a list that several share is gone through again
		for k := range w.out.of[who].changes {
			c := &w.out.of[who].changes[k]
			for q := w.out.List[at:]; q[0].Kind != Chord || q[0].At != c.Start || q[0].Target != c.Nominal; q = q[1:] {
				at++
			}
			c.Cue = int32(at)
		}
	}
	slices.SortStableFunc(w.out.Dropped, func(a, b Dropped) int { return cmp.Compare(a.Event, b.Event) })
}
