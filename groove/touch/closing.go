package touch

import (
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// A ritardando and the last chord are softer. Common practice, no single source.
const (
	softerPercent = 13        // a rit softens by so much to its end
	softerMost    = 10 * fine // and by no more than that
	endPercent    = 10        // the last chord is softer than the two bars before it by this or more
	breathPercent = 20        // and softer than the bar before it, unless that is softer by more than this
)

// prepareRits works out how far everybody has softened through a rit, bar by bar, in thousandths.
// It stays so as long as the tempo does: a tempo that quickens takes it back evenly, and one that
// bars set takes it back at once. A rit that broadens softens nothing.
func (t *Playing) prepareRits() {
	t.softer = t.softer[:0]
	bars := t.Pass.Bars
	for first, end := 0, 0; first < len(bars); first = end {
		for end = first + 1; end < len(bars) && bars[end].Pace == nil; end++ {
		}
		if !t.broadensUpTo(end) {
			t.softenIn(first, end)
		}
	}
}

// broadensUpTo reports whether a rit up to a bar line broadens: into something stronger, while
// the energy rises, or into a last hit.
func (t *Playing) broadensUpTo(end int) bool {
	if s := t.SweepAt(end - 1); s.To > s.From {
		return true
	}
	if end < len(t.Pass.Bars) {
		return t.Energy(end) > t.Energy(end-1)
	}
	return t.FinalHit() >= 0 || t.LeadsTo(end-1) > t.Energy(end-1)
}

// softenIn softens in bars at whose first one the tempo is set, and in none of the others.
func (t *Playing) softenIn(first, end int) {
	tempo, far := t.Pass.BPMAt(first), int64(0)
	for i := range t.Pass.Events {
		e := &t.Pass.Events[i]
		if !e.Kind.MovesTempo() || e.Bar < first || e.Bar >= end {
			continue
		}
		to := far
		switch {
		case e.To < tempo && t.Cues.Acts(i) && e.End > e.Tick:
			to = 1000
		case e.To > tempo:
			to = 0
		}
		if to != far {
			t.soften(e, end, far, to)
		}
		tempo, far = e.To, to
	}
}

// soften softens evenly through a rit or an accel, from so far to so far, and leaves it so up to a
// bar line.
func (t *Playing) soften(e *timeline.Event, end int, from, to int64) {
	if len(t.softer) == 0 {
		t.softer = append(t.softer, make([]ramp, len(t.Pass.Bars))...)
	}
	at := func(tick int64) int64 { return from + (to-from)*min(tick-e.Tick, e.End-e.Tick)/(e.End-e.Tick) }
	for bar := e.Bar; bar < end; bar++ {
		if bar > e.Bar || t.Pass.Bars[bar].Start == e.Tick {
			t.softer[bar].from = at(t.Pass.Bars[bar].Start)
		}
		t.softer[bar].to = at(t.BarEnd(bar))
	}
}

// softened is a loudness as a rit leaves it at a place in a bar.
func (t *Playing) softened(v int64, bar int, part, length int64) int64 {
	if len(t.softer) == 0 {
		return v
	}
	return v - min(v*softerPercent/100, softerMost)*t.softer[bar].at(part, length)/1000
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
