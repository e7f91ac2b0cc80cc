package groove

import (
	"sort"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// change is a chord as one player plays it. Start is where it is attacked and
// is earlier than Nominal when it is pushed; no pattern attack falls in
// (Start, Nominal].
type change struct {
	Start, End int64
	Nominal    int64
	Chord      harmony.Chord
	Pushed     bool
	// Same says that the chord before, for this player, was the same one.
	Same bool
}

// changes are the chords of the pass for one player, in order and without a
// gap: equal neighbours stay apart where the song file writes them again. The
// first may start before 0 (a push in the pass before), and the last ends early
// when the next pass's chord is pushed into this one.
func (p *plan) changes(who timeline.Player) []change {
	out := make([]change, 0, len(p.pass.Chords)+8)
	for i := range p.pass.Chords {
		s := &p.pass.Chords[i]
		out = append(out, change{Start: s.Start, Nominal: s.Start, End: s.End, Chord: s.Chord})
	}
	if e := p.pass.Entry; e != nil && e.By.Has(who) && len(out) > 0 {
		out[0].Start, out[0].Pushed = e.Tick, true
	}
	out = p.pushAll(who, out)
	for i := 1; i < len(out); i++ {
		out[i].Same = out[i].Chord == out[i-1].Chord
	}
	if b := p.pass.Before; b != nil && len(out) > 0 {
		out[0].Same = out[0].Chord == b.Chord
	}
	return out
}

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

// pushAt returns the first of a player's pushes that forbids an attack at tick, if
// any does. Where a push begins something is struck, even when another one leads
// there.
func pushAt(pushes []pushSpan, tick int64) (pushSpan, bool) {
	// The first that reaches so far is the first whose own To does.
	i := sort.Search(len(pushes), func(i int) bool { return pushes[i].reach >= tick })
	if i == len(pushes) || pushes[i].From >= tick {
		return pushSpan{}, false
	}
	for _, w := range pushes[i+1:] {
		if w.From >= tick {
			if w.From == tick {
				return pushSpan{}, false
			}
			break
		}
	}
	return pushes[i], true
}

// out is where a player's part of this pass ends: at the bar line, or at a push
// that takes the next pass's chord early.
func (p *plan) out(who timeline.Player) int64 {
	end := p.pass.Length
	for _, w := range p.pushSpans(who) {
		if w.Out {
			end = min(end, w.From)
		}
	}
	return end
}

// chordAt is the chord in force for a player at a tick.
func chordAt(changes []change, tick int64) *change {
	i := sort.Search(len(changes), func(i int) bool { return changes[i].Start > tick })
	if i == 0 {
		if len(changes) == 0 {
			return nil
		}
		return &changes[0]
	}
	return &changes[i-1]
}

// span is a stretch of ticks, its end not included.
type span struct{ Start, End int64 }

// settle works out the stops, the held beats, the stretches whose tempo moves and
// the bars of written hits.
func (p *plan) settle() {
	if p.settled {
		return
	}
	p.settled, p.hits = true, make([]bool, len(p.pass.Bars))
	for i := range p.pass.Events {
		e := &p.pass.Events[i]
		switch {
		case e.Kind == timeline.Stop:
			if n := len(p.stops); n > 0 && e.Tick <= p.stops[n-1].End {
				p.stops[n-1].End = max(p.stops[n-1].End, e.End)
				continue
			}
			p.stops = append(p.stops, span{e.Tick, e.End})
		case e.Kind == timeline.Hold:
			p.held = append(p.held, span{e.Tick + 1, e.End})
		case e.Kind == timeline.Rit:
			p.rits = append(p.rits, span{e.Tick, e.End})
		case e.Kind == timeline.Accent && e.Alone:
			p.hits[e.Bar] = true
		}
	}
}

// silences are the stops, merged and in order. In them nothing sounds.
func (p *plan) silences() []span {
	p.settle()
	return p.stops
}

// silencedAt returns the span that holds tick, if any. Spans are in order, by
// their ends too, and a song may have thousands of them.
func silencedAt(spans []span, tick int64) (span, bool) {
	i := sort.Search(len(spans), func(i int) bool { return spans[i].End > tick })
	if i < len(spans) && spans[i].Start <= tick {
		return spans[i], true
	}
	return span{}, false
}

// nextSilence is the start of the first of the ordered spans that begins after
// tick, or the limit when none does before it.
func nextSilence(spans []span, tick, limit int64) int64 {
	i := sort.Search(len(spans), func(i int) bool { return spans[i].Start > tick })
	if i < len(spans) {
		return min(limit, spans[i].Start)
	}
	return limit
}

// accents are the accent events of a player, in order.
func (p *plan) accents(who timeline.Player) []timeline.Event {
	var out []timeline.Event
	for i := range p.pass.Events {
		if e := &p.pass.Events[i]; e.Kind == timeline.Accent && e.By.Has(who) {
			out = append(out, *e)
		}
	}
	return out
}

// alone reports the bars in which nothing but the written hits is played, by
// anybody.
func (p *plan) alone() []bool {
	p.settle()
	return p.hits
}

// holds are the stretches of held beats after their attack, in which nothing new
// is struck.
func (p *plan) holds() []span {
	p.settle()
	return p.held
}
