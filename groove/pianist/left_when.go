package pianist

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// This file says when the left hand of a pianist without a bassist strikes, and how the right
// hand plays the comp row over it.

// leftStrikes are the strikes of the left hand alone. It strikes the first beat of a bar, if
// the feel's bass does, and at most one more beat, see secondStrokeAt. It follows the bass row
// of energy 1 or 2, and for the second beat the level's own row too. It leaves out all other
// notes of the rows, and holds each note to the next.
func (c *Pianist) leftStrikes() []mark {
	if c.left == nil {
		return nil
	}
	var out []mark
	holds, ending := c.Cues.Holds, c.Ending()
	add := func(tick int64, lv *feel.Level, degree byte) {
		if c.tabMayPlay(tick) && !holds.Has(tick) {
			out = append(out, mark{tick: tick, cue: -1, change: -1, part: 'b', left: true,
				touch:  c.usualTouch(c.BarAt(tick), tick),
				fifth:  degree == '5' || degree == 'w' || degree == 'a',
				middle: tick > c.Pass.Bars[c.BarAt(tick)].Start})
		}
	}
	for bar := range c.Pass.Bars {
		b := &c.Pass.Bars[bar]
		lv := c.Level(bar)
		if c.alone[bar] || !c.hasBass(bar) {
			continue
		}
		if bar == ending {
			add(b.Start, lv, '1')
			continue
		}
		calm := &c.FeelIn(bar).Levels[leftRows.At(c.Energy(bar))-1]
		again := c.secondStrokeAt(bar)
		first, second := c.rowDegreeAt(bar, calm, 0), c.rowDegreeAt(bar, calm, again)
		if second == 0 {
			second = c.rowDegreeAt(bar, lv, again)
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

// rowDegreeAt is the degree that a level's bass row strikes at a place in a bar; 0 where it
// strikes nothing.
func (c *Pianist) rowDegreeAt(bar int, lv *feel.Level, at int64) byte {
	for _, st := range c.Steps(bar, lv) {
		if st.Tick == c.Pass.Bars[bar].Start+at && st.Index < len(lv.Bass) {
			if s := lv.Bass[st.Index]; s.Touch > feel.Ghost {
				return s.Degree
			}
		}
	}
	return 0
}

// secondStrokeAt is where in a bar the left hand may strike again: on the beat in the middle
// of the bar, or else on the third beat; 0 where there is neither.
func (c *Pianist) secondStrokeAt(bar int) int64 {
	beats, half := c.BeatStarts(bar), c.Pass.Bars[bar].Length/2
	switch {
	case slices.Contains(beats, half):
		return half
	case len(beats) > 2:
		return beats[2]
	}
	return 0
}

// figureForBothHands takes a bar of the comp row that breaks the chord from the first beat on,
// and shares it out between both hands. The bass becomes the first note of the figure, the
// voices follow from the lowest up, and the highest note takes the rest of the chord.
func figureForBothHands(row []compAt) {
	if len(row) == 0 || row[0].step.Part != '1' || row[0].step.Touch <= feel.Sound {
		return
	}
	highest := byte('1')
	for i := range row {
		if s := &row[i].step; s.Touch > feel.Sound && s.Part >= '1' && s.Part <= '5' {
			highest = max(highest, s.Part)
		}
	}
	for i := range row {
		s := &row[i].step
		if s.Touch <= feel.Sound || s.Part < '1' || s.Part > '5' {
			continue
		}
		row[i].up = s.Part == highest
		if s.Part--; s.Part < '1' {
			s.Part, row[i].up = 'b', false
			if i > 0 {
				s.Part = '1'
			}
		}
	}
}

// wholeOffBeat lets a bar of the comp row strike whole chords where it strikes their upper
// halves, if all of these stand off the beats, from energy 3 up: the left hand has the beats,
// and the right hand is free.
func (c *Pianist) wholeOffBeat(row []compAt, bar int) {
	if !wholeOffBeats.At(c.Energy(bar)) {
		return
	}
	start, beats := c.Pass.Bars[bar].Start, c.BeatStarts(bar)
	for _, r := range row {
		if r.step.Part == 'u' && slices.Contains(beats, r.tick-start) {
			return
		}
	}
	for i := range row {
		if s := &row[i].step; s.Part == 'u' {
			s.Part = 'c'
		}
	}
}

// chordAfterBass looks for a strike of the tab that can bring the chord of change i after its
// bass, and makes it strike the whole chord. The comp must leave the first beat of the bar to
// the bass, and the strike must come within a beat of the change and before the next change.
// If there is none, chord and bass are struck together.
func (c *Pianist) chordAfterBass(tab []mark, i int) bool {
	ch := &c.changes[i]
	bar := c.BarAt(ch.Start)
	if !c.hasBass(bar) || ch.Pushed() || c.OffBeat(ch.Start) {
		return false
	}
	b := &c.Pass.Bars[bar]
	if ch.Start != b.Start && ch.Start != b.Start+b.Length/2 {
		return false
	}
	if c.Cues.Struck(cue.Accent, timeline.Piano, ch.Start) {
		return false // both hands strike a hit
	}
	for k := sort.Search(len(tab), func(k int) bool { return tab[k].tick >= b.Start }); k < len(tab); k++ {
		m := &tab[k]
		switch {
		case m.tick == b.Start || m.tick == ch.Start:
			return false
		case m.tick > ch.Start:
			if m.tick > ch.Start+b.Meter.PlayedBeat() || m.tick >= ch.End || m.part >= '1' && m.part <= '5' {
				return false
			}
			m.part = 'c'
			return true
		}
	}
	return false
}
