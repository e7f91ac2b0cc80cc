package bassist

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
)

// layRow lays the bass row over the pass, the feel's or what the song asks for, and varies it, bar
// by bar.
func (b *Bassist) layRow() {
	ending := b.Ending()
	b.notes = b.notes[:0]
	open := -1 // the note that "=" holds on
	for bar := range b.Pass.Bars {
		if b.Cues.Alone[bar] {
			open = -1
			continue
		}
		if bar == ending { // the last note of the song is held
			if start := b.Pass.Bars[bar].Start; start < b.EndingAt() {
				b.notes = append(b.notes, plainNote(start, b.EndingAt()))
			}
			n := plainNote(b.EndingAt(), b.BarEnd(bar))
			n.cue = b.Cues.Ending
			b.notes = append(b.notes, n)
			continue
		}
		lv, from := b.rowLevel(bar), len(b.notes)
		steps := b.rowSteps(bar)
		lead, middle := b.leadingLevel(bar, steps)
		b.leading = lead != nil
		for i, st := range steps {
			row, index := lv, st.Index
			if st.Tick >= middle {
				row, index = lead, st.Index+b.barShift(bar, lv, lead)
			}
			if index >= len(row.Bass) {
				continue
			}
			end := b.BarEnd(bar)
			if i+1 < len(steps) {
				end = steps[i+1].Tick
			}
			s := row.Bass[index]
			switch s.Touch {
			case feel.Rest:
				open = -1
			case feel.Sound:
				if open >= 0 {
					b.notes[open].end = end
				}
			default:
				n := plainNote(st.Tick, end)
				n.degree, n.touch = s.Degree, s.Touch
				if s.Touch == feel.Ghost {
					n.degree = 'g'
				}
				open = len(b.notes)
				b.notes = append(b.notes, n)
			}
		}
		if b.leading && len(b.notes) == from { // calmer, and not silent
			b.notes = append(b.notes, plainNote(b.middle(bar), b.BarEnd(bar)))
		} else if len(b.notes) > from {
			b.varyRhythm(bar, from, steps)
			if open >= 0 {
				open = len(b.notes) - 1
			}
		}
	}
}

// plainNote is the chord's bass from a tick to another.
func plainNote(tick, end int64) bassNote {
	return bassNote{tick: tick, end: end, degree: '1', touch: feel.Normal, cue: -1}
}

// barShift is how many steps further the bar stands in the rows of another level.
func (b *Bassist) barShift(bar int, lv, other *feel.Level) int {
	if b.songRows[bar] != nil || b.onlyBeats(bar) {
		return 0
	}
	return b.FirstStep(bar, other) - b.FirstStep(bar, lv)
}

// figure is the chance by which a bar is varied. Most bars are the same whenever the section
// comes again, and some are this pass's own.
func (b *Bassist) figure(bar int) plan.Chance {
	if own := b.Chance("bass figure").At(int64(bar)); own.Below(ownBars) == 0 {
		return own.At(1)
	}
	return b.SectionChance("bass figure").At(int64(bar))
}
