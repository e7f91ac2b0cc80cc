package cue

import "plinth/songspec/timeline"

// strike is how one player plays an accent.
type strike struct {
	at, target int64
	out        bool   // the player strikes it in the neighbour pass
	why        Reason // why the player does not play it; Unsaid if he does
}

// accents makes cues of the accents. An accent between a push and its beat, or on that beat,
// is struck with the push by the players who push there, since that is where their chord
// is. Players who strike an accent in different places get different cues.
func (w *work) accents() {
	for i := range w.pass.Events {
		e := &w.pass.Events[i]
		if e.Kind != timeline.Accent {
			continue
		}
		first := len(w.out.List)
		for who := range w.out.of {
			if p := timeline.Player(who); (e.By & w.plays()).Has(p) {
				s := w.strike(p, e.Tick)
				if s.why != Unsaid {
					w.drop(int32(i), timeline.Only(p), s.why)
					continue
				}
				w.out.acts[i] = true
				w.out.Alone[e.Bar] = w.out.Alone[e.Bar] || e.Alone
				w.accent(first, int32(i), e, p, s)
			}
		}
	}
	if w.button() {
		w.out.Alone[len(w.out.Alone)-1] = true
	}
	for i := range w.pass.Joint {
		if e := &w.pass.Joint[i]; e.Kind == timeline.Accent {
			w.add(Cue{Kind: Accent, At: e.Tick, Target: e.Target, Until: e.Tick, Event: -1, Span: -1,
				Bar: int32(e.Bar), By: e.By, Weight: uint8(max(1, e.Weight)), Short: e.Short})
		}
	}
}

// strike is where a player plays an accent that is written at a tick.
func (w *work) strike(who timeline.Player, tick int64) strike {
	pushes := w.out.of[who].pushes
	s := strike{at: tick, target: tick}
	if push, begins := pushes.at(tick); begins {
		s.target = push.To
	} else if push, over := pushes.Over(tick); over {
		s.at, s.target = push.From, push.To
	}
	leads := w.leads >= 0 && s.at == w.pass.Events[w.leads].Tick && s.target == w.pass.Length
	s.why = w.whySilent(who, s.at)
	switch {
	case s.why != Unsaid:
	case s.at < 0:
		s.out = !who.Chords()
	case !who.Chords():
	case leads:
		s.out = true
		if w.pass.After.Tacet.Has(who) {
			s.why = NextTacet
		}
	case w.noChordAt(s.target): // on a push, the chord of the beat that is pushed counts
		s.why = NoChord
	}
	return s
}

// accent adds a player to the cue that this accent has at the same place, or adds a cue. The
// cues of this accent begin at first in the list.
func (w *work) accent(first int, event int32, e *timeline.Event, who timeline.Player, s strike) {
	k := first
	for k < len(w.out.List) && (w.out.List[k].At != s.at || w.out.List[k].Target != s.target) {
		k++
	}
	if k == len(w.out.List) {
		w.add(Cue{Kind: Accent, At: s.at, Target: s.target, Until: s.at, Event: event, Span: -1, Bar: int32(e.Bar),
			Weight: uint8(max(1, e.Weight)), Alone: e.Alone, Short: e.Short, Early: s.at != e.Tick})
	}
	q := &w.out.List[k]
	if s.out {
		q.Out |= timeline.Only(who)
	} else {
		q.By |= timeline.Only(who)
	}
}
