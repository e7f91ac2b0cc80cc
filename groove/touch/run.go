package touch

import (
	"plinth/groove/feel"
	"plinth/groove/score"
)

// runPart is the part that is left of how far a note is from the mean of its run, and runFall
// is how much softer than the note before the last one is.
const runPart, runFall = 3, 2

// smoothRuns makes one line of the single notes that the pianist's right hand plays in a row,
// as in a broken chord: chance moves the run and hardly its notes, and the last one falls. In a
// bar of three the beats are the line.
func (t *Playing) smoothRuns(notes []score.Note, velocities []uint8) {
	if !t.who.Chords() {
		return
	}
	var run []int
	for i := range notes {
		n := &notes[i]
		if n.Voice != score.Right {
			continue
		}
		single := single(notes, i) && !t.inBarOfThree(n)
		if len(run) > 0 && !(single && t.follows(&notes[run[len(run)-1]], n)) {
			smooth(run, velocities)
			run = run[:0]
		}
		if single {
			run = append(run, i)
		}
	}
	smooth(run, velocities)
}

// single reports whether a note of the right hand is struck alone in its hand and is nothing
// but a figure's own.
func single(notes []score.Note, i int) bool {
	n := &notes[i]
	if n.Cue >= 0 || n.Art.Has(score.Accent) || n.Touch == feel.Strong {
		return false
	}
	voices, _ := inHand(notes, i)
	return voices == 1
}

// follows reports whether a note goes on with the run that another one ends: within half a bar.
func (t *Playing) follows(last, n *score.Note) bool {
	return n.At > last.At && n.At-last.At <= t.Pass.Bars[t.BarAt(n.At)].Length/2
}

// smooth is smoothRuns for one run.
func smooth(run []int, velocities []uint8) {
	if len(run) < 2 {
		return
	}
	var m mean
	for _, i := range run {
		m.add(int(velocities[i]))
	}
	middle := m.percent(100)
	for _, i := range run {
		velocities[i] = uint8(middle + (int(velocities[i])-middle)/runPart)
	}
	last, before := run[len(run)-1], run[len(run)-2]
	velocities[last] = min(velocities[last], max(1, velocities[before]-runFall))
}
