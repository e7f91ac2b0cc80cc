package bassist

import (
	"plinth/groove/bassline"
	"plinth/songspec/timeline"
)

// balladTop is the highest note in a ballad: above it the bass steps on the singer.
const balladTop = 48

// rangeOf is the lowest and the highest key that a note may take. The first note of a pass has one
// octave, so that the pass before it knows where it leads to, and the song's last is low.
func (b *Bassist) rangeOf(i int) (lowest, highest int) {
	n, bar := &b.notes[i], b.BarAt(b.notes[i].tick)
	lowest = Lowest(b.Song.BandAt(b.Pass, bar).Bass)
	switch {
	case b.Cues.Ending >= 0 && n.tick == b.EndingAt():
		return lowFour, lowFour + 11
	case i == 0 && n.degree == '1':
		before := b.Pass.Before
		return b.openingRange(before != nil && n.first && liftsOff(before.Energy, b.Energy(0)))
	case b.styles[bar].ballad:
		return lowest, balladTop
	}
	return lowest, Highest
}

// liftsOff reports whether a pass lifts off: a chorus that comes in stronger than what was before it.
func liftsOff(before, energy int) bool { return low.At(energy) && before < energy }

// openFrom is the lowest note that a pass opens on where it does not lift off.
const openFrom = 31

// openingRange is the octave that a pass opens in: the lowest where it lifts off.
func (b *Bassist) openingRange(lifts bool) (lowest, highest int) {
	lowest = openFrom
	if lifts {
		lowest = Lowest(b.Song.Bass)
	}
	return lowest, lowest + 11
}

// opening is the key on which the next pass opens. ok is false where there is none that the line
// could lead to.
func (b *Bassist) opening() (key int, ok bool) {
	a := b.leadsOutTo()
	if a == nil {
		return 0, false
	}
	return b.openingOf(a), true
}

// openingOf is the key on which the next pass opens with its chord.
func (b *Bassist) openingOf(a *timeline.Neighbour) int {
	lowest, _ := b.openingRange(liftsOff(b.Energy(len(b.Pass.Bars)-1), a.Energy))
	return lowest + (a.Chord.Bass.PC()-lowest%12+12)%12
}

// widest is the widest leap by which a line comes back out of a rest: a fifth. Common practice, no
// single source.
const widest = 7

// comesBackTo is the pass in which the line comes back after a break: written hits, a stop or bars that
// the bassist keeps out of at the end of this one. nil: there is none.
func (b *Bassist) comesBackTo() *timeline.Neighbour {
	a, bar := b.Pass.After, len(b.Pass.Bars)-1
	if a == nil || a.Chord.None || a.Tacet.Has(timeline.Bass) || !b.Cues.Alone[bar] &&
		!b.Pass.TacetAt(bar).Has(timeline.Bass) && !b.Cues.Silences(timeline.Bass).Has(b.Pass.Length-1) {
		return nil
	}
	return a
}

// leadOutCost is the cost of ending the pass on a key, by where the next one opens.
func (b *Bassist) leadOutCost(key int) int {
	if a := b.comesBackTo(); a != nil {
		to := b.openingOf(a)
		cost := bassline.MoveCost(key, to)
		if key-to > widest || to-key > widest {
			cost += farCost
		}
		return cost
	}
	to, ok := b.opening()
	if !ok {
		return 0
	}
	last := &b.notes[len(b.notes)-1]
	if last.degree == '8' {
		key -= 12 // an excursion
	}
	cost := bassline.MoveCost(key, to)
	if last.leads && !isStep(key, to) {
		cost += farCost
	}
	return cost
}

// isStep reports whether two keys are a semitone or a tone apart.
func isStep(a, b int) bool {
	d := max(a-b, b-a)
	return d == 1 || d == 2
}

// holdRoots has the line stay on the chord's bass where an approach is no step from its aim, and
// where it would turn aside to a fifth by a leap of more than a fifth, there or back. It reports
// whether it has changed any note.
func (b *Bassist) holdRoots(keys []int) bool {
	held := false
	for i := range b.notes {
		n, bar := &b.notes[i], b.BarAt(b.notes[i].tick)
		to, ok := 0, true
		if i+1 < len(keys) {
			to = keys[i+1]
		} else {
			to, ok = b.opening()
		}
		far := ok && n.leads && !isStep(keys[i], to)
		if n.degree == '5' && i > 0 && !b.styles[bar].alternates && b.notes[i-1].degree != 'g' {
			far = far || max(keys[i]-keys[i-1], keys[i-1]-keys[i]) > 7 || ok && max(keys[i]-to, to-keys[i]) > 7
		}
		if far {
			n.degree, n.leads, held = '1', false, true
		}
	}
	return held
}
