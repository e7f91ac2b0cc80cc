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
