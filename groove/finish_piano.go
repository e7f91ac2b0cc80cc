package groove

import "plinth/groove/score"

// keySpeed keeps of two strokes of one key that come faster than a hand repeats it
// the accent, and otherwise the first, which is held as long as the second would
// have been. So hits and changes of chord that are written closer than that are
// struck once, or shared out among the keys that they do not have in common. notes
// are in order of their start.
func (p *Plan) keySpeed(c Clock, fences fences, notes []played) []played {
	var last [128]int // index into notes + 1
	drop := make([]bool, len(notes))
	for i := range notes {
		n := &notes[i]
		j := last[n.Key] - 1
		last[n.Key] = i + 1
		if j < 0 || c.Micros(n.start)-c.Micros(notes[j].start) >= repeatUS {
			continue
		}
		before := &notes[j]
		if p.Weight(n.Note) > p.Weight(before.Note) {
			drop[j] = true
			continue
		}
		drop[i] = true
		_, high := fences.around(before.Note)
		before.end = max(before.end, min(n.end, high))
		last[n.Key] = j + 1
	}
	out := notes[:0]
	for i := range notes {
		if !drop[i] {
			out = append(out, notes[i])
		}
	}
	return out
}

// leftInTurn ends what the left hand holds where it strikes again at the latest: it has
// one bass note at a time, and its octave. notes are in order of their start.
func leftInTurn(c Clock, notes []played) []played {
	next := -1 // the left hand's next stroke
	for i := len(notes) - 1; i >= 0; i-- {
		n := &notes[i]
		if n.Voice != score.Left {
			continue
		}
		if next >= 0 && notes[next].At == n.At { // the two of an octave
			n.end = min(n.end, notes[next].end)
			continue
		}
		if next >= 0 && n.end > notes[next].start && notes[next].start-n.start >= c.Shortest(n.start) {
			n.end = notes[next].start
		}
		next = i
	}
	return notes
}
