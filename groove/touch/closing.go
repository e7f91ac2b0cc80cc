package touch

import (
	"plinth/groove/score"
)

// A ritardando and the last chord are softer. Common practice, no single source.
const (
	softerPercent = 13        // a rit softens by so much to its end
	softerMost    = 10 * fine // and by no more than that
	endPercent    = 10        // the last chord is softer than the two bars before it by this or more
	breathPercent = 20        // and softer than the bar before it, unless that is softer by more than this
)

// prepareRits works out at each bar line how far everybody has softened through a rit, in
// thousandths. It stays so to the end of the pass, as the tempo does. A tempo that quickens
// softens nothing, nor does a rit that broadens: into a stronger section, while the energy
// rises, or into a last hit.
func (t *Playing) prepareRits() {
	t.softer = t.softer[:0]
	last := len(t.Pass.Bars) - 1
	if s := t.SweepAt(last); t.FinalHit() >= 0 || s.To > s.From || t.LeadsTo(last) > t.Energy(last) {
		return
	}
	tempo := t.Pass.BPM
	for i := range t.Pass.Events {
		e := &t.Pass.Events[i]
		if !e.Kind.MovesTempo() {
			continue
		}
		if e.To < tempo && t.Cues.Acts(i) && e.End > e.Tick {
			t.soften(e.Tick, e.End)
		}
		tempo = e.To
	}
}

// soften softens evenly from one tick to another, and from there on.
func (t *Playing) soften(from, to int64) {
	if len(t.softer) == 0 {
		t.softer = append(t.softer, make([]int64, len(t.Pass.Bars)+1)...)
	}
	for bar := range t.softer {
		tick := t.Pass.Length
		if bar < len(t.Pass.Bars) {
			tick = t.Pass.Bars[bar].Start
		}
		t.softer[bar] = max(t.softer[bar], min(1000, max(0, 1000*(tick-from)/(to-from))))
	}
}

// softened is a loudness as a rit leaves it at a place in a bar.
func (t *Playing) softened(v int64, bar int, part, length int64) int64 {
	if len(t.softer) == 0 {
		return v
	}
	far := ramp{t.softer[bar], t.softer[bar+1]}.at(part, length)
	return v - min(v*softerPercent/100, softerMost)*far/1000
}

// restOnTheLast softens the chord on which the song comes to rest, all of it alike, until its
// mean is under that of the two bars before, and under that of the last one, too, unless that
// is hardly more than a breath. A last chord that the song file accents keeps its force.
func (t *Playing) restOnTheLast(notes []score.Note, velocities []uint8) {
	bar := t.Ending()
	if bar < 0 || t.EndsOnAHit() {
		return
	}
	var last, before, two mean
	rest := t.EndingAt()
	for i := range notes {
		switch at, v := notes[i].At, int(velocities[i]); {
		case at >= rest:
			last.add(v)
		case bar > 0 && at >= t.Pass.Bars[bar-1].Start:
			before.add(v)
			two.add(v)
		case bar > 1 && at >= t.Pass.Bars[bar-2].Start:
			two.add(v)
		}
	}
	if last.many == 0 || two.many == 0 {
		return
	}
	most := two.percent(100 - endPercent)
	if before.many > 0 {
		most = min(most, max(before.percent(100)-1, two.percent(100-breathPercent)))
	}
	down := max(0, last.percent(100)-most)
	for i := range notes {
		if notes[i].At >= rest {
			velocities[i] = uint8(max(1, int(velocities[i])-down))
		}
	}
}

// mean is that of some velocities.
type mean struct{ sum, many int }

func (m *mean) add(v int) { m.sum, m.many = m.sum+v, m.many+1 }

// percent is a share of the mean.
func (m *mean) percent(share int) int { return m.sum * share / (100 * m.many) }
