package bassist

import (
	"plinth/groove/bassline"
	"plinth/songspec/cue"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// mayLead reports whether the last note before a change may lead to it in a bar. In a ballad the
// bassist leads into every other phrase, and elsewhere once in sixteen bars. A bar may
// lead to a stronger one, and the last to a stronger pass.
func (b *Bassist) mayLead(bar int) bool {
	energy, to := b.Energy(bar), b.Energy(bar)
	if b.Crosses(bar) {
		to = b.LeadsTo(bar)
	}
	if !approaches.At(max(energy, to)) {
		return false
	}
	often := 16
	if b.isJoint(bar) {
		often = 2
	}
	return !b.styles[bar].ballad || to > energy || b.figure(bar).At(drawApproach).Below(often) == 0
}

// priceApproach prices the neighbours of the next chord's bass when the note may be an
// approach: the last note before a change, within the last beat, and not over a pedal or a slash
// bass. The neighbours are a semitone or a tone away, and in the key or in one of the two chords.
// The raised seventh of a minor key is not of the key here: where no chord has it, it is chromatic.
// In the styles whose rows say so the semitone may be outside both. A long note is a tone of its
// chord. C under the Cb of Abm6, or G under the G# of E7, is a false relation to a tone that the
// comp holds, and costs more.
func (b *Bassist) priceApproach(i int, cost *[12]int) bool {
	n := &b.notes[i]
	n.leads = false
	bar := b.BarAt(n.tick)
	beat := b.Pass.Bars[bar].Meter.PlayedBeat()
	chord := &b.changes[n.change].Chord
	next, at, ok := b.nextChord(n.change)
	if !ok || isSlash(chord) || next.Bass.PC() == chord.Bass.PC() || at-n.tick > beat || !b.mayLead(bar) ||
		i+1 < len(b.notes) && b.notes[i+1].tick < at {
		return false
	}
	target, walks := next.Bass.PC(), n.degree == 'w'
	if stays := !b.styles[bar].alternates && isMinorSubdominant(chord, b.keyOf(n)); !walks &&
		(stays || isStepApart(chord.Bass.PC(), target)) {
		return false // the root leads there already, or is to stay
	}
	chromatic := n.degree == 'c' || walks && !b.styles[bar].ballad
	other, key := otherThird(chord), b.keyOf(n)
	for _, d := range []int{1, 11, 2, 10} {
		pc := (target + d) % 12
		own := bassline.HasTone(chord, pc)
		rub := !own && rubs(chord, pc, target)
		if rub && !walks {
			continue
		}
		inKey := key.PCSet()&(1<<pc) != 0 || bassline.HasTone(next, pc)
		switch {
		case own:
			cost[pc] = 0
		case n.end-n.tick >= beat && (!walks || b.styles[bar].ballad):
			continue
		case inKey:
			cost[pc] = 0
		case chromatic && (d == 1 || d == 11):
			cost[pc] = outsideCost
		default:
			continue
		}
		if !own && (pc == other || rub || b.scaleFor(n).clashes(chord, pc)) {
			cost[pc] += thirdCost
		}
		n.leads = true
	}
	// The take leans to one side, so that two takes do not lead alike.
	figure, lean := b.figure(bar), 1
	if walks {
		figure, lean = b.walkFigure(bar).At(n.tick), walkLean
	}
	if side := (target + []int{1, 11}[figure.At(drawApproach).Below(2)]) % 12; cost[side] >= 0 {
		cost[side] += lean
	}
	return n.leads
}

// isStepApart reports whether two pitch classes are a semitone or a tone apart.
func isStepApart(a, b int) bool {
	d := (a - b + 12) % 12
	return d == 1 || d == 2 || d == 10 || d == 11
}

// rubs reports whether a pitch class lies a semitone beside a chord's third or seventh, or beside its
// root and not on the way from there to a target.
func rubs(c *harmony.Chord, pc, target int) bool {
	beside := func(tone int) bool { return (pc-tone+12)%12 == 1 || (tone-pc+12)%12 == 1 }
	root := c.Root.PC()
	if up := (pc-root+12)%12 < 6; beside(root) && up != ((target-pc+12)%12 < 6) {
		return true
	}
	for i := range c.ToneCount() {
		t := c.Tone(i)
		if (t.Degree == 3 || t.Degree == 7) && beside((root+int(t.Semitones))%12) {
			return true
		}
	}
	return false
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

// nextChord is the chord after change i, and where it is struck. ok is false where there is
// nothing to lead to, as when the next pass pushes its chord into this one.
func (b *Bassist) nextChord(i int) (chord *harmony.Chord, at int64, ok bool) {
	if j := b.follows[i]; j < len(b.changes) {
		c := &b.changes[j]
		return &c.Chord, c.Start, !c.Chord.None
	}
	a := b.leadsOutTo()
	if a == nil {
		return nil, 0, false
	}
	return &a.Chord, b.Pass.Length, true
}

// leadsOutTo is the pass that the line leads to; nil where there is none, where it has no bass, or
// where it pushes its chord into this one.
func (b *Bassist) leadsOutTo() *timeline.Neighbour {
	a := b.Pass.After
	if a == nil || a.Chord.None || a.Tacet.Has(timeline.Bass) || b.end < b.Pass.Length {
		return nil
	}
	return a
}

// rowsOfChords gives for each change the first change in its row of the same chord, and the one
// after the row. It is worked out once, as every note needs it and a song may hold one chord for
// ten thousand bars.
func rowsOfChords(changes []cue.Change) (begins, follows []int) {
	begins, follows = make([]int, len(changes)), make([]int, len(changes))
	first := 0
	for i := range changes {
		if !changes[i].Same {
			first = i
		}
		begins[i] = first
	}
	next := len(changes)
	for i := len(changes) - 1; i >= 0; i-- {
		follows[i] = next
		if !changes[i].Same {
			next = i
		}
	}
	return begins, follows
}
