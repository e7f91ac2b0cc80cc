package bassist

import (
	"plinth/groove/bassline"
	"plinth/songspec/cue"
	"plinth/songspec/harmony"
)

// priceApproach prices the neighbours of the next chord's bass, a semitone to either
// side and the notes of the key a tone away, when the note may be an approach:
// where the energy has approaches, in the last beat before the change, the last note before it,
// and neither over a pedal nor a slash bass. What is a tone of the chord is as good as
// one of the key; C under the Cb of Abm6, or G under the G# of E7, is a false relation
// to the third that the comp holds, and there is another way.
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

// nextBass is the bass of the chord after a change, and where it is struck. A chord
// that the next pass pushes into this one is not led into.
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

// nextOtherChords is for each change the next one that is no repetition. It is worked out
// once: a song may hold one chord for ten thousand bars, and each note asks.
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
