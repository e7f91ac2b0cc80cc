package groove

import (
	"sort"

	"plinth/groove/feel"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// plan is one pass made ready for the players: who plays where, which chord is
// in force for whom, where it is silent. It is the only thing the players see,
// so that a pass depends on nothing but itself and its two neighbours.
type plan struct {
	song  *timeline.Timeline
	pass  *timeline.Pass
	feel  *feel.Feel
	fills []feel.Fill // the feel's family
	set   *feel.Set   // for the feel of a neighbour

	// Worked out once.
	swings  *swing
	meters  map[meter.Meter][]int64
	stops   []span
	held    []span
	hits    map[int]bool
	settled bool // stops, held and hits are there
}

// newPlan makes a pass ready. A feel that the set does not hold is a fault of
// ours: names are checked when the song is resolved.
func newPlan(tl *timeline.Timeline, pass *timeline.Pass, set *feel.Set) *plan {
	f := set.Feels[pass.Feel]
	if f == nil {
		panic("groove: no feel " + pass.Feel)
	}
	p := &plan{song: tl, pass: pass, feel: f, set: set}
	for _, fill := range set.Fills {
		if fill.Family == f.Fills {
			p.fills = append(p.fills, fill)
		}
	}
	return p
}

// gridNote is a note as a player means it, before feel: on the grid, in ticks
// from the start of the pass.
type gridNote struct {
	Tick, End int64
	Key       uint8
	Touch     feel.Touch
	Accent    int       // weight 1 to 3 of the accent event that it answers; 0 none
	Lane      string    // drum voice word, "bass" or "piano"
	Fill      bool      // part of a fill
	ShiftMS   int       // a displacement that is part of the figure: a flam's grace stroke, a roll
	Velocity  int       // a nominal velocity that overrides Touch; 0 none
	Pushed    bool      // attack brought forward by a push
	Limb      feel.Limb // drums: what plays it
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

// pushed brings the chord at e.Target forward to e.Tick. When no chord changes at
// the target, the one in force there is struck early.
func pushed(in []change, e *timeline.Event) []change {
	var out []change
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
	Out      bool // the chord that comes early is the next pass's first
}

// pushSpans are the pushes of a player, the one that leads into the pass first.
func (p *plan) pushSpans(who timeline.Player) []pushSpan {
	var out []pushSpan
	if e := p.pass.Entry; e != nil && e.By.Has(who) {
		out = append(out, pushSpan{From: e.Tick, To: 0})
	}
	for _, e := range p.pass.Events {
		if e.Kind == timeline.Push && e.By.Has(who) {
			out = append(out, pushSpan{From: e.Tick, To: e.Target, Out: e.Target >= p.pass.Length})
		}
	}
	return out
}

// pushAt returns the push that forbids an attack at tick, if any. Where a push
// begins something is struck, even when another one leads there.
func pushAt(pushes []pushSpan, tick int64) (pushSpan, bool) {
	var found pushSpan
	forbidden := false
	for _, w := range pushes {
		if tick == w.From {
			return pushSpan{}, false
		}
		if !forbidden && tick > w.From && tick <= w.To {
			found, forbidden = w, true
		}
	}
	return found, forbidden
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

// settle works out the stops, the held beats and the bars of written hits.
func (p *plan) settle() {
	if p.settled {
		return
	}
	p.settled, p.hits = true, map[int]bool{}
	for _, e := range p.pass.Events {
		switch {
		case e.Kind == timeline.Stop:
			if n := len(p.stops); n > 0 && e.Tick <= p.stops[n-1].End {
				p.stops[n-1].End = max(p.stops[n-1].End, e.End)
				continue
			}
			p.stops = append(p.stops, span{e.Tick, e.End})
		case e.Kind == timeline.Hold:
			p.held = append(p.held, span{e.Tick + 1, e.End})
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
	p.settle()
	return p.hits
}

// holds are the stretches of held beats after their attack, in which nothing new
// is struck.
func (p *plan) holds() []span {
	p.settle()
	return p.held
}

// barAt is the bar that holds a tick; what lies outside the pass belongs to its
// first or last bar.
func (p *plan) barAt(tick int64) int {
	bars := p.pass.Bars
	return max(0, sort.Search(len(bars), func(i int) bool { return bars[i].Start > tick })-1)
}

// barEnd is the bar line at the end of a bar, relative to the pass.
func (p *plan) barEnd(bar int) int64 { return p.pass.Bars[bar].Start + p.pass.Bars[bar].Length }

// beats are the felt beats of a bar, in ticks from its bar line.
func (p *plan) beats(bar int) []int64 {
	m := p.pass.Bars[bar].Meter
	out, ok := p.meters[m]
	if !ok {
		if p.meters == nil {
			p.meters = map[meter.Meter][]int64{}
		}
		out = m.Beats()
		p.meters[m] = out
	}
	return out
}

// ending is the bar in which the song comes to rest: the band strikes its first
// beat and lets it ring. It is the last bar of the last pass, when it holds one
// chord and the song file writes no accent, push, stop or fill there; otherwise
// -1, and the bar is played as it stands.
func (p *plan) ending() int {
	last := len(p.pass.Bars) - 1
	if p.pass.After != nil || last < 1 {
		return -1
	}
	start := p.pass.Bars[last].Start
	for _, c := range p.pass.Chords {
		if c.Start > start {
			return -1
		}
	}
	for _, e := range p.pass.Events {
		switch e.Kind {
		case timeline.Accent, timeline.Push, timeline.Stop, timeline.Fill:
			if e.Tick >= start || e.Kind == timeline.Stop && e.End > start {
				return -1
			}
		}
	}
	return last
}

// level is what is played in a bar: the feel's level for the energy in force
// there, with the answer's rows in the bars that answer.
func (p *plan) level(bar int) *feel.Level {
	lv := &p.feel.Levels[p.pass.EnergyAt(bar)-1]
	a := lv.Answer
	if a == nil || !p.answers(bar, lv.Bars) {
		return lv
	}
	out := *lv
	if a.Drums != nil {
		out.Drums = a.Drums
	}
	if a.Bass != nil {
		out.Bass = a.Bass
	}
	if a.Comp != nil {
		out.Comp = a.Comp
	}
	return &out
}

// answers reports whether a bar answers the bars before it. Bars group in
// eights, and the rest in fours; the second half of a group answers, and the
// take decides how much of it: all of that half, or its last bars only. A
// pattern of two or four bars answers whole.
func (p *plan) answers(bar, pattern int) bool {
	group, size := bar/8, 8
	if left := len(p.pass.Bars) - group*8; left < 8 {
		if left < 4 || bar%8 >= 4 {
			return false
		}
		size = 4
	}
	at := bar % 8
	late := size - size/2 // the second half begins here
	if p.chance("answer").at(int64(group)).below(2) == 1 {
		late = size - size/4
	}
	late -= late % max(1, pattern)
	return at >= late && late > 0
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
		for i, at := range p.beats(bar) {
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
