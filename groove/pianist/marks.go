package pianist

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/touch"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// mark is one attack of the pianist, before it becomes notes.
type mark struct {
	tick   int64
	cue    int32 // the cue that it answers; -1: none, it comes from the tab or a figure
	part   byte  // as in feel.CompStep; 'b' the left hand alone
	touch  feel.Touch
	accent int8
	pushed bool
	forced bool  // the chart or an event asks for it: never thinned out
	ring   bool  // a rest of the tab does not end it
	least  int64 // it is held at least to here, even if the tab rests
	stop   int64 // it ends here at the latest; 0: no such limit
	up     bool  // it strikes the voice of its part and all voices above
	left   bool  // the left hand strikes the bass with it
	fifth  bool  // the left hand may strike the fifth instead, see leftFifth
	middle bool  // the left hand strikes it inside the bar, not on the first beat
	answer bool  // it belongs to an answer to the singer
}

// gestures are what the pianist does in a pass, each in order of time.
type gestures struct {
	strikes []mark
	rests   []int64 // where the tab rests: notes of the tab end
	cuts    []int64 // where all notes end: at another chord, at a stop
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
// chorus, the whole first chord is struck with the drummer's crash, whatever the tab has
// there. The song's last hit is struck in the same way.
func (c *Pianist) planGestures() gestures {
	strikes, rests := c.readTab()
	strikes = append(strikes, c.chordStrikes(strikes)...)
	strikes = append(strikes, c.accentStrikes()...)
	strikes = append(strikes, c.leftStrikes()...)
	strikes = mergeMarks(strikes)
	if q := c.ForcefulOpening(timeline.Piano); q != nil && q.Rises {
		strikeFirmly(strikes, 0)
	}
	if last := c.FinalHit(); last >= 0 {
		strikeFirmly(strikes, last)
		strikes = slices.DeleteFunc(strikes, func(m mark) bool { return m.tick > last })
	}
	strikes = c.spaceOut(strikes)
	strikes = c.ear.addAnswers(c, strikes)
	strikes = c.thinOut(strikes)
	c.strikeWholeChords(strikes)
	c.marks = strikes
	return gestures{strikes: strikes, rests: rests, cuts: c.cutPoints()}
}

// strikeFirmly makes the strike at a tick a strong strike of the whole chord. A written hit
// stays as it is.
func strikeFirmly(strikes []mark, tick int64) {
	for i := range strikes {
		if m := &strikes[i]; m.tick == tick && m.accent == 0 {
			m.part, m.up, m.touch = 'c', false, feel.Strong
		}
	}
}

// compAt is a step of the comp row at its tick.
type compAt struct {
	tick int64
	step feel.CompStep
	up   bool // as in mark
}

// readTab returns the strikes and the rests of the comp row over the whole pass.
func (c *Pianist) readTab() (strikes []mark, rests []int64) {
	row := slices.Grow(c.row[:0], c.Feel.Grid*len(c.Pass.Bars))
	ending := c.Ending()
	for bar := range c.Pass.Bars {
		lv := c.Level(bar)
		if c.alone[bar] || len(lv.Comp) == 0 {
			continue
		}
		if bar == ending {
			row = append(row, compAt{tick: c.Pass.Bars[bar].Start,
				step: feel.CompStep{Touch: usualTouch(lv), Part: 'c'}})
			continue
		}
		first := len(row)
		for _, st := range c.Steps(bar, lv) {
			if st.Index < len(lv.Comp) {
				row = append(row, compAt{tick: st.Tick, step: lv.Comp[st.Index]})
			}
		}
		if c.left != nil {
			figureForBothHands(row[first:])
			c.wholeOffBeat(row[first:], bar)
		}
	}
	c.row = row
	strikes = c.marks[:0]
	holds := c.Cues.Holds
	for i, st := range row {
		if !c.tabMayPlay(st.tick) || holds.Has(st.tick) {
			continue
		}
		switch st.step.Touch {
		case feel.Sound:
		case feel.Rest:
			rests = append(rests, st.tick)
		default:
			m := mark{tick: st.tick, cue: -1, part: st.step.Part, touch: st.step.Touch, up: st.up,
				left: st.step.Part == 'b'}
			// A single voice of a broken chord rings on unless the tab says how long.
			m.ring = m.part >= '1' && m.part <= '5' && (i+1 == len(row) || row[i+1].step.Touch != feel.Sound)
			strikes = append(strikes, m)
		}
	}
	return strikes, rests
}

// tabMayPlay reports whether the tab may play at a tick. It may not in a stop, while a pushed
// chord is tied over its beat, or where there is no chord.
func (c *Pianist) tabMayPlay(tick int64) bool {
	if tick >= c.end || c.silences.Has(tick) {
		return false
	}
	i := c.changeAt(tick)
	if i < 0 || c.voicings[i].N == 0 {
		return false
	}
	ch := &c.changes[i]
	return !ch.Pushed() || tick <= ch.Start || tick > ch.Nominal
}

// chordStrikes are the attacks that the chart asks for, one at every change of chord. The
// chord may come up to a beat after its bass, see chordAfterBass.
func (c *Pianist) chordStrikes(tab []mark) []mark {
	var out []mark
	for i := range c.changes {
		ch := &c.changes[i]
		if c.voicings[i].N == 0 || !c.needsStrike(i) || ch.Start >= c.end || c.silences.Has(ch.Start) {
			continue
		}
		bar := c.BarAt(ch.Nominal)
		if !ch.Pushed() && c.alone[bar] {
			continue
		}
		beat := c.Pass.Bars[bar].Meter.TempoTicks()
		m := mark{tick: ch.Start, cue: ch.Cue, part: 'c', touch: usualTouch(c.Level(bar)),
			forced: true, pushed: ch.Pushed(), least: ch.Start + beat, left: c.left != nil}
		if c.chordAfterBass(tab, i) {
			m.part = 'b'
		}
		if ch.Pushed() {
			m.least = max(m.least, ch.Nominal+beat/2)
		}
		out = append(out, m)
	}
	return out
}

// usualTouch is the touch of the level's first attack.
func usualTouch(lv *feel.Level) feel.Touch {
	for _, s := range lv.Comp {
		if s.Touch > feel.Sound {
			return s.Touch
		}
	}
	return feel.Normal
}

// accentStrikes are the accents that name the pianist. They strike all voices, short at weight
// 1, for a beat at weight 2, ringing at weight 3. At energy 5 soundGestures spreads them.
func (c *Pianist) accentStrikes() []mark {
	var out []mark
	for k, q := range c.Cues.Each(cue.Accent, timeline.Piano) {
		i := c.changeAt(q.At)
		if i < 0 || c.voicings[i].N == 0 || q.At >= c.end {
			continue
		}
		bar := int(q.Bar)
		beat := c.Pass.Bars[bar].Meter.TempoTicks()
		part := byte('c')
		if spreads.At(c.Energy(bar)) {
			part = 'r'
		}
		m := mark{tick: q.At, cue: k, part: part, touch: feel.Strong,
			accent: int8(q.Weight), forced: true, pushed: q.Pushed(), left: c.left != nil}
		switch m.accent {
		case 1:
			m.least = q.At + beat/2
		case 2:
			m.least = q.At + beat
		default:
			m.least, m.ring = c.end, true
		}
		if c.alone[bar] {
			m.stop = min(m.least, c.BarEnd(bar))
		}
		out = append(out, m)
	}
	return out
}

// cutPoints are the ticks at which all notes end: at another chord, at a stop, before a bar
// that has only written hits.
func (c *Pianist) cutPoints() []int64 {
	var out []int64
	for i := range c.changes {
		if c.voicings[i].N == 0 || c.needsStrike(i) {
			out = append(out, c.changes[i].Start)
		}
	}
	for _, s := range c.silences {
		out = append(out, s.Start)
	}
	for bar := range c.Pass.Bars {
		start := c.Pass.Bars[bar].Start
		i := c.changeAt(start)
		tied := i >= 0 && c.changes[i].Pushed() && c.changes[i].Nominal == start // over from the bar before
		if c.alone[bar] && !tied {
			out = append(out, start)
		}
	}
	slices.Sort(out)
	return out
}
