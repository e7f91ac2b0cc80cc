package bassist

import (
	"slices"

	"plinth/groove/bassline"
	"plinth/groove/plan"
	"plinth/songspec/timeline"
)

// The bass's compass in MIDI notes: E1 on four strings, B0 on five, up to G3.
const (
	lowFour, lowFive = 28, 23
	Highest          = 55

	compass = Highest - lowFive + 1
)

// The line keeps to the first frets where it can: the register from F#1 to G2.
const (
	highFrom = 43
	lowFrom  = 30
	homeKey  = 36 // where a pass prefers to begin
)

// Costs in the units of package bassline.
const (
	repeatCost  = 24 // a walking bass that stands still
	scaleCost   = 4  // a walking bass off the chord
	seventhCost = 3  // a walking bass on the seventh
	returnCost  = 15 // a walking bass back on the note that it came from
	seesawCost  = 12 // a walking bass to and fro between two notes
	earlyCost   = 28 // a walking bass on the next chord's bass before it is there
	offCost     = 14 // a walking bass that leaps away from a note off the chord
	farCost     = 90 // an approach that does not lead by step
	outsideCost = 2  // an approach on a note that is neither in the key nor in the chord
	thirdCost   = 24 // an approach on the minor third of a major chord, or the other way round
)

// pitch is a pitch that a note may take, and its cost.
type pitch struct {
	key  int
	cost int
}

// chooseLine chooses the pitches of all notes of the pass: up to the first beat of the last two bars,
// and then the rest, which may depend on the next pass. Where a walking bar comes a third time it
// looks for another, a few times at most. A note that does not lead by step after all, or that
// leaps away from the root and back, becomes the root.
func (b *Bassist) chooseLine() []int {
	b.stale = nil
	if len(b.notes) == 0 {
		return nil
	}
	bars := b.Pass.Bars
	known := b.firstFrom(bars[max(0, len(bars)-plan.LeadBars)].Start + 1)
	choose := func() []int { return b.choosePitches(b.choosePitches(nil, known), len(b.notes)) }
	keys := choose()
	for range maxStale {
		if !b.findStaleBars(keys) {
			break
		}
		keys = choose()
	}
	for range maxStale {
		if !b.holdRoots(keys) {
			break
		}
		keys = choose()
	}
	return keys
}

// choosePitches chooses the pitches of the first n notes of the pass at once, so that the line
// moves as little as possible (dynamic programming; ties go to the lower note). Those that are
// given stay.
func (b *Bassist) choosePitches(given []int, n int) []int {
	if n == 0 {
		return nil
	}
	choices := slices.Grow(b.choice[:0], 4*n) // of all notes, one after another
	from := slices.Grow(b.from[:0], 4*n)      // for each choice, the best choice for the note before
	first := make([]int, n+1)                 // where a note's choices begin
	var total, next [compass]int
	for i := range n {
		first[i] = len(choices)
		if i < len(given) {
			choices = append(choices, pitch{key: given[i]})
		} else {
			choices = b.pitchChoices(i, choices)
		}
		first[i+1] = len(choices)
		for j, c := range choices[first[i]:] {
			if i == 0 {
				next[j] = c.cost + bassline.HomeCost(c.key, homeKey)
				from = append(from, 0)
				continue
			}
			best, bestFrom := -1, 0
			for k, before := range choices[first[i-1]:first[i]] {
				cost := total[k] + b.moveCost(i, before.key, c.key)
				if i > 1 && b.notes[i].degree == 'w' && b.notes[i-1].degree == 'w' &&
					choices[first[i-2]+int(from[first[i-1]+k])].key == c.key {
					cost += seesawCost
				}
				if best < 0 || cost < best {
					best, bestFrom = cost, k
				}
			}
			from = append(from, uint8(bestFrom))
			next[j] = best + c.cost
		}
		total, next = next, total
	}
	for j, c := range choices[first[n-1]:] {
		if n == len(b.notes) {
			total[j] += b.leadOutCost(c.key)
		}
	}
	at := 0
	for j := range first[n] - first[n-1] {
		if total[j] < total[at] {
			at = j
		}
	}
	b.choice, b.from = choices, from
	keys := make([]int, n)
	for i := n - 1; i >= 0; i-- {
		keys[i] = choices[first[i]+at].key
		at = int(from[first[i]+at])
	}
	return keys
}

// walks reports whether a note is a step of a walking bass.
func (b *Bassist) walks(i int) bool { return b.notes[i].degree == 'w' && !b.notes[i].leads }

// Lowest is the lowest note of a bass, in MIDI notes: E1 of four strings, B0 of five.
func Lowest(setup timeline.BassSetup) int {
	if setup.Strings == 5 {
		return lowFive
	}
	return lowFour
}

// moveCost is the cost of going from one note to the next.
func (b *Bassist) moveCost(i, from, to int) int {
	d := max(to-from, from-to)
	if b.notes[i].degree == '8' {
		return bassline.MotionCost * max(to-from-12, from+12-to)
	}
	cost := bassline.MoveCost(from, to)
	if b.notes[i-1].degree == '8' { // the octave is an excursion from the note below it
		cost = (cost + bassline.MoveCost(from-12, to)) / 2
	}
	if b.notes[i-1].leads && (d == 0 || d > 2) {
		cost += farCost
	}
	if b.walks(i-1) && d > 2 && !bassline.HasTone(&b.changes[b.notes[i-1].change].Chord, from%12) {
		cost += offCost
	}
	if n := &b.notes[i]; (n.degree == 'w' || n.leads) && d == 0 {
		cost += repeatCost
	}
	return cost
}

// pitchChoices appends the pitches that a note may take: every octave of its pitch
// classes within the compass.
func (b *Bassist) pitchChoices(i int, out []pitch) []pitch {
	var cost [12]int
	for pc := range cost {
		cost[pc] = -1
	}
	b.pricePitchClasses(i, &cost)
	lowest, highest := b.rangeOf(i)
	for key := lowest; key <= highest; key++ {
		if c := cost[key%12]; c >= 0 {
			out = append(out, pitch{key, c + bassline.OutsideCost(key, lowFrom, highFrom)})
		}
	}
	return out
}

// pricePitchClasses prices the pitch classes that a note may take and leaves the others at
// -1.
func (b *Bassist) pricePitchClasses(i int, cost *[12]int) {
	n := &b.notes[i]
	chord := &b.changes[n.change].Chord
	bass := chord.Bass.PC()
	slash := isSlash(chord)
	switch n.degree {
	case '3', '5', '7':
		pc, ok := bassline.Tone(chord, n.degree)
		if slash {
			pc, ok = fifthOver(chord)
			ok = ok && n.degree == '5'
		}
		if ok {
			cost[pc] = 0
			return
		}
	case 'a', 'c', 'w':
		if b.priceApproach(i, cost) {
			return
		}
		if n.degree == 'w' && !slash {
			b.priceWalkingStep(n, cost)
			return
		}
	case 'g':
		// A dead note sounds where the hand is.
		if i > 0 {
			bass = b.changes[b.notes[i-1].change].Chord.Bass.PC()
		}
	}
	cost[bass] = 0
}
