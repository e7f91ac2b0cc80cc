package bassist

import (
	"plinth/groove/bassline"
	"plinth/songspec/harmony"
)

// isSlash reports whether a chord has another bass than its root.
func isSlash(c *harmony.Chord) bool { return c.Bass != c.Root }

// fifthOver is the perfect fifth over a chord's bass, if the chord has it.
func fifthOver(c *harmony.Chord) (int, bool) {
	pc := (c.Bass.PC() + 7) % 12
	return pc, bassline.HasTone(c, pc)
}

// calmSlashBasses plays a chord over another bass in halves, or from that bass to its fifth and
// back where the chord has the fifth: struck again and again, such a bass sounds like a mistake.
func (b *Bassist) calmSlashBasses() {
	bar, half, fifth := -1, false, false
	b.drop(func(i int) bool {
		n := &b.notes[i]
		chord := &b.changes[n.change].Chord
		at := b.BarAt(n.tick)
		late := n.tick >= b.middle(at)
		again := at == bar && half == late // the half has been played
		if n.first || n.cue >= 0 || !again || !isSlash(chord) {
			bar, half, fifth = at, late, false
			return false
		}
		if _, ok := fifthOver(chord); !ok || n.degree == 'g' || b.isWritten(n.change) {
			return true
		}
		if fifth = !fifth; fifth {
			n.degree = '5'
		}
		return false
	})
}

// turnLine has the line turn aside on one note of a bar, the last that may: from the chord's bass
// to its fifth, and where a row has nothing but fifths from there back to the bass. At energy 2 it
// turns in every other bar at most, the second and the fourth of a phrase, and at energy 1 where a
// bar has a second note at all.
func (b *Bassist) turnLine() {
	for i := 0; i < len(b.notes); {
		bar, last, fifth, before := b.BarAt(b.notes[i].tick), -1, -1, -1
		for ; i < len(b.notes) && b.BarAt(b.notes[i].tick) == bar; i++ {
			n := &b.notes[i]
			switch {
			case n.first || n.cue >= 0 || n.tick == b.Pass.Bars[bar].Start:
			case n.degree == '1':
				before, last = last, i
			case n.degree == '5':
				fifth = i
			}
		}
		first, _ := b.Phrase(bar)
		energy, c, keeps := b.Energy(bar), b.figure(bar).At(drawTurn), b.styles[bar].keepsRow
		often := turns.At(energy)
		if energy > 3 && before >= 0 && b.Chance("bass figure").At(int64(bar), drawTurn).Below(2) == 0 {
			last = before
		}
		switch chord := &b.changes[b.notes[i-1].change].Chord; {
		case last < 0 && fifth < 0 || len(b.Level(bar).Drums) == 0 || energy == 2 && (bar-first)%2 == 0 && !keeps:
		case last < 0 && b.songRows[bar] != nil: // the song has asked for its fifths
		case last < 0 && (energy > 1 || keeps && bar > first) && c.Below(1000) < often/2 && !isSlash(chord):
			b.notes[fifth].degree = '1'
		case last < 0 || c.Below(1000) >= often || b.keepsRoot(&b.notes[last]) || b.settles(bar):
		default:
			if _, ok := fifthOver(chord); ok { // a diminished or raised one would stand out
				b.notes[last].degree = '5'
				if keeps && fifth > last { // the two change places
					b.notes[fifth].degree = '1'
				}
			}
		}
	}
}
