package cue

import (
	"slices"
	"sort"

	"plinth/songspec/timeline"
)

// chords makes a cue of every chord that a player begins. Players who begin it together
// share the cue. N.C. has a cue too, which nobody strikes.
func (w *work) chords() {
	var left [len(timeline.PlayerNames)][]Change // what is not among the cues yet
	most := 0
	for i := range left {
		who := timeline.Player(i)
		if !who.Chords() {
			continue
		}
		left[i] = w.changesLike(who)
		w.out.of[i].changes = left[i]
		most = max(most, len(left[i]))
	}
	w.out.List = make([]Cue, 0, most+2*len(w.pass.Events)+3)
	for {
		c, by := (*Change)(nil), timeline.Players(0)
		for i, list := range left {
			if len(list) == 0 {
				continue
			}
			switch q := &list[0]; {
			case c == nil || q.Start < c.Start || q.Start == c.Start && q.Nominal < c.Nominal:
				c, by = q, timeline.Only(timeline.Player(i))
			case q.Start == c.Start && q.Nominal == c.Nominal:
				by |= timeline.Only(timeline.Player(i))
			}
		}
		if c == nil {
			break
		}
		w.chord(c, by)
		for i := range left {
			if by.Has(timeline.Player(i)) {
				left[i] = left[i][1:]
			}
		}
	}
	w.drummersPushes()
}

// changesLike are a player's changes: those of a player before him who pushes the same,
// as they mostly do, or his own.
func (w *work) changesLike(who timeline.Player) []Change {
	for other := range who {
		if other.Chords() && slices.Equal(w.out.of[who].pushes, w.out.of[other].pushes) {
			return w.out.of[other].changes
		}
	}
	return w.changesOf(who)
}

// chord adds the cue of a chord that these players begin.
func (w *work) chord(c *Change, by timeline.Players) {
	q := Cue{Kind: Chord, At: c.Start, Target: c.Nominal, Until: c.End, Event: -1, Span: c.span,
		Bar: int32(w.pass.BarAt(c.Nominal))}
	if !c.Chord.None {
		q.By = by & w.playsAt(int(q.Bar))
	}
	if c.Start < 0 {
		q.Out = w.pass.Entry.By & drums
	}
	w.add(q)
}

// drummersPushes adds the drummer to the cues of the chords that he pushes, and adds a cue
// where he pushes alone or the chord is the next pass's. The cues of the others are there
// already, in order.
func (w *work) drummersPushes() {
	n := len(w.out.List)
	for i := range w.pass.Events {
		q, ok := w.pushCue(int32(i))
		if !ok {
			continue
		}
		w.out.acts[i] = true
		q.By &= drums
		chords := w.out.List[:n]
		k := sort.Search(n, func(k int) bool { return chords[k].At >= q.At })
		for k < n && chords[k].At == q.At && chords[k].Target != q.Target {
			k++
		}
		if k < n && chords[k].At == q.At {
			chords[k].By, chords[k].Event = chords[k].By|q.By, q.Event
			continue
		}
		w.add(q)
	}
}

// pushCue is the cue of an event if it is a push: who strikes it here, and who strikes it in
// the next pass. It is false if the event is no push or nobody pushes.
func (w *work) pushCue(event int32) (Cue, bool) {
	e := &w.pass.Events[event]
	if e.Kind != timeline.Push {
		return Cue{}, false
	}
	by := w.pushers(e)
	q := Cue{Kind: Chord, At: e.Tick, Target: e.Target, Until: e.Target, Event: event, By: by}
	if e.Target < w.pass.Length {
		q.Span, q.Bar = int32(w.pass.SpanAt(e.Target)), int32(w.pass.BarAt(e.Target))
		q.Until = w.pass.Chords[q.Span].End
		return q, by != 0
	}
	q.Span, q.Bar, q.By = -1, int32(len(w.pass.Bars)), by&drums
	if a := w.pass.After; a != nil {
		q.Out = by & pitched &^ a.Tacet
	}
	return q, by != 0
}

// pushers are the players of a push who do push there.
func (w *work) pushers(e *timeline.Event) timeline.Players {
	var by timeline.Players
	for who := range w.out.of {
		push, begins := w.out.of[who].pushes.at(e.Tick)
		if p := timeline.Player(who); begins && push.To == e.Target && e.By.Has(p) {
			by |= timeline.Only(p)
		}
	}
	return by
}
