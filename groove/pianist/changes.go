package pianist

import (
	"math/bits"
	"sort"

	"plinth/groove/bassline"
	"plinth/groove/feel"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// heardBeats is how soon a chord is heard after its change: within one and a half beats, in half
// beats.
const heardBeats = 3

// heardBy is the tick by which the chord of change i is heard: a beat and a half after it comes,
// or at the next chord.
func (c *Pianist) heardBy(i int) int64 {
	ch := &c.changes[i]
	at := max(ch.Start, ch.Nominal)
	bar := c.BarAt(at)
	beat := c.Pass.Bars[bar].Meter.PlayedBeat()
	until := at + heardBeats*beat/2 + 1
	if c.SwingIn(bar).Triplets { // the off-beat stands on the last third
		until = at + (heardBeats+2)*beat/3 + 1
	}
	end := c.end
	if i+1 < len(c.changes) {
		next := i + 1
		for next < len(c.changes) && !c.needsStrike(next) {
			next++
		}
		if next < len(c.changes) {
			end = c.changes[next].Start
		}
	}
	return min(until, end)
}

// chordStrikes are the attacks that the chart asks for, one at every change of chord. The
// chord may come after its bass where the left hand has that, see chordAfterBass, and where
// the feel lets the comp keep its figure. Some strikes of the tab become strikes of the chord
// to come, see strikeAhead.
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
		if c.keepsFigure(tab, i) {
			continue
		}
		beat := c.Pass.Bars[bar].Meter.PlayedBeat()
		m := mark{tick: ch.Start, cue: ch.Cue, change: -1, part: 'c', touch: c.usualTouch(bar, ch.Start),
			forced: true, pushed: ch.Pushed(), entire: ch.Pushed() || c.OffBeat(ch.Start), least: ch.Start + beat,
			left: c.hasBass(bar)}
		switch {
		case m.pushed:
			m.least = max(m.least, ch.Nominal+beat/2)
		case m.entire: // tied over the next beat
			m.least += beat / 2
		}
		fig := c.figure(bar)
		twoHands := fig != nil && fig.Left != nil && !c.hasBass(bar)
		if twoHands && !m.entire && c.strikesIn(tab, i) != nil {
			m.part, m.under, m.hands = 0, '1', true // the right hand goes on with its figure
		}
		if c.chordAfterBass(tab, i) {
			m.part = 'b'
		}
		out = append(out, m)
	}
	return append(out, c.entryStrikes(tab)...)
}

// entryStrikes are the strikes with which the pianist comes in again, on the bar line after bars
// that the pianist has kept out of. A feel that keeps its figure goes on with that where it strikes
// within a beat and a half.
func (c *Pianist) entryStrikes(tab []mark) []mark {
	var out []mark
	for _, at := range c.entries {
		bar := c.BarAt(at)
		if !c.tabMayPlay(at) || c.alone[bar] {
			continue
		}
		beat := c.Pass.Bars[bar].Meter.PlayedBeat()
		k := sort.Search(len(tab), func(k int) bool { return tab[k].tick >= at })
		if c.FeelIn(bar).Changes != feel.OnTime && !c.hasBass(bar) && k < len(tab) &&
			tab[k].tick <= at+heardBeats*beat/2 {
			tab[k].forced = true
			continue
		}
		out = append(out, mark{tick: at, cue: c.changes[c.changeAt(at)].Cue, change: -1, part: 'c', forced: true,
			touch: c.usualTouch(bar, at), least: at + beat, left: c.hasBass(bar)})
	}
	return out
}

// strikesIn is the tab's first strike after a change and before its chord must be heard; nil
// where there is none.
func (c *Pianist) strikesIn(tab []mark, i int) *mark {
	k := sort.Search(len(tab), func(k int) bool { return tab[k].tick > c.changes[i].Start })
	if k < len(tab) && tab[k].tick < c.heardBy(i) {
		return &tab[k]
	}
	return nil
}

// keepsFigure reports whether the comp needs no strike of its own for a change: in a feel that
// keeps its figure the tab strikes soon after it, or just ahead of it. Then that strike must
// stay. The song, its last bar and a section that the band rises into begin with their chord.
func (c *Pianist) keepsFigure(tab []mark, i int) bool {
	ch := &c.changes[i]
	bar := c.BarAt(ch.Start)
	if c.FeelIn(bar).Changes == feel.OnTime || c.hasBass(bar) || ch.Pushed() || c.OffBeat(ch.Start) ||
		i == 0 && (c.Pass.Before == nil || c.ForcefulOpening(timeline.Piano) != nil) ||
		i > 0 && c.changes[i-1].Chord.None || bar == c.Ending() {
		return false
	}
	k := sort.Search(len(tab), func(k int) bool { return tab[k].tick >= ch.Start })
	if c.strikeAhead(tab, k-1, i) {
		if k < len(tab) && tab[k].tick == ch.Start {
			tab[k].touch = feel.Rest // the chord is tied over
		}
		return true
	}
	if k < len(tab) && tab[k].tick == ch.Start {
		return false // the tab strikes the change
	}
	m := c.strikesIn(tab, i)
	if m == nil || c.hitIn(m.tick, m.tick+c.Pass.Bars[c.BarAt(m.tick)].Meter.PlayedBeat()/2) {
		return false
	}
	m.forced = true
	return true
}

// hitIn reports whether the pianist strikes an accent from a tick to another.
func (c *Pianist) hitIn(from, to int64) bool {
	list := c.Cues.List
	first := sort.Search(len(list), func(i int) bool { return list[i].At >= from })
	for i := first; i < len(list) && list[i].At <= to; i++ {
		if list[i].Kind == cue.Accent && list[i].By.Has(timeline.Piano) {
			return true
		}
	}
	return false
}

// strikeAhead lets strike k of the tab, the last before change i, have the new chord if it
// falls on the last off-beat before the change and the chord before has been heard. Two changes
// of seven have no such strike: then the tab leaves it out, as nobody strikes the old chord
// there.
func (c *Pianist) strikeAhead(tab []mark, k, i int) bool {
	if k < 0 || i == 0 || c.FeelIn(c.BarAt(tab[k].tick)).Changes != feel.Ahead {
		return false
	}
	m, ch := &tab[k], &c.changes[i]
	beat := c.Pass.Bars[c.BarAt(m.tick)].Meter.PlayedBeat()
	before := c.changes[i-1]
	switch {
	case m.forced: // without it the chord before is not heard
		return false
	case ch.Start-m.tick > beat/2, m.tick-before.Start < beat, before.Chord.None,
		c.Cues.Alone[c.BarAt(ch.Start)], c.silences.Over(m.tick, ch.Start+1), c.hitIn(ch.Start-beat/2, ch.Start+beat/2),
		c.BarAt(ch.Start) == c.Ending(): // the last chord is struck with the band
		return false
	}
	if c.SectionChance("comp ahead").At(ch.Start).Below(7) < 2 {
		m.touch = feel.Rest
		return false
	}
	m.change, m.part, m.forced, m.cue = int32(i), 'c', true, ch.Cue
	m.least = ch.Start + beat/2
	return true
}

// strikeWholeChords makes every chord heard whole before it changes, and two of its voices soon,
// the one that says most of it among them: its first strike takes the voices that the strikes
// after it leave out. A chord does not begin on a colour alone.
func (c *Pianist) strikeWholeChords(strikes []mark) {
	at := 0
	for i := 0; i < len(c.changes); {
		end := i + 1
		for end < len(c.changes) && !c.needsStrike(end) {
			end++
		}
		n := int(c.voicings[i].N)
		soon := min(c.heardBy(i), c.changes[i].Start+(c.changes[end-1].End-c.changes[i].Start)/2+1)
		for at < len(strikes) && strikes[at].tick < c.changes[i].Start && strikes[at].change != int32(i) {
			at++
		}
		if at < len(strikes) && strikes[at].part == 'm' {
			strikes[at].part = 'c' // nothing is held yet that could move
		}
		first, early, heard := at, uint8(0), uint8(0)
		for at < len(strikes) && (end == len(c.changes) && strikes[at].tick < c.end ||
			end < len(c.changes) && strikes[at].tick < c.changes[end].Start && strikes[at].change != int32(end)) {
			heard |= strikes[at].all(n)
			if strikes[at].tick < soon || at == first {
				early = heard
			}
			at++
		}
		if first < at && n > 0 {
			all := uint8(1)<<n - 1
			add, telling := all&^heard, c.telling(i)
			begins := strikes[first].all(n) | add
			bare := bits.OnesCount8(begins) == 1 && c.rank(i, bits.TrailingZeros8(begins)) == colour
			if bare || (early|add)&telling == 0 {
				add |= telling
			}
			for k := 0; k < n && bits.OnesCount8(early|add) < min(2, n); k++ {
				add |= 1 << k
			}
			if m := &strikes[first]; add != 0 {
				m.add |= add
				m.least = max(m.least, m.tick+c.Pass.Bars[c.BarAt(m.tick)].Meter.PlayedBeat())
			}
		}
		i = end
	}
}

// How much a voice says of its chord, the most first: the third or what is suspended in its place,
// the seventh, root and fifth, any other.
const (
	third = iota
	seventh
	plainTone
	colour
)

// rank is how much voice k says of the chord of change i.
func (c *Pianist) rank(i, k int) int {
	chord, pc := &c.changes[i].Chord, int(c.voicings[i].Notes[k])%12
	if t, ok := bassline.Tone(chord, '3'); ok && pc == t {
		return third
	}
	for n := range chord.ToneCount() {
		t := chord.Tone(n)
		if (chord.Root.PC()+int(t.Semitones))%12 != pc {
			continue
		}
		switch t.Degree {
		case 7:
			return seventh
		case 1, 5:
			return plainTone
		}
	}
	return colour
}

// telling is the voice that says most of the chord of change i, as a bit.
func (c *Pianist) telling(i int) uint8 {
	best := 0
	for k := range int(c.voicings[i].N) {
		if c.rank(i, k) < c.rank(i, best) {
			best = k
		}
	}
	return 1 << best
}
