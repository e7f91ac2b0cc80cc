package cue

import (
	"cmp"
	"slices"
	"sort"

	"plinth/songspec/timeline"
)

// Push is a push of one player: whatever he would strike after From, up to and on To, is
// struck at From.
type Push struct {
	From, To int64
	Out      bool // the chord that comes early is the next pass's first
}

// Pushes are a player's pushes in order. No two overlap: of several to one beat, the first
// counts.
type Pushes []Push

// Begins reports whether a push begins at a tick.
func (s Pushes) Begins(tick int64) bool {
	_, begins := s.at(tick)
	return begins
}

// at is the push that begins at a tick, if one does.
func (s Pushes) at(tick int64) (Push, bool) {
	i, begins := slices.BinarySearchFunc(s, tick, func(p Push, tick int64) int { return cmp.Compare(p.From, tick) })
	if !begins {
		return Push{}, false
	}
	return s[i], true
}

// Over is the push, if any, on account of which nothing is struck at a tick. Where a push
// begins, something is struck, even if another one ends there.
func (s Pushes) Over(tick int64) (Push, bool) {
	i := sort.Search(len(s), func(i int) bool { return s[i].To >= tick })
	if i == len(s) || s[i].From >= tick || s.Begins(tick) {
		return Push{}, false
	}
	return s[i], true
}

// noChordAt reports whether the chord in force at a tick of the pass is none.
func (w *work) noChordAt(tick int64) bool { return w.pass.Chords[w.pass.SpanAt(tick)].Chord.None }

// addPushes adds the pushes among the events that are to count.
func (w *work) addPushes(count func(e *timeline.Event) bool) {
	for i := range w.pass.Events {
		if e := &w.pass.Events[i]; e.Kind == timeline.Push && count(e) {
			w.addPush(int32(i), e)
		}
	}
}

// addPush adds the push of an event to the pushes of the players who take part in it, and
// notes who drops it and why.
func (w *work) addPush(i int32, e *timeline.Event) {
	by := e.By & w.plays()
	for k := range w.out.of {
		who := timeline.Player(k)
		why := w.whySilent(who, e.Tick)
		switch {
		case why != Unsaid:
		case w.out.caesuras.Over(e.Tick, e.Target):
			why = AtCaesura
		case w.out.of[who].tacet.Has(e.Target):
			why = NextTacet
		}
		if by.Has(who) && why != Unsaid {
			w.drop(i, timeline.Only(who), why)
			by &^= timeline.Only(who)
		}
	}
	if by == 0 {
		return
	}
	why, out := Unsaid, e.Target >= w.pass.Length
	switch after := w.pass.After; {
	case out && after == nil:
		why = SongEnds
	case out && after.Chord.None || !out && w.noChordAt(e.Target):
		why = NoChord
	case out && by&^after.Tacet == 0:
		why = NextTacet
	case out && w.leads >= 0: // of several over one border the first counts, for everybody
		why = Taken
	case out:
		w.leads = i
	}
	if why != Unsaid {
		w.drop(i, by, why)
		return
	}
	for who := range w.out.of {
		if !by.Has(timeline.Player(who)) {
			continue
		}
		list := w.out.of[who].pushes
		if n := len(list); n > 0 && list[n-1].To >= e.Target {
			w.drop(i, timeline.Only(timeline.Player(who)), Taken)
			continue
		}
		w.out.of[who].pushes = append(list, Push{From: e.Tick, To: e.Target, Out: i == w.leads})
	}
}

// changesOf are the chords of the chart as a player plays them, those that he pushes brought
// forward.
func (w *work) changesOf(who timeline.Player) []Change {
	p := w.pass
	out := make([]Change, 0, len(p.Chords)+8)
	for i := range p.Chords {
		s := &p.Chords[i]
		out = append(out, Change{Start: s.Start, Nominal: s.Start, End: s.End, Chord: s.Chord, span: int32(i)})
	}
	pushes := w.out.of[who].pushes
	if len(pushes) > 0 && pushes[0].From < 0 {
		out[0].Start = pushes[0].From
		pushes = pushes[1:]
	}
	out = bringAllForward(pushes, out)
	for i := 1; i < len(out); i++ {
		out[i].Same = out[i].Chord == out[i-1].Chord
	}
	if b := p.Before; b != nil && len(out) > 0 {
		out[0].Same = out[0].Chord == b.Chord
	}
	return out
}

// bringAllForward applies bringForward for every push. Pushes are in order, so the chords
// before one are done with and those after it untouched: only the few between are looked
// at, and a long pass with many pushes costs no more for each bar than a short one.
func bringAllForward(pushes Pushes, in []Change) []Change {
	if len(pushes) == 0 {
		return in
	}
	out := make([]Change, 0, cap(in))
	var near []Change
	next, done := 0, 0 // in[next:] is untouched, out[:done] is done with
	for _, push := range pushes {
		for ; next < len(in) && in[next].Nominal <= push.To; next++ {
			out = append(out, in[next])
		}
		for done < len(out) && out[done].End <= push.From && out[done].Nominal != push.To {
			done++
		}
		near = append(near[:0], out[done:]...)
		out = bringForward(out[:done], near, push)
	}
	return append(out, in[next:]...)
}

// bringForward strikes the chord at the push's beat early and appends the chords that result
// to out. If no chord changes at that beat, the one in force is struck again, early.
func bringForward(out, in []Change, push Push) []Change {
	for _, c := range in {
		switch {
		case c.Nominal == push.To: // the chord that comes early
			c.Start = min(c.Start, push.From)
		case c.Nominal > push.To || c.End <= push.From: // out of reach
		case c.Start >= push.From && c.End <= push.To: // all of it lies under the push
			continue
		case c.Start >= push.From: // begins inside the push and goes on past its beat
			c.Start, c.Nominal = push.From, push.To
		case c.End <= push.To: // the push cuts it short
			c.End = push.From
		default: // no change at the beat: the same chord struck early
			tail := c
			c.End = push.From
			tail.Start, tail.Nominal = push.From, push.To
			out = append(out, c)
			c = tail
		}
		out = append(out, c)
	}
	return out
}
