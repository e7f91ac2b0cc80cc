package pianist

import (
	"slices"

	"plinth/groove/bassline"
	"plinth/groove/score"
	"plinth/groove/voicing"
	"plinth/songspec/timeline"
)

// A pianist without a bassist has the chord's bass in the left hand, and plays the
// comp over it with the right: in the whole pass, or in the bars that the bassist keeps out of.
// Common practice, no single source.

// hasBass reports whether the left hand has the bass in a bar.
func (c *Pianist) hasBass(bar int) bool { return c.Pass.TacetAt(bar).Has(timeline.Bass) }

// bassUntil is the bar line up to which the left hand has the bass, from a tick on.
func (c *Pianist) bassUntil(tick int64) int64 {
	if c.Pass.Tacet.Has(timeline.Bass) {
		return c.Pass.Length
	}
	bar := c.BarAt(tick)
	for bar < len(c.Pass.Bars) && c.hasBass(bar) {
		bar++
	}
	return c.BarEnd(max(0, bar-1))
}

// The left hand's register, in MIDI numbers.
const (
	leftLowest  = 29 // F1
	LeftHighest = 50 // D3
	leftLow     = 34 // Bb1: below it the hand goes only when the line leads there
	leftHigh    = 46 // Bb2: above it likewise
	leftHome    = 41 // F2, where a pass prefers to begin
)

// leftLine chooses the left hand's notes for all changes of the pass at once, 0 where there
// is no chord or a bassist plays. The whole line moves as little as possible, as the bassist's
// does, and leaves the right hand room. nil where a bassist plays in all bars.
func (c *Pianist) leftLine() []int {
	bar := 0
	for bar < len(c.Pass.Bars) && !c.hasBass(bar) {
		bar++
	}
	if bar == len(c.Pass.Bars) {
		return nil
	}
	type state struct {
		key, cost, from int
		set             *voicing.Set
	}
	states := make([][]state, len(c.changes))
	before := -1 // the last change that has a chord
	for i := range c.changes {
		ch := &c.changes[i]
		if ch.Chord.None || !c.hasBass(c.BarAt(ch.Nominal)) {
			continue
		}
		avoid, most := c.ear.avoided(ch), int8(0)
		for key := leftLowest; key <= LeftHighest; key++ {
			if key%12 != ch.Chord.Bass.PC() {
				continue
			}
			set := c.voicingsIn(c.BarAt(ch.Nominal), ch, key, avoid)
			if set != nil {
				most = max(most, set.List[0].N)
			}
			states[i] = append(states[i], state{key: key, set: set})
		}
		for k := range states[i] {
			st := &states[i][k]
			st.cost = bassline.OutsideCost(st.key, leftLow, leftHigh)
			if st.set == nil {
				st.cost += voicing.CostVoiceLess * voicing.MaxVoices
			} else {
				st.cost += int(st.set.List[0].Cost) + voicing.CostVoiceLess*int(most-st.set.List[0].N)
			}
			if before < 0 {
				st.cost += bassline.HomeCost(st.key, leftHome)
				continue
			}
			best := -1
			for j, b := range states[before] {
				if cost := b.cost + bassline.MoveCost(b.key, st.key); best < 0 || cost < best {
					best, st.from = cost, j
				}
			}
			st.cost += best
		}
		before = i
	}
	out := make([]int, len(c.changes))
	if before < 0 {
		return out
	}
	at := 0
	for j, st := range states[before] {
		if st.cost < states[before][at].cost {
			at = j
		}
	}
	for i := before; i >= 0; i-- {
		if len(states[i]) > 0 {
			out[i] = states[i][at].key
			at = states[i][at].from
		}
	}
	return out
}

// leftBass is the left hand's line as the notes of a bass, for the top voice to keep clear
// of, with those that the bassist plays.
func (c *Pianist) leftBass(bass []score.Note) []score.Note {
	out := slices.Clone(bass)
	for i, key := range c.left {
		if key > 0 {
			out = append(out, score.Note{At: c.changes[i].Start, Key: uint8(key)})
		}
	}
	score.ByTick(out)
	return out
}

// leftKeys are the keys that the left hand strikes for a mark under change i. low is 0 where
// there is only one key. The hand can reach them, and the voicing stays clear over them.
func (c *Pianist) leftKeys(m *mark, i int) (low, key int) {
	key = c.left[i]
	if key == 0 {
		return 0, 0
	}
	if m.fifth && m.tick > c.changes[i].Start {
		if k := c.leftFifth(i); k > 0 {
			return 0, k
		}
	}
	v := &c.voicings[i]
	bar := c.BarAt(max(m.tick, c.changes[i].Nominal))
	if k := key - 12; leftOctaves.At(c.Energy(bar)) && k >= leftLowest && c.span >= 12 && v.N < voicing.MaxVoices &&
		voicing.ClearOver(k, v) {
		return k, key
	}
	return 0, key
}

// leftFifth is the chord's fifth for the left hand, above the root or below it, whichever is
// nearer to the way to the next chord. It is 0 where the chord has no fifth, where the chord
// would not be clear over it, or where the bass would go in octaves with the top voice.
func (c *Pianist) leftFifth(i int) int {
	chord := &c.changes[i].Chord
	pc, ok := bassline.Tone(chord, '5')
	if !ok || chord.Bass != chord.Root || (pc-chord.Root.PC()+12)%12 != 7 {
		return 0
	}
	v := &c.voicings[i]
	next := i + 1
	for next < len(c.changes) && c.voicings[next].N == 0 {
		next++
	}
	if next < len(c.changes) && v.Top()%12 == pc && c.voicings[next].Top()%12 == c.left[next]%12 {
		return 0
	}
	best, least := 0, 0
	for _, key := range [2]int{c.left[i] + 7, c.left[i] - 5} {
		if key < leftLowest || key > LeftHighest || !voicing.ClearOver(key, v) {
			continue
		}
		cost := bassline.MotionCost*max(key-c.left[i], c.left[i]-key) + bassline.OutsideCost(key, leftLow, leftHigh)
		if next < len(c.changes) {
			cost += bassline.MotionCost * max(c.left[next]-key, key-c.left[next])
		}
		if best == 0 || cost < least {
			best, least = key, cost
		}
	}
	return best
}
