package touch

import (
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// A ritardando and the last chord are softer. Common practice, no single source.
const (
	softerPercent = 13        // a rit softens by so much to its end
	softerMost    = 10 * fine // and by no more than that
	endPercent    = 7         // the last chord is softer than the bars before it by this or more
	endBars       = 2         // how many bars before it count
)

// prepareRits works out at each bar line how far everybody has softened through a rit, in
// thousandths. It stays so to the end of the pass, as the tempo does. A tempo that quickens
// softens nothing, nor does a rit that broadens: into a stronger section, while the energy
// rises, or into a last hit.
func (t *Playing) prepareRits() {
	t.softer = t.softer[:0]
	last := len(t.Pass.Bars) - 1
	if t.FinalHit() >= 0 || t.Pass.EnergyTo > t.Pass.EnergyFrom || t.LeadsTo(last) > t.Energy(last) {
		return
	}
	tempo := t.Pass.BPM
	for i := range t.Pass.Events {
		e := &t.Pass.Events[i]
		if e.Kind != timeline.Rit {
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
// mean is under that of the bars before.
func (t *Playing) restOnTheLast(notes []score.Note, velocities []uint8) {
	bar := t.Ending()
	if bar < 0 {
		return
	}
	rest, start := t.Pass.Bars[bar].Start, t.Pass.Bars[max(0, bar-endBars)].Start
	var before, last, many, few int
	for i := range notes {
		switch at := notes[i].At; {
		case at >= rest:
			last, few = last+int(velocities[i]), few+1
		case at >= start:
			before, many = before+int(velocities[i]), many+1
		}
	}
	if few == 0 || many == 0 {
		return
	}
	down := max(0, last/few-before*(100-endPercent)/(100*many))
	for i := range notes {
		if notes[i].At >= rest {
			velocities[i] = uint8(max(1, int(velocities[i])-down))
		}
	}
}
