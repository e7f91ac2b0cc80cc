package pianist

import (
	"plinth/groove/score"
	"plinth/groove/touch"
)

// Finish leaves what two hands can play.
func (c *Pianist) Finish(t *touch.Playing, drafts []touch.Draft) []touch.Draft {
	hit := func(n *score.Note) bool { return n.Art.Has(score.Accent) }
	return leftInTurn(t, withinKeySpeed(t, t.LeaveTimeAtBorder(drafts, hit)))
}

// withinKeySpeed keeps only one of two strokes of a key that are too close for a hand: the
// accent or, with no accent or two alike, the first, which is then held as long as the second
// would have been, unless it is cut off dry. So two hits or chords that are written so close
// are struck once on the keys that they share. notes are in order of their start.
func withinKeySpeed(t *touch.Playing, notes []touch.Draft) []touch.Draft {
	c := t.Clock()
	var last [128]int // index into notes + 1
	drop := make([]bool, len(notes))
	for i := range notes {
		n := &notes[i]
		j := last[n.Key] - 1
		last[n.Key] = i + 1
		if j < 0 || c.Micros(n.Start)-c.Micros(notes[j].Start) >= touch.AgainUS {
			continue
		}
		before := &notes[j]
		if t.AccentWeight(n.Note) > t.AccentWeight(before.Note) {
			drop[j] = true
			continue
		}
		drop[i] = true
		if !before.Art.Has(score.Short) {
			before.End = max(before.End, min(n.End, t.Latest(before.Note)))
		}
		last[n.Key] = j + 1
	}
	return score.Without(notes, func(i int) bool { return drop[i] })
}

// leftInTurn ends a note of the left hand where the hand strikes again: it holds one bass note
// at a time, or an octave. notes are in order of their start.
func leftInTurn(t *touch.Playing, notes []touch.Draft) []touch.Draft {
	next := -1 // the left hand's next stroke
	for i := len(notes) - 1; i >= 0; i-- {
		n := &notes[i]
		if n.Voice != score.Left {
			continue
		}
		if next >= 0 && notes[next].At == n.At { // the two of an octave
			n.End = min(n.End, notes[next].End)
			continue
		}
		if next >= 0 && n.End > notes[next].Start && notes[next].Start-n.Start >= t.ShortestNote(n.Start) {
			n.End = notes[next].Start
		}
		next = i
	}
	return notes
}
