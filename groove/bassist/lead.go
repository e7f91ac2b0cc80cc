package bassist

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
)

// leadingLevel is the level whose row the bassist plays in the second half of a bar that leads
// to another energy, and where that half begins: the line goes on as the next pass will have it.
// On the way down, where it has beats enough, it begins a beat earlier. In other bars, and where
// that row strikes as often as the bar's own, the second half begins never.
func (b *Bassist) leadingLevel(bar int, steps []plan.Step) (*feel.Level, int64) {
	to, energy := b.LeadsTo(bar), b.Energy(bar)
	if bar != len(b.Pass.Bars)-1 || to == energy {
		return nil, never
	}
	lv, lead, beats := b.Level(bar), &b.Feel.Levels[to-1], b.BeatStarts(bar)
	from := b.middle(bar)
	if to < energy && len(beats) > 3 {
		from = b.Pass.Bars[bar].Start + beats[(len(beats)-1)/2]
	}
	more := 0
	for _, st := range steps {
		if st.Tick >= from {
			more += strikes(lead, st.Index+b.barShift(bar, lv, lead)) - strikes(lv, st.Index)
		}
	}
	if more == 0 {
		return nil, never
	}
	return lead, from
}

// strikes is 1 where a level's bass row strikes at a step, 0 elsewhere.
func strikes(lv *feel.Level, step int) int {
	if step < len(lv.Bass) && lv.Bass[step].Touch > feel.Sound {
		return 1
	}
	return 0
}

// leadIn adds one last note that leads into a stronger pass, where the bar does not strike more
// often on the way to it. It does so at half of those borders at most, and not where the drummer
// fills for more than a beat.
func (b *Bassist) leadIn(drums *score.Part) {
	bar := len(b.Pass.Bars) - 1
	rises := b.LeadsTo(bar) > b.Energy(bar) && !b.leading && len(b.Level(bar).Drums) > 0
	if !rises || len(b.notes) == 0 || b.Cues.Alone[bar] || b.Chance("bass figure").At(-1).Below(2) > 0 {
		return
	}
	beat := b.Pass.Bars[bar].Meter.TempoTicks()
	for _, g := range drums.Groups {
		if g.Kind == score.Fill && g.End >= b.Pass.Length && g.End-g.At > beat {
			return
		}
	}
	n := plainNote(b.Pass.Length-min(beat, quarter)/2, b.Pass.Length)
	if b.Swing().Triplets {
		n.tick = b.Pass.Length - quarter/3
	}
	last := &b.notes[len(b.notes)-1]
	if last.tick >= n.tick {
		return
	}
	if n.degree = 'a'; last.degree == 'w' || isApproach(last.degree) {
		n.degree = last.degree
	}
	last.end = min(last.end, n.tick)
	b.notes = append(b.notes, n)
}
