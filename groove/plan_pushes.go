package groove

import (
	"sort"

	"plinth/songspec/timeline"
)

// pushes reports whether an event is a push of a player's. One that falls into a
// stop is none: nobody would hear the chord come early, and it is struck where it is
// written.
func (p *plan) pushes(e *timeline.Event, who timeline.Player) bool {
	return e.Kind == timeline.Push && e.By.Has(who) && !inSpan(p.silences(), e.Tick)
}

// pushAll lets every push of a player bring its chord forward. Pushes come in
// order, so that the chords before one are done with and those after it untouched:
// each looks only at the few between, and a long pass of many pushes costs no more
// a bar than a short one.
func (p *plan) pushAll(who timeline.Player, in []change) []change {
	var out, near []change
	next, done := 0, 0 // in[next:] is untouched, out[:done] is done with
	for i := range p.pass.Events {
		e := &p.pass.Events[i]
		if !p.pushes(e, who) {
			continue
		}
		if out == nil {
			out = make([]change, 0, cap(in))
		}
		for ; next < len(in) && in[next].Nominal <= e.Target; next++ {
			out = append(out, in[next])
		}
		for done < len(out) && out[done].End <= e.Tick && out[done].Nominal != e.Target {
			done++
		}
		near = append(near[:0], out[done:]...)
		out = pushed(out[:done], near, e)
	}
	if out == nil {
		return in
	}
	return append(out, in[next:]...)
}

// pushed brings the chord at e.Target forward to e.Tick and appends what becomes
// of the chords to out. When no chord changes at the target, the one in force there
// is struck early.
func pushed(out, in []change, e *timeline.Event) []change {
	for _, c := range in {
		switch {
		case c.Nominal == e.Target: // the chord that comes early
			c.Start, c.Pushed = min(c.Start, e.Tick), true
		case c.Nominal > e.Target || c.End <= e.Tick: // out of reach
		case c.Start >= e.Tick && c.End <= e.Target: // swallowed whole by the push
			continue
		case c.Start >= e.Tick: // begins inside the push and goes on past its target
			c.Start, c.Nominal, c.Pushed = e.Tick, e.Target, true
		case c.End <= e.Target: // what the push cuts short
			c.End = e.Tick
		default: // no change at the target: the same chord struck early
			tail := c
			c.End = e.Tick
			tail.Start, tail.Nominal, tail.Pushed = e.Tick, e.Target, true
			out = append(out, c)
			c = tail
		}
		out = append(out, c)
	}
	return out
}

// pushSpan is a push for one player: nothing is attacked after From up to and
// including To.
type pushSpan struct {
	From, To int64
	Out      bool  // the chord that comes early is the next pass's first
	reach    int64 // the furthest To of this push and those before it
}

// pushSpans are the pushes of a player in order, the one that leads into the pass
// first.
func (p *plan) pushSpans(who timeline.Player) []pushSpan {
	if p.pushed.Has(who) {
		return p.pushOf[who]
	}
	var out []pushSpan
	add := func(w pushSpan) {
		w.reach = w.To
		if n := len(out); n > 0 {
			w.reach = max(w.reach, out[n-1].reach)
		}
		out = append(out, w)
	}
	if e := p.pass.Entry; e != nil && e.By.Has(who) {
		add(pushSpan{From: e.Tick, To: 0})
	}
	for i := range p.pass.Events {
		if e := &p.pass.Events[i]; p.pushes(e, who) {
			add(pushSpan{From: e.Tick, To: e.Target, Out: e.Target >= p.pass.Length})
		}
	}
	p.pushed |= timeline.Only(who)
	p.pushOf[who] = out
	return out
}

// begins reports whether a push begins at tick.
func begins(pushes []pushSpan, tick int64) bool {
	i := sort.Search(len(pushes), func(i int) bool { return pushes[i].From >= tick })
	return i < len(pushes) && pushes[i].From == tick
}

// pushAt returns the first of a player's pushes that forbids an attack at tick, if
// any does. Where a push begins something is struck, even when another one leads
// there.
func pushAt(pushes []pushSpan, tick int64) (pushSpan, bool) {
	// The first that reaches so far is the first whose own To does.
	i := sort.Search(len(pushes), func(i int) bool { return pushes[i].reach >= tick })
	if i == len(pushes) || pushes[i].From >= tick || begins(pushes, tick) {
		return pushSpan{}, false
	}
	return pushes[i], true
}
