package bassist

import (
	"plinth/groove/bassline"
	"plinth/songspec/harmony"
)

// isWritten reports whether the chart has written a bass line at a change: the bass goes by step to
// it or from it, and one of the two is no root.
func (b *Bassist) isWritten(i int) bool {
	c := &b.changes[i].Chord
	joins := func(o *harmony.Chord) bool {
		return !o.None && isStepApart(c.Bass.PC(), o.Bass.PC()) && (isSlash(c) || isSlash(o))
	}
	if next, _, ok := b.nextChord(i); ok && joins(next) {
		return true
	}
	if first := b.begins[i]; first > 0 {
		return joins(&b.changes[first-1].Chord)
	}
	return b.Pass.Before != nil && joins(&b.Pass.Before.Chord)
}

// keepsRoot reports whether the bass stays on the root of a chord: in a written line, where the fifth
// would be the bass of the next chord, under the minor subdominant of a major key and other minor
// sixths, and where the bass goes on by step after a bar or less. Where the feel goes from root to
// fifth of its own it does so unless the next chord is over another bass.
func (b *Bassist) keepsRoot(n *bassNote) bool {
	i, bar := n.change, b.BarAt(n.tick)
	chord := &b.changes[i].Chord
	next, at, ok := b.nextChord(i)
	fifth := (chord.Bass.PC() + 7) % 12
	switch {
	case b.isWritten(i):
		return true
	case ok && next.Bass.PC() == fifth && (isSlash(next) || !b.styles[bar].alternates):
		return true
	case b.styles[bar].alternates:
		return false
	case isMinorSixth(chord), isMinorSubdominant(chord, b.keyOf(n)):
		return true
	}
	return ok && isStepApart(chord.Bass.PC(), next.Bass.PC()) &&
		at-b.changes[b.begins[i]].Start <= b.Pass.Bars[bar].Length
}

// isMinorSubdominant reports whether a chord is the minor chord on the fourth of a major key.
func isMinorSubdominant(c *harmony.Chord, k harmony.Key) bool {
	root := c.Root.PC()
	return !k.Minor && root == (k.Tonic.PC()+5)%12 && bassline.HasTone(c, (root+3)%12) &&
		!bassline.HasTone(c, (root+4)%12)
}

// isMinorSixth reports whether a chord is a minor chord with a major sixth.
func isMinorSixth(c *harmony.Chord) bool {
	root := c.Root.PC()
	return bassline.HasTone(c, (root+3)%12) && bassline.HasTone(c, (root+9)%12) && bassline.HasTone(c, (root+7)%12)
}

// keepToRoots has the notes of the row be the chord's bass where that is to stay, or leave the place
// to the next chord's.
func (b *Bassist) keepToRoots() {
	for i := range b.notes {
		n := &b.notes[i]
		switch n.degree {
		case '3', '5', '7', '8':
			if b.keepsRoot(n) {
				n.degree = '1'
			}
		case 'a', 'c':
			if b.isWritten(n.change) {
				n.degree = '1'
			}
		}
	}
}
