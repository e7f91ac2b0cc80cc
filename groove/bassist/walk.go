package bassist

import (
	"fmt"
	"slices"

	"plinth/groove/bassline"
	"plinth/groove/plan"
)

const (
	walkLean  = 6 // what it prefers one side of the next chord's bass by
	tasteCost = 5 // what the take may prefer one step of a walking bass by
	sameBars  = 2 // how often a walking bar may come in a pass
	maxStale  = 6 // how often another is looked for
)

// findStaleBars finds the walking bars that have come often enough in the pass, and reports
// whether there are any. Each is drawn anew the next time that the line is chosen.
func (b *Bassist) findStaleBars(keys []int) bool {
	seen, found := map[string]int{}, false
	for i := 0; i < len(b.notes); {
		bar, from := b.BarAt(b.notes[i].tick), i
		walks := true
		for ; i < len(b.notes) && b.BarAt(b.notes[i].tick) == bar; i++ {
			n := &b.notes[i]
			walks = walks && (n.degree == 'w' || n.first || n.tick == b.Pass.Bars[bar].Start)
		}
		if !walks || i-from < 3 {
			continue
		}
		text := ""
		for k := from; k < i; k++ {
			text += fmt.Sprint(b.notes[k].tick-b.Pass.Bars[bar].Start, keys[k], " ")
		}
		if seen[text]++; seen[text] > sameBars {
			if b.stale == nil {
				b.stale = make([]int, len(b.Pass.Bars))
			}
			b.stale[bar]++
			found = true
		}
	}
	return found
}

// priceWalkingStep prices a step of a walking bass: tones of the chord, and between the strong
// beats the notes of the key as well, except in a ballad, where they would stand out.
func (b *Bassist) priceWalkingStep(n *bassNote, cost *[12]int) {
	chord := &b.changes[n.change].Chord
	for i := range chord.ToneCount() {
		t := chord.Tone(i)
		pc := (chord.Root.PC() + int(t.Semitones)) % 12
		switch {
		case t.Degree == 7:
			cost[pc] = seventhCost
		case t.Degree < 7:
			cost[pc] = 0
		}
	}
	cost[chord.Bass.PC()] = returnCost // the bass was just played, so the line goes on
	bar := b.BarAt(n.tick)
	stale := 0
	if b.stale != nil {
		stale = b.stale[bar]
	}
	taste := b.walkFigure(bar).At(drawWalk+int64(100*stale), n.tick) // so that two takes walk differently
	liking := func(pc, times int) int { return taste.At(int64(pc)).Below(max(1, tasteCost*times)) }
	for pc := range cost {
		if cost[pc] >= 0 {
			cost[pc] += liking(pc, 1+2*stale)
		}
	}
	if b.MetricPlace(bar, n.tick) == 0 && isStrongBeat(b.BeatStarts(bar), n.tick-b.Pass.Bars[bar].Start) {
		return
	}
	scale := b.scaleFor(n)
	for pc := range cost {
		if cost[pc] < 0 && !b.styles[bar].ballad && scale.has(pc) && !scale.clashes(chord, pc) {
			cost[pc] = scaleCost + liking(pc, 2*stale)
		}
	}
	// A step on the next chord's bass gives away where the line goes.
	if next, _, ok := b.nextChord(n.change); ok {
		if pc := next.Bass.PC(); cost[pc] >= scaleCost && !bassline.HasTone(chord, pc) {
			cost[pc] += earlyCost
		}
	}
}

// walkFigure is the chance by which a bar is walked: this pass's own, so that a section that comes again
// does not repeat its walk. In a ballad it is that of the figure.
func (b *Bassist) walkFigure(bar int) plan.Chance {
	if b.styles[bar].ballad {
		return b.figure(bar)
	}
	return b.Chance("bass figure").At(int64(bar)).At(1)
}

// isStrongBeat reports whether a beat is one of the bar's stronger ones: the first, and
// in even meters every other.
func isStrongBeat(beats []int64, at int64) bool {
	i := slices.Index(beats, at)
	return i == 0 || len(beats)%2 == 0 && i%2 == 0
}
