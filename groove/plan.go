package groove

import (
	"sort"

	"plinth/groove/feel"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// plan is one pass made ready for the players: who plays where, which chord is
// in force for whom, where it is silent. It is the only thing the players see,
// so that a pass depends on nothing but itself and its two neighbours.
type plan struct {
	song  *timeline.Timeline
	pass  *timeline.Pass
	feel  *feel.Feel
	fills []feel.Fill // the feel's family
}

// gridNote is a note as a player means it, before feel: on the grid, in ticks
// from the start of the pass.
type gridNote struct {
	Tick, End int64
	Key       uint8
	Touch     feel.Touch
	Accent    int    // weight 1 to 3 of the accent event that it answers; 0 none
	Lane      string // drum voice word, "bass" or "piano"
	Fill      bool   // part of a fill
	ShiftMS   int    // a displacement that is part of the figure: a flam's grace stroke, a roll
	Velocity  int    // a nominal velocity that overrides Touch; 0 none
	Pushed    bool   // attack brought forward by a push
}

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
	var out []change
	for _, s := range p.pass.Chords {
		out = append(out, change{Start: s.Start, Nominal: s.Start, End: s.End, Chord: s.Chord})
	}
	if e := p.pass.Entry; e != nil && e.By.Has(who) && len(out) > 0 {
		out[0].Start, out[0].Pushed = e.Tick, true
	}
	for i := range p.pass.Events {
		e := &p.pass.Events[i]
		if e.Kind != timeline.Push || !e.By.Has(who) {
			continue
		}
		out = pushed(out, e)
	}
	for i := 1; i < len(out); i++ {
		out[i].Same = out[i].Chord == out[i-1].Chord
	}
	if b := p.pass.Before; b != nil && len(out) > 0 {
		out[0].Same = out[0].Chord == b.Chord
	}
	return out
}

// pushed brings the chord at e.Target forward to e.Tick.
func pushed(in []change, e *timeline.Event) []change {
	var out []change
	for _, c := range in {
		switch {
		case c.Nominal == e.Target: // the chord that comes early
			c.Start, c.Pushed = e.Tick, true
		case c.Start >= e.Tick && c.Nominal < e.Target: // swallowed whole by the push
			continue
		case c.Start < e.Tick && c.End > e.Tick && c.End <= e.Target: // what it cuts short
			c.End = e.Tick
		case c.Start < e.Tick && c.End > e.Target: // no change at the target: the same chord struck early
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

// silences are the stops, merged and in order. In them nothing sounds.
func (p *plan) silences() []span {
	var out []span
	for _, e := range p.pass.Events {
		if e.Kind != timeline.Stop {
			continue
		}
		if n := len(out); n > 0 && e.Tick <= out[n-1].End {
			out[n-1].End = max(out[n-1].End, e.End)
			continue
		}
		out = append(out, span{e.Tick, e.End})
	}
	return out
}

// silencedAt returns the silence that holds tick, if any.
func silencedAt(silences []span, tick int64) (span, bool) {
	for _, s := range silences {
		if tick >= s.Start && tick < s.End {
			return s, true
		}
	}
	return span{}, false
}

// accents are the accent events of a player, in order.
func (p *plan) accents(who timeline.Player) []timeline.Event {
	var out []timeline.Event
	for _, e := range p.pass.Events {
		if e.Kind == timeline.Accent && e.By.Has(who) {
			out = append(out, e)
		}
	}
	return out
}

// alone reports the bars in which nothing but the written hits is played, by
// anybody.
func (p *plan) alone() map[int]bool {
	out := map[int]bool{}
	for _, e := range p.pass.Events {
		if e.Kind == timeline.Accent && e.Alone {
			out[e.Bar] = true
		}
	}
	return out
}

// level is the feel's level in force in a bar.
func (p *plan) level(bar int) *feel.Level {
	return &p.feel.Levels[p.pass.EnergyAt(bar)-1]
}

// step is one step of a tab laid over a real bar.
type step struct {
	Tick  int64 // relative to the pass
	Index int   // index into the level's rows
}

// steps lays the level's tab over bar number bar of the pass. A bar in another
// meter than the feel's takes the tab from its front and, when it is longer,
// goes on with the tab's last beat; a feel of any meter plays its first step on
// the bar's first beat and its second on the others.
func (p *plan) steps(bar int, lv *feel.Level) []step {
	b := p.pass.Bars[bar]
	if len(p.feel.Meters) == 0 {
		var out []step
		for i, at := range b.Meter.Beats() {
			out = append(out, step{Tick: b.Start + at, Index: min(i, 1)})
		}
		return out
	}
	m := p.feel.Meters[0]
	for _, other := range p.feel.Meters {
		if other == b.Meter {
			m = other
			break
		}
	}
	grid := int64(p.feel.Grid)
	stepTicks := p.feel.Meters[0].BarTicks() / grid
	first := (bar % lv.Bars) * p.feel.Grid
	beat := lastBeatSteps(m, stepTicks)
	var out []step
	for i := int64(0); i*stepTicks < b.Length; i++ {
		at := i
		for at >= grid {
			at -= beat
		}
		out = append(out, step{Tick: b.Start + i*stepTicks, Index: first + int(at)})
	}
	return out
}

// lastBeatSteps is the length of the meter's last beat in steps, at least 1.
func lastBeatSteps(m meter.Meter, stepTicks int64) int64 {
	beats := m.Beats()
	return max(1, (m.BarTicks()-beats[len(beats)-1])/stepTicks)
}
