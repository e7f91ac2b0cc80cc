package bassist

import "plinth/groove/touch"

// legatoTicks: two bass notes closer than this on the grid follow without a gap.
const legatoTicks = 2

// Finish lets only one note sound at a time. It ends every note where the next begins at the
// latest; notes that follow each other on the grid do so as played.
func (b *Bassist) Finish(t *touch.Playing, notes []touch.Draft) []touch.Draft {
	out := notes[:0]
	for i, n := range notes {
		if i+1 < len(notes) {
			next := &notes[i+1]
			if n.End > next.Start || next.At-n.Note.End() < legatoTicks {
				n.End = next.Start
			} else if gap := next.At - n.Note.End(); gap <= releaseTicks && next.Start-gap > n.Start {
				n.End = min(next.Start-gap, t.Latest(n.Note))
			}
		}
		if n.End-n.Start < t.ShortestNote(n.Start) && i+1 < len(notes) {
			continue
		}
		out = append(out, n)
	}
	return out
}
