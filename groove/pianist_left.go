package groove

import (
	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// A pianist without a bassist has the chord's bass in the left hand, and plays the
// comp over it with the right. Common practice, no single source.

// The left hand's register, in MIDI numbers.
const (
	leftLowest  = 29 // F1
	leftHighest = 50 // D3
	leftLow     = 34 // Bb1: below it the hand goes only when the line does
	leftHigh    = 46 // Bb2: over it the same
	leftHome    = 41 // F2, where a pass begins by choice
)

// wholeEnergy is the energy from which the off-beats are struck whole.
const wholeEnergy = 3

// octaveEnergy is the energy at which the left hand may take the octave below.
const octaveEnergy = 5

// leftAlone reports whether the pianist has to be the bassist as well.
func (p *plan) leftAlone() bool { return p.pass.Tacet.Has(timeline.Bass) }

// leftLine chooses the left hand's note for every change of the pass at once, 0
// where there is no chord: it moves least on the whole, as the bassist's line does,
// and leaves the right hand its place. nil where a bassist plays.
func (p *plan) leftLine(changes []change, ear *listener) []int {
	if !p.leftAlone() {
		return nil
	}
	vc := p.bench.voices()
	type state struct{ key, cost, from int }
	states := make([][]state, len(changes))
	before := -1 // the change before that has a chord
	for i := range changes {
		ch := &changes[i]
		if ch.Chord.None {
			continue
		}
		bar := p.barAt(ch.Nominal)
		lv, energy := p.level(bar), p.energy(bar)
		w, avoid, most := p.room(lv, energy), ear.avoid(ch), int8(0)
		var sets []*candidateSet
		for key := leftLowest; key <= leftHighest; key++ {
			if key%12 != ch.Chord.Bass.PC() {
				continue
			}
			w.left = key
			set := vc.set(ch.Chord, voices(lv, energy), avoid, w)
			if set != nil {
				most = max(most, set.list[0].n)
			}
			sets = append(sets, set)
			states[i] = append(states[i], state{key: key})
		}
		for k := range states[i] {
			st := &states[i][k]
			st.cost = registerCost * (max(0, st.key-leftHigh) + max(0, leftLow-st.key))
			switch set := sets[k]; {
			case set == nil:
				st.cost += costVoiceLess * maxVoices
			default:
				st.cost += int(set.list[0].cost) + costVoiceLess*int(most-set.list[0].n)
			}
			if before < 0 {
				st.cost += homeCost * abs(st.key-leftHome)
				continue
			}
			best := -1
			for j, b := range states[before] {
				d := abs(st.key - b.key)
				if cost := b.cost + motionCost*d + leapCost*max(0, d-leapFrom); best < 0 || cost < best {
					best, st.from = cost, j
				}
			}
			st.cost += best
		}
		before = i
	}
	out := make([]int, len(changes))
	if before < 0 {
		return out
	}
	at := 0
	for j, st := range states[before] {
		if st.cost < states[before][at].cost {
			at = j
		}
	}
	for i := before; i >= 0; i-- {
		if len(states[i]) > 0 {
			out[i] = states[i][at].key
			at = states[i][at].from
		}
	}
	return out
}

// leftBass is the left hand's line as the top voice hears it: a bass.
func leftBass(changes []change, left []int) []gridNote {
	var out []gridNote
	for i, key := range left {
		if key > 0 {
			out = append(out, gridNote{Tick: changes[i].Start, Key: uint8(key)})
		}
	}
	return out
}

// leftStrikes are the left hand's own: where the feel's bass has the bar's first
// beat, and one more, see againAt. It is the bass of energies 1 and 2, with that beat of
// the higher levels; what lies between is the bassist's alone, and notes are held from
// one to the next.
func (c *comper) leftStrikes() []mark {
	if c.left == nil {
		return nil
	}
	var out []mark
	holds := c.p.holds()
	add := func(tick int64, lv *feel.Level, degree byte) {
		if c.may(tick) && !inSpan(holds, tick) {
			out = append(out, mark{tick: tick, part: 'b', touch: usualTouch(lv), left: true,
				fifth: degree == '5' || degree == 'w' || degree == 'a', middle: tick > c.p.pass.Bars[c.p.barAt(tick)].Start})
		}
	}
	for bar := range c.p.pass.Bars {
		b := &c.p.pass.Bars[bar]
		lv := c.p.level(bar)
		if c.alone[bar] {
			continue
		}
		if bar == c.p.ending() {
			add(b.Start, lv, '1')
			continue
		}
		calm := &c.p.feel.Levels[min(c.p.energy(bar), 2)-1]
		again := c.p.againAt(bar)
		first, second := c.p.bassAt(bar, calm, 0), c.p.bassAt(bar, calm, again)
		if second == 0 {
			second = c.p.bassAt(bar, lv, again)
		}
		if first == 'w' || first == 'a' {
			first = '1'
		}
		if first != 0 {
			add(b.Start, lv, first)
		}
		if again > 0 && second != 0 {
			add(b.Start+again, lv, second)
		}
	}
	return out
}

// bassAt is the degree that a level's bass row strikes at a place of a bar, 0 where
// it strikes nothing.
func (p *plan) bassAt(bar int, lv *feel.Level, at int64) byte {
	for _, st := range p.steps(bar, lv) {
		if st.Tick == p.pass.Bars[bar].Start+at && st.Index < len(lv.Bass) {
			if s := lv.Bass[st.Index]; s.Touch > feel.Ghost {
				return s.Degree
			}
		}
	}
	return 0
}

// againAt is where in a bar the left hand may strike again: at the beat in its middle,
// else at the third; 0 where there is neither.
func (p *plan) againAt(bar int) int64 {
	beats, half := p.beats(bar), p.pass.Bars[bar].Length/2
	switch {
	case onBeat(beats, half):
		return half
	case len(beats) > 2:
		return beats[2]
	}
	return 0
}

func onBeat(beats []int64, at int64) bool {
	for _, b := range beats {
		if b == at {
			return true
		}
	}
	return false
}

// figured turns a bar of the comp row that breaks the chord from its first beat on
// into one for both hands: the bass is the figure's first note, the others follow
// from below, and its highest takes what is left of the chord.
func figured(row []compAt) {
	if len(row) == 0 || row[0].step.Part != '1' || row[0].step.Touch <= feel.Sound {
		return
	}
	top := byte('1')
	for i := range row {
		if s := &row[i].step; s.Touch > feel.Sound && s.Part >= '1' && s.Part <= '5' {
			top = max(top, s.Part)
		}
	}
	for i := range row {
		s := &row[i].step
		if s.Touch <= feel.Sound || s.Part < '1' || s.Part > '5' {
			continue
		}
		row[i].up = s.Part == top
		if s.Part--; s.Part < '1' {
			s.Part, row[i].up = 'b', false
			if i > 0 {
				s.Part = '1'
			}
		}
	}
}

// wholeOffBeat strikes the chord whole in a bar of the comp row whose upper halves all
// stand off the beats, from energy 3 up: the left hand has the beat, and the right has
// nothing else to do.
func (c *comper) wholeOffBeat(row []compAt, bar int) {
	if c.p.energy(bar) < wholeEnergy {
		return
	}
	start, beats := c.p.pass.Bars[bar].Start, c.p.beats(bar)
	for _, r := range row {
		if r.step.Part == 'u' && onBeat(beats, r.tick-start) {
			return
		}
	}
	for i := range row {
		if s := &row[i].step; s.Part == 'u' {
			s.Part = 'c'
		}
	}
}

// afterBeat finds the tab's strike that brings a chord after its bass, where the comp
// of the feel comes after the beat: in a bar whose first beat is left to the bass,
// within a beat of the change and before the next. It is made to take the whole
// chord. Else the two are struck together.
func (c *comper) afterBeat(tab []mark, i int) bool {
	ch := &c.changes[i]
	if c.left == nil || ch.Pushed {
		return false
	}
	bar := c.p.barAt(ch.Start)
	b := &c.p.pass.Bars[bar]
	if ch.Start != b.Start && ch.Start != b.Start+b.Length/2 || bar == c.p.ending() {
		return false
	}
	for _, e := range c.p.accents(timeline.Piano) {
		if e.Tick == ch.Start {
			return false // a hit is both hands'
		}
	}
	for k := range tab {
		m := &tab[k]
		switch {
		case m.tick < b.Start:
		case m.tick == b.Start || m.tick == ch.Start:
			return false
		case m.tick > ch.Start:
			if m.tick > ch.Start+b.Meter.TempoTicks() || m.tick >= ch.End || m.part >= '1' && m.part <= '5' {
				return false
			}
			m.part = 'c'
			return true
		}
	}
	return false
}

// leftKeys are the keys that the left hand strikes for a mark under change i, the
// lower one 0 where there is but one. Over them the voicing stays clear, and the
// hand reaches them.
func (c *comper) leftKeys(m *mark, i int) (low, key int) {
	key = c.left[i]
	if key == 0 {
		return 0, 0
	}
	if m.fifth && m.tick > c.changes[i].Start {
		if k := c.leftFifth(i); k > 0 {
			return 0, k
		}
	}
	v := &c.voicings[i]
	bar := c.p.barAt(max(m.tick, c.changes[i].Nominal))
	if k := key - 12; c.p.energy(bar) >= octaveEnergy && k >= leftLowest && c.span >= 12 && v.n < maxVoices && clearOver(k, v) {
		return k, key
	}
	return 0, key
}

// leftFifth is the chord's fifth for the left hand, above its root or below, whichever
// is on the way to the next chord; 0 where there is none, where the chord would not be
// clear over it, or where it would lead the bass in octaves with the top voice.
func (c *comper) leftFifth(i int) int {
	chord := &c.changes[i].Chord
	pc, ok := toneOf(chord, '5')
	if !ok || chord.Bass != chord.Root || (pc-chord.Root.PC()+12)%12 != 7 {
		return 0
	}
	v := &c.voicings[i]
	next := i + 1
	for next < len(c.changes) && c.voicings[next].n == 0 {
		next++
	}
	if next < len(c.changes) && v.top()%12 == pc && c.voicings[next].top()%12 == c.left[next]%12 {
		return 0
	}
	best, least := 0, 0
	for _, key := range [2]int{c.left[i] + 7, c.left[i] - 5} {
		if key < leftLowest || key > leftHighest || !clearOver(key, v) {
			continue
		}
		cost := motionCost*abs(key-c.left[i]) + registerCost*(max(0, key-leftHigh)+max(0, leftLow-key))
		if next < len(c.changes) {
			cost += motionCost * abs(c.left[next]-key)
		}
		if best == 0 || cost < least {
			best, least = key, cost
		}
	}
	return best
}

// clearOver reports whether a voicing lies over a note of the left hand and clear of
// it.
func clearOver(key int, v *voicing) bool {
	for _, k := range v.notes[:v.n] {
		if int(k) <= key || muddy(key, int(k)) {
			return false
		}
	}
	return true
}
