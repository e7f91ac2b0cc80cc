package pianist

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// When the left hand of a pianist without a bassist strikes, and what the right makes
// of the comp row over it.

// leftStrikes are the left hand's own: where the feel's bass has the bar's first
// beat, and one more, see secondStrokeAt. It is the bass of energies 1 and 2, with that beat of
// the higher levels; what lies between is the bassist's alone, and notes are held from
// one to the next.
func (c *Pianist) leftStrikes() []mark {
	if c.left == nil {
		return nil
	}
	var out []mark
	holds, ending := c.Cues.Holds, c.Ending()
	add := func(tick int64, lv *feel.Level, degree byte) {
		if c.tabMayPlay(tick) && !holds.Has(tick) {
			out = append(out, mark{tick: tick, cue: -1, part: 'b', touch: usualTouch(lv), left: true,
				fifth:  degree == '5' || degree == 'w' || degree == 'a',
				middle: tick > c.Pass.Bars[c.BarAt(tick)].Start})
		}
	}
	for bar := range c.Pass.Bars {
		b := &c.Pass.Bars[bar]
		lv := c.Level(bar)
		if c.alone[bar] {
			continue
		}
		if bar == ending {
			add(b.Start, lv, '1')
			continue
		}
		calm := &c.Feel.Levels[leftRows.At(c.Energy(bar))-1]
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

// rowDegreeAt is the degree that a level's bass row strikes at a place of a bar, 0 where
// it strikes nothing.
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

// secondStrokeAt is where in a bar the left hand may strike again: at the beat in its middle,
// else at the third; 0 where there is neither.
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

// figureForBothHands turns a bar of the comp row that breaks the chord from its first beat on
// into one for both hands: the bass is the figure's first note, the others follow
// from below, and its highest takes what is left of the chord.
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

// wholeOffBeat strikes the chord whole in a bar of the comp row whose upper halves all
// stand off the beats, from energy 3 up: the left hand has the beat, and the right has
// nothing else to do.
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

// chordAfterBass finds the tab's strike that brings a chord after its bass, where the comp
// of the feel comes after the beat: in a bar whose first beat is left to the bass,
// within a beat of the change and before the next. It is made to take the whole
// chord. Else the two are struck together.
func (c *Pianist) chordAfterBass(tab []mark, i int) bool {
	ch := &c.changes[i]
	if c.left == nil || ch.Pushed() {
		return false
	}
	bar := c.BarAt(ch.Start)
	b := &c.Pass.Bars[bar]
	if ch.Start != b.Start && ch.Start != b.Start+b.Length/2 {
		return false
	}
	if c.Cues.Struck(cue.Accent, timeline.Piano, ch.Start) {
		return false // a hit is both hands'
	}
	for k := sort.Search(len(tab), func(k int) bool { return tab[k].tick >= b.Start }); k < len(tab); k++ {
		m := &tab[k]
		switch {
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
