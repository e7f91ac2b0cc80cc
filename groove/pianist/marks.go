package pianist

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/touch"
	"plinth/groove/voicing"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// mark is one attack of the pianist, before it becomes notes.
type mark struct {
	tick   int64
	cue    int32 // the cue that it answers; -1: none, it comes from the tab or a figure
	change int32 // the chord that it strikes, an index of the changes; -1: the one in force
	part   byte  // of the right hand or, without hands, of both, as in feel.CompStep; 'b' the bass alone, 0 nothing
	under  byte  // of the left hand; 0 nothing
	hands  bool  // each hand has a row of its own: a hand that strikes lets go what it held
	add    uint8 // voices that it strikes besides, so that the chord is heard whole: bit 0 is the lowest
	touch  feel.Touch
	accent int8
	pushed bool
	entire bool  // it is pushed, or the chart has its chord off the beat: the whole chord is struck
	forced bool  // the chart or an event asks for it: never thinned out
	ring   bool  // a rest of the tab does not end it
	least  int64 // it is held at least to here, even if the tab rests
	stop   int64 // it ends here at the latest; 0: no such limit
	up     bool  // it strikes the voice of its part and all voices above
	left   bool  // the left hand strikes the bass with it
	fifth  bool  // the left hand may strike the fifth instead, see leftFifth
	middle bool  // the left hand strikes it inside the bar, not on the first beat
	answer bool  // it belongs to an answer to the singer
	final  bool  // it is the song's last chord, see spreadUnder
	short  int64 // it is cut off dry after so long; 0: it is not
}

// rest is where the tab of a hand rests: what it holds ends.
type rest struct {
	tick int64
	hand hand
}

// cut is where all notes of earlier chords end: at another chord, at a stop.
type cut struct {
	tick   int64
	change int32 // of this chord and later ones they go on
}

// everyChord is the change of a cut that ends all notes.
const everyChord = 1<<31 - 1

// gestures are what the pianist does in a pass, each in order of time.
type gestures struct {
	strikes []mark
	rests   []rest
	cuts    []cut
}

// closest is the least distance in ticks between a strike of the tab and a strike that the
// chart or an event asks for: anything nearer sounds crowded.
const closest = quarter / 4

// againUS is the least time in microseconds between two strikes of the tab on the same keys:
// a fifth more than the audit allows, as players stray.
const againUS = touch.AgainUS * 6 / 5

// roomUS is the same time before and after a change of chord or a hit, which has room around
// it even when the hands stray.
const roomUS = touch.AgainUS * 3 / 2

// planGestures works out all that the pianist does in the pass. Where the band rises into a
// chorus or, all at once, inside the pass, the whole chord is struck with the drummer's crash,
// whatever the tab has there. The song's last hit is struck in the same way.
func (c *Pianist) planGestures() gestures {
	strikes, rests := c.readTab()
	asked := c.chordStrikes(strikes)
	strikes = slices.DeleteFunc(strikes, func(m mark) bool { return m.touch <= feel.Sound })
	strikes = append(strikes, asked...)
	accents := c.accentStrikes()
	strikes = append(c.leaveRoomForHits(strikes, accents), accents...)
	strikes = append(strikes, c.leftStrikes()...)
	if last := c.FinalHit(); last >= 0 && c.tabMayPlay(last) {
		strikes = append(strikes, mark{tick: last, cue: -1, change: -1, part: 'c', touch: feel.Strong, forced: true,
			left: c.hasBass(c.BarAt(last))})
	}
	strikes = mergeMarks(strikes)
	if q := c.ForcefulOpening(timeline.Piano); q != nil && q.Rises {
		strikeFirmly(strikes, 0, feel.Normal)
	}
	for bar := range c.Pass.Bars {
		if c.Rises(bar) && plan.Forceful.At(c.Energy(bar)) {
			strikeFirmly(strikes, c.Pass.Bars[bar].Start, feel.Normal)
		}
	}
	if last := c.FinalHit(); last >= 0 {
		strikeFirmly(strikes, last, feel.Strong)
		strikes = slices.DeleteFunc(strikes, func(m mark) bool { return m.tick > last })
	}
	strikes = c.spaceOut(strikes)
	strikes = c.ear.addAnswers(c, strikes)
	strikes = c.thinOut(strikes)
	c.strikeWholeChords(strikes)
	c.marks = strikes
	return gestures{strikes: strikes, rests: rests, cuts: c.cutPoints()}
}

// strikeFirmly makes the strike at a tick one of the whole chord, with a touch. A written hit
// stays as it is.
func strikeFirmly(strikes []mark, tick int64, touch feel.Touch) {
	for i := range strikes {
		if m := &strikes[i]; m.tick == tick && m.accent == 0 {
			m.part, m.under, m.hands, m.up, m.touch = 'c', 0, false, false, touch
		}
	}
}

// compAt is a step of a figure at its tick.
type compAt struct {
	tick  int64
	step  feel.CompStep // of the right hand or, without hands, of both
	under feel.CompStep // of the left hand
	hands bool
	up    bool // as in mark
	final bool // as in mark
}

// readTab returns the strikes and the rests of the figures over the whole pass.
func (c *Pianist) readTab() (strikes []mark, rests []rest) {
	row := slices.Grow(c.row[:0], c.FeelIn(0).Grid*len(c.Pass.Bars))
	ending := c.Ending()
	for bar := range c.Pass.Bars {
		lv, fig := c.compLevel(bar), c.figure(bar)
		if c.alone[bar] || fig == nil {
			continue
		}
		if bar == ending {
			row = append(row, compAt{tick: c.EndingAt(),
				step: feel.CompStep{Touch: c.usualTouch(bar, c.Pass.Bars[bar].Start), Part: 'r'}, final: true})
			continue
		}
		first := len(row)
		for _, st := range c.Steps(bar, lv) {
			if len(lv.Comp) > 1 {
				st.Index %= c.FeelIn(bar).Grid // a figure of several is a bar long
			}
			if st.Index < len(fig.Right) {
				row = append(row, c.stepAt(st.Tick, fig, st.Index))
			}
		}
		if c.hasBass(bar) {
			figureForBothHands(row[first:])
			c.wholeOffBeat(row[first:], bar)
		}
		c.turnRound(bar, row[first:])
	}
	c.holdOn(row)
	c.row = row
	strikes = c.marks[:0]
	holds := c.Cues.Holds
	for i, st := range row {
		if !c.tabMayPlay(st.tick) || holds.Has(st.tick) {
			continue
		}
		if st.step.Touch == feel.Rest {
			rests = append(rests, rest{st.tick, rightHand})
		}
		if st.hands && st.under.Touch == feel.Rest {
			rests = append(rests, rest{st.tick, leftHand})
		}
		m := markOf(st.step, st.under)
		if m.touch <= feel.Sound {
			continue
		}
		m.tick, m.up, m.hands, m.final = st.tick, st.up, st.hands, st.final
		// A single voice of a broken chord rings on unless the tab says how long.
		m.ring = !m.hands && m.part >= '1' && m.part <= '5' && (i+1 == len(row) || row[i+1].step.Touch != feel.Sound)
		strikes = append(strikes, m)
	}
	return strikes, rests
}

// markOf is what the hands strike at a step of a figure.
func markOf(right, left feel.CompStep) mark {
	m := mark{cue: -1, change: -1, touch: max(right.Touch, left.Touch)}
	if right.Touch > feel.Sound {
		m.part, m.left = right.Part, right.Part == 'b'
	}
	if left.Touch > feel.Sound {
		m.under = left.Part
	}
	return m
}

// stepAt is a step of a figure at its tick. Where the left hand has the bass, the right plays
// what both have.
func (c *Pianist) stepAt(tick int64, fig *feel.Figure, i int) compAt {
	out := compAt{tick: tick, step: fig.Right[i]}
	if fig.Left == nil {
		return out
	}
	under := fig.Left[i]
	switch {
	case !c.hasBass(c.BarAt(tick)):
		out.hands, out.under = true, under
	case out.step.Touch <= feel.Sound && under.Touch > feel.Sound:
		out.step = under
		if under.Part == 'o' {
			out.step.Part = '1'
		}
	case out.step.Touch == feel.Rest && under.Touch == feel.Sound:
		out.step = under
	}
	return out
}

// tabMayPlay reports whether the tab may play at a tick. It may not in a stop, while a pushed
// chord or one off the beat is tied over, or where there is no chord.
func (c *Pianist) tabMayPlay(tick int64) bool {
	if tick >= c.end || c.silences.Has(tick) {
		return false
	}
	i := c.changeAt(tick)
	if i < 0 || c.voicings[i].N == 0 {
		return false
	}
	ch := &c.changes[i]
	return c.TiedOver(timeline.Piano, c.changes, tick) == nil && (!ch.Pushed() || tick <= ch.Start || tick > ch.Nominal)
}

// usualTouch is the touch of what the chart asks for in a bar: that of the figure's first
// attack, but inside the bar no stronger than usual.
func (c *Pianist) usualTouch(bar int, tick int64) feel.Touch {
	fig := c.figure(bar)
	if fig == nil {
		return feel.Normal
	}
	for i := range fig.Right {
		if !fig.Strikes(i) {
			continue
		}
		if tick > c.Pass.Bars[bar].Start {
			return min(fig.Touch(i), feel.Normal)
		}
		return fig.Touch(i)
	}
	return feel.Normal
}

// accentStrikes are the accents that name the pianist. They strike all voices, for half a beat
// or, at weight 3, ringing, and together: a spread chord would be a flam into the band's hit.
func (c *Pianist) accentStrikes() []mark {
	var out []mark
	for k, q := range c.Cues.Each(cue.Accent, timeline.Piano) {
		i := c.changeAt(q.At)
		if i < 0 || c.voicings[i].N == 0 || q.At >= c.end {
			continue
		}
		bar := int(q.Bar)
		beat := c.Pass.Bars[bar].Meter.PlayedBeat()
		m := mark{tick: q.At, cue: k, change: -1, part: 'c', touch: feel.Strong,
			accent: int8(q.Weight), forced: true, pushed: q.Pushed(), left: c.hasBass(bar)}
		switch {
		case m.accent < 3 && m.pushed:
			m.least = q.At + beat
		case m.accent < 3:
			m.least = q.At + beat/2
			m.stop = m.least
		default:
			m.least, m.ring = c.end, true
		}
		if held, ok := c.Cues.Holds.At(q.At + 1); ok { // a fermata on a hit rings; it begins a tick behind it
			if m.least = max(m.least, held.End); m.stop > 0 {
				m.stop = m.least
			}
		}
		if c.alone[bar] {
			m.stop = min(m.least, c.BarEnd(bar))
		}
		if q.Short {
			m.short = c.ShortHit(q.At)
			if m.stop, m.ring = q.At+m.short, false; m.stop == 0 { // a hit before the first bar line
				m.stop--
			}
		}
		out = append(out, m)
	}
	return out
}

// leaveRoomForHits takes away the strikes of the tab in the half beat before an accent, which is
// heard over the silence before it, and before the song's last chord, which is rolled; and
// those between two accents of one bar, whose figure they would blur. Common practice, no
// single source. accents are in order.
func (c *Pianist) leaveRoomForHits(strikes, accents []mark) []mark {
	var hits []int64
	for i := range accents {
		hits = append(hits, accents[i].tick)
	}
	if at := c.EndingAt(); at >= 0 {
		hits = append(hits, at)
	}
	if len(hits) == 0 {
		return strikes
	}
	return slices.DeleteFunc(strikes, func(m mark) bool {
		i := sort.Search(len(hits), func(i int) bool { return hits[i] > m.tick })
		if m.forced || i == len(hits) {
			return false
		}
		bar := c.BarAt(m.tick)
		between := i > 0 && hits[i-1] >= c.Pass.Bars[bar].Start && hits[i] < c.BarEnd(bar) && hits[i-1] != m.tick
		return between || hits[i]-m.tick <= c.Pass.Bars[bar].Meter.PlayedBeat()/2
	})
}

// cutPoints are the ticks at which notes end: at another chord, at a stop, before a bar that
// has only written hits.
func (c *Pianist) cutPoints() []cut {
	var out []cut
	for i := range c.changes {
		if c.voicings[i].N == 0 || c.needsStrike(i) {
			out = append(out, cut{c.changes[i].Start, int32(i)})
		}
	}
	for _, s := range c.silences {
		out = append(out, cut{s.Start, everyChord})
	}
	if at := c.EndingAt(); at >= 0 { // the hands leave the keys before the last chord's roll begins
		roll := min(-c.Clock().Ticks(at, -LastRollUS), c.Pass.Bars[c.Ending()].Meter.PlayedBeat()/2)
		out = append(out, cut{at - roll, everyChord})
	}
	for bar := range c.Pass.Bars {
		start := c.Pass.Bars[bar].Start
		i := c.changeAt(start)
		tied := i >= 0 && c.changes[i].Pushed() && c.changes[i].Nominal == start // over from the bar before
		if c.alone[bar] && !tied {
			out = append(out, cut{start, everyChord})
		}
	}
	slices.SortStableFunc(out, func(a, b cut) int { return int(a.tick - b.tick) })
	return out
}

// hand is which hand holds a key.
type hand uint8

// The hands. Without rows of their own both are the right hand.
const (
	rightHand hand = iota
	leftHand
)

// voicesOfPart says which of n voices a part of a figure strikes: bit 0 is the lowest.
func voicesOfPart(part byte, n int) uint8 {
	all := uint8(1)<<n - 1
	switch {
	case n == 0 || part == 'b' || part == 0:
		return 0
	case part == 'l':
		return 1<<max(1, n/2) - 1
	case part == 'u':
		return all &^ (1<<(n/2) - 1)
	case part == 'o':
		return 1
	case part == 'm':
		return 1 << inner(n)
	case part >= '1' && part <= '5':
		return 1 << (min(int(part-'0'), n) - 1)
	}
	return all
}

// inner is the inner voice of n, which moves: the one under the top voice.
func inner(n int) int { return max(0, n-2) }

// voices says which of n voices each hand strikes at a mark. In a figure with a row for each
// hand the right hand does not strike what the left does.
func (m *mark) voices(n int) (right, left uint8) {
	right, left = voicesOfPart(m.part, n), voicesOfPart(m.under, n)
	if m.up && right != 0 {
		right = (uint8(1)<<n - 1) &^ (right - 1)
	}
	for i := range n {
		switch bit := uint8(1) << i; {
		case m.add&bit == 0:
		case m.hands && i < n/2:
			left |= bit
		default:
			right |= bit
		}
	}
	return right &^ left, left
}

// all is the voices that both hands strike.
func (m *mark) all(n int) uint8 {
	right, left := m.voices(n)
	return right | left
}

// whole reports whether a mark strikes the whole voicing.
func (m *mark) whole(v *voicing.Voicing) bool { return m.all(int(v.N)) == uint8(1)<<v.N-1 }
