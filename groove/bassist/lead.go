package bassist

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
)

// leadingLevel is the level whose row the bassist plays in the second half of a bar that leads
// to another energy, and where that half begins: the line goes on as the next pass will have it.
// On the way down it begins a beat earlier, in three at half of the borders, and so it does in fives
// and sevens, whose rows grow early. In other bars, where that row strikes as often as the bar's own,
// and in a feel that has only beats, the second half begins never.
func (b *Bassist) leadingLevel(bar int, steps []plan.Step) (*feel.Level, int64) {
	to, energy := b.LeadsTo(bar), b.Energy(bar)
	if !b.Crosses(bar) || to == energy || b.onlyBeats(bar) ||
		b.styles[bar].keepsRow && to < energy && perBar(b.rowLevel(bar)) < perBar(b.rowLevelAt(bar, to))+8 {
		return nil, never
	}
	lv, lead, beats := b.rowLevel(bar), b.rowLevelAt(bar, to), b.BeatStarts(bar)
	from := b.middle(bar)
	uneven := len(beats) > 1 && len(beats)%2 == 1 && 3*beats[1] != b.Pass.Bars[bar].Length
	if uneven || to < energy && (len(beats) > 3 || len(beats) == 3 && b.Chance("bass figure").At(-2).Below(2) > 0) {
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

// mayPickUp reports whether a last note off the beat may lead into the next pass: into a stronger
// one, at half of those borders, and not where the drummer fills for more than a beat.
func (b *Bassist) mayPickUp(drums *score.Part) bool {
	bar := len(b.Pass.Bars) - 1
	if b.LeadsTo(bar) <= b.Energy(bar) || b.onlyBeats(bar) || len(b.Level(bar).Drums) == 0 ||
		b.Cues.Alone[bar] || b.Chance("bass figure").At(-1).Below(2) > 0 {
		return false
	}
	return !slices.ContainsFunc(drums.Groups, func(g score.Group) bool {
		return g.Kind == score.Fill && g.End >= b.Pass.Length && g.End-g.At > b.Pass.Bars[bar].Meter.PlayedBeat()
	})
}

// pickUp adds such a note, where the bar has not been given another rhythm yet. There the last
// note of that rhythm leads.
func (b *Bassist) pickUp() {
	bar := len(b.Pass.Bars) - 1
	if !b.picksUp || b.leading || len(b.notes) == 0 || b.isJoint(bar) {
		return
	}
	n := plainNote(b.Pass.Length-min(b.Pass.Bars[bar].Meter.PlayedBeat(), quarter)/2, b.Pass.Length)
	if b.SwingIn(bar).Triplets {
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
