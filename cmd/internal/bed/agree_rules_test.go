package bed

import "plinth/songspec/timeline"

// The rules of pushes, accents, stops and fills for TestAllAgree. They are worked out anew
// from the events of the song file, over the whole song in absolute ticks, so that a border
// between two passes is a place like any other. Nothing here reads the cues, because all
// that read them would be wrong together.

const drummer = timeline.Players(1 << timeline.Drums)

// ruledPush is a push that counts.
type ruledPush struct {
	pass, event int
	from, to    int64
	by          timeline.Players // it is theirs: nothing of theirs begins after from up to to
	struck      timeline.Players // those of them who strike it; the others keep out of what follows
	over        bool             // it leads over the border into the next pass
}

// ruledEvent is what becomes of an event.
type ruledEvent struct {
	by    timeline.Players // who plays it, wherever
	at    []int64          // by player: where he plays it
	moved timeline.Players // those of them who play an accent with a push
	why   map[string]bool  // why some do not, in the words of the outline
}

func (e *ruledEvent) addReason(why string) {
	if e.why == nil {
		e.why = map[string]bool{}
	}
	e.why[why] = true
}

// rules are the rules applied to one song.
type rules struct {
	tl     *timeline.Timeline
	pushes []ruledPush
	events [][]ruledEvent // by pass and event
}

func rulesOf(tl *timeline.Timeline) *rules {
	r := &rules{tl: tl, events: make([][]ruledEvent, len(tl.Passes))}
	for i := range tl.Passes {
		r.events[i] = make([]ruledEvent, len(tl.Passes[i].Events))
		for k := range r.events[i] {
			r.events[i][k].at = make([]int64, len(timeline.PlayerNames))
		}
	}
	for i := range tl.Passes {
		for k := range tl.Passes[i].Events {
			if tl.Passes[i].Events[k].Kind == timeline.Push {
				r.rulePush(i, k)
			}
		}
	}
	for _, accents := range []bool{true, false} { // whose bar is for its hits depends on who hits
		for i := range tl.Passes {
			for k := range tl.Passes[i].Events {
				if accents == (tl.Passes[i].Events[k].Kind == timeline.Accent) {
					r.ruleOther(i, k)
				}
			}
		}
	}
	return r
}

// silent is why a player is silent at a tick, in the words of the outline; "": nothing says so.
func (r *rules) silent(who timeline.Player, tick int64) string {
	p := &r.tl.Passes[r.tl.PassAt(tick)]
	if (p.Bars[p.BarAt(tick-p.Start)].Tacet &^ p.Tacet).Has(who) {
		return "tacet"
	}
	for _, e := range p.Events {
		if e.Kind == timeline.Caesura && e.Cut <= tick-p.Start && tick-p.Start < e.End {
			return "a caesura"
		}
	}
	for _, e := range p.Events {
		if e.Kind == timeline.Stop && e.By.Has(who) && e.Tick <= tick-p.Start && tick-p.Start < e.End {
			return "a stop"
		}
	}
	return ""
}

// ceases reports whether a caesura comes between a tick and another of a pass, absolute ticks.
func ceases(p *timeline.Pass, from, to int64) bool {
	for _, e := range p.Events {
		if e.Kind == timeline.Caesura && from < p.Start+e.End && p.Start+e.End <= to {
			return true
		}
	}
	return false
}

// rulePush adds a push to those that count, or the reason why it does not count.
func (r *rules) rulePush(pass, event int) {
	p, out := &r.tl.Passes[pass], &r.events[pass][event]
	e := &p.Events[event]
	q := ruledPush{pass: pass, event: event, from: p.Start + e.Tick, to: p.Start + e.Target, by: e.By &^ p.Tacet}
	q.struck, q.over = q.by, e.Target == p.Length
	last := pass+1 == len(r.tl.Passes)
	for who := range timeline.Player(len(timeline.PlayerNames)) {
		why := r.silent(who, q.from)
		if why == "" && ceases(p, q.from, q.to) {
			why = "a caesura"
		}
		if why == "" && !q.over && r.silent(who, q.to) == "tacet" {
			why = "tacet in what follows"
		}
		if q.by.Has(who) && why != "" {
			out.addReason(why)
			q.by, q.struck = q.by&^timeline.Only(who), q.struck&^timeline.Only(who)
		}
	}
	switch {
	case q.by == 0:
		return
	case q.over && last:
		out.addReason("the song ends")
		return
	case r.span(q.to).Chord.None:
		out.addReason("N.C.")
		return
	case q.over && q.by&^r.tl.Passes[pass+1].TacetAt(0) == 0:
		out.addReason("tacet in what follows")
		return
	case q.over:
		q.struck = q.by &^ (r.tl.Passes[pass+1].TacetAt(0) &^ drummer)
	}
	for _, other := range r.pushes {
		if other.pass != pass || other.to != q.to {
			continue
		}
		taken := other.by
		if q.over { // of several the first counts, for everybody
			taken = timeline.All
		}
		if q.by&taken != 0 {
			out.addReason("the chord is pushed already")
		}
		q.by, q.struck = q.by&^taken, q.struck&^taken
	}
	if q.by != 0 {
		r.pushes = append(r.pushes, q)
		out.by = q.struck
	}
}

// pushStartingAt is a player's push that starts at a tick, nil when there is none.
func (r *rules) pushStartingAt(who timeline.Player, tick int64) *ruledPush {
	for i := range r.pushes {
		if q := &r.pushes[i]; q.by.Has(who) && q.from == tick {
			return q
		}
	}
	return nil
}

// pushReachingOver is a player's push that has started by a tick and whose beat has not
// passed; nil when there is none.
func (r *rules) pushReachingOver(who timeline.Player, tick int64) *ruledPush {
	for i := range r.pushes {
		if q := &r.pushes[i]; q.by.Has(who) && q.from < tick && tick <= q.to {
			return q
		}
	}
	return nil
}

// span is the chord of the chart at a tick, in absolute ticks.
func (r *rules) span(tick int64) timeline.Span {
	p := &r.tl.Passes[r.tl.PassAt(tick)]
	i := 0
	for i+1 < len(p.Chords) && p.Chords[i].End <= tick-p.Start {
		i++
	}
	s := p.Chords[i]
	s.Start, s.End = s.Start+p.Start, s.End+p.Start
	return s
}

// chord is the chord in force for a player, with its stretch: the chart's chord, but a
// pushed one from its push on.
func (r *rules) chord(who timeline.Player, tick int64) timeline.Span {
	s := r.span(tick)
	for i := range r.pushes {
		switch q := &r.pushes[i]; {
		case !q.by.Has(who):
		case q.from <= tick && tick < q.to:
			s = r.span(q.to)
			s.Start = q.from
		case q.to <= tick && s.Start <= q.to:
			s.Start = q.from
		case q.from > tick:
			s.End = min(s.End, q.from)
		}
	}
	return s
}

// forHitsAlone reports whether a bar of a pass is for its written hits: one at least is played.
func (r *rules) forHitsAlone(pass, bar int) bool {
	for k, e := range r.tl.Passes[pass].Events {
		if e.Kind == timeline.Accent && e.Alone && e.Bar == bar && r.events[pass][k].by != 0 {
			return true
		}
	}
	return false
}

// ruleOther works out what becomes of an event that is not a push.
func (r *rules) ruleOther(pass, event int) {
	p, out := &r.tl.Passes[pass], &r.events[pass][event]
	e := &p.Events[event]
	switch e.Kind {
	case timeline.Push:
	case timeline.Accent:
		for who := range timeline.Player(len(timeline.PlayerNames)) {
			if (e.By &^ p.Tacet).Has(who) {
				r.ruleAccent(out, who, p.Start+e.Tick)
			}
		}
	case timeline.Stop:
		if out.by = e.By &^ p.TacetAt(e.Bar); out.by == 0 {
			out.addReason("tacet")
		}
	case timeline.Fill:
		out.by = drummer
		if r.forHitsAlone(pass, e.Bar) {
			out.by = 0
			out.addReason("the bar is for its hits")
		}
		if why := r.silent(timeline.Drums, p.Start+e.Tick); why != "" {
			if out.by = 0; why == "tacet" {
				out.why = nil
			}
			out.addReason(why)
		}
	default:
		out.by = timeline.All
	}
}

// ruleAccent works out where a player strikes an accent that is written at a tick.
func (r *rules) ruleAccent(out *ruledEvent, who timeline.Player, tick int64) {
	if why := r.silent(who, tick); why == "tacet" {
		out.addReason(why)
		return
	}
	at := tick
	if q := r.pushReachingOver(who, tick); q != nil && r.pushStartingAt(who, tick) == nil {
		at = q.from
	}
	q := r.pushStartingAt(who, at)
	switch why := r.silent(who, at); {
	case why != "":
		out.addReason(why)
	case q != nil && !q.struck.Has(who):
		out.addReason("tacet in what follows")
	case who != timeline.Drums && r.chord(who, at).Chord.None:
		out.addReason("N.C.")
	default:
		out.by |= timeline.Only(who)
		out.at[who] = at
		if at != tick {
			out.moved |= timeline.Only(who)
		}
	}
}
