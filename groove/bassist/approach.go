package bassist

import (
	"plinth/groove/bassline"
	"plinth/songspec/cue"
	"plinth/songspec/harmony"
)

// priceApproach prices the neighbours of the next chord's bass when the note may be an
// approach. The neighbours are a semitone away, or a tone away if they are in the key. An
// approach is the last note before a change, within the last beat, at an energy that has
// approaches, and not over a pedal or a slash bass. A tone of the chord is as good as a note
// of the key. But C under the Cb of Abm6, or G under the G# of E7, is a false relation to the
// third that the comp holds, and costs more.
func (b *Bassist) priceApproach(i int, cost *[12]int) bool {
	n := &b.notes[i]
	bar := b.BarAt(n.tick)
	if !approaches.At(b.Energy(bar)) {
		return false
	}
	chord := &b.changes[n.change].Chord
	target, at, ok := b.nextBass(n.change)
	if !ok || chord.Bass != chord.Root || target == chord.Bass.PC() {
		return false
	}
	if at-n.tick > b.Pass.Bars[bar].Meter.TempoTicks() || i+1 < len(b.notes) && b.notes[i+1].tick < at {
		return false
	}
	n.degree = 'A'
	key := keyClasses(b.Pass.Key)
	other := otherThird(chord)
	for _, d := range []int{1, 11, 2, 10} {
		pc := (target + d) % 12
		own := bassline.HasTone(chord, pc)
		switch {
		case own || key[pc]:
			cost[pc] = 0
		case d == 1 || d == 11:
			cost[pc] = outsideCost
		default:
			continue
		}
		if pc == other && !own {
			cost[pc] += thirdCost
		}
	}
	// The take leans to one side, so that two takes do not walk alike.
	side := []int{1, 11}[b.Chance("approach").At(int64(bar)).Below(2)]
	cost[(target+side)%12]++
	return true
}

// otherThird is the pitch class of the third that a chord does not have: minor for
// major, major for minor; -1 for a chord without either.
func otherThird(c *harmony.Chord) int {
	for i := range c.ToneCount() {
		if t := c.Tone(i); t.Degree == 3 {
			return (c.Root.PC() + 7 - int(t.Semitones)) % 12
		}
	}
	return -1
}

// nextBass is the bass of the chord after change i, and where it is struck. ok is false where
// there is nothing to lead to, as when the next pass pushes its chord into this one.
func (b *Bassist) nextBass(i int) (pc int, at int64, ok bool) {
	if j := b.follows[i]; j < len(b.changes) {
		c := &b.changes[j]
		return c.Chord.Bass.PC(), c.Start, !c.Chord.None
	}
	a := b.Pass.After
	if a == nil || a.Chord.None || b.end < b.Pass.Length {
		return 0, 0, false
	}
	return a.Chord.Bass.PC(), b.Pass.Length, true
}

// nextOtherChords gives for each change the index of the next change to another chord. It is
// worked out once, as every note needs it and a song may hold one chord for ten thousand
// bars.
func nextOtherChords(changes []cue.Change) []int {
	out := make([]int, len(changes))
	next := len(changes)
	for i := len(changes) - 1; i >= 0; i-- {
		out[i] = next
		if !changes[i].Same {
			next = i
		}
	}
	return out
}
