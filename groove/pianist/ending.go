package pianist

import (
	"plinth/groove/bassline"
	"plinth/groove/score"
	"plinth/groove/voicing"
)

// The song's last chord is spread over two hands, from the bass up to the top voice of the
// comp, and rolled slowly. Common practice, no single source.

// lastRollMS is the time between two notes of the last chord's roll, in milliseconds
// (judgement: twice a quick roll and a little more).
const lastRollMS = 35

// LastRollUS is the longest time that the roll of the last chord takes, in microseconds.
const LastRollUS = 1000 * lastRollMS * (voicing.MaxVoices + 2)

// The register of the left hand's two notes in the last chord, in MIDI numbers.
const (
	lastLowest  = 36 // C2
	lastHome    = 41 // F2, where the lower note lies best
	lastBetween = 7  // and a fifth to the upper one
)

// spreadUnder are the notes of change i that the left hand has under a voicing: two chord tones,
// the lower one the root or the fifth, clear of each other, of the voicing and of the bass. low
// is 0 where there is room for one only, and both are where there is none.
func (c *Pianist) spreadUnder(v *voicing.Voicing, i int) (low, high uint8) {
	chord := &c.changes[i].Chord
	root, bass := chord.Root.PC(), 0
	fifth, _ := bassline.Tone(chord, '5')
	if n := len(c.bass); n > 0 {
		bass = int(c.bass[n-1].Key)
	}
	best := 1 << 30
	for l := max(lastLowest, bass+1); l < int(v.Notes[0])-2; l++ {
		if pc := l % 12; pc != root && pc != fifth || bass > 0 && voicing.Muddy(bass, l) {
			continue
		}
		for h := l; h < int(v.Notes[0])-1 && h-l <= c.span; h++ {
			if h != l && (h%12 == l%12 || !bassline.HasTone(chord, h%12)) || !clearUnder(l, h, v) || !c.holds(l, h, v) {
				continue
			}
			cost := max(l-lastHome, lastHome-l) + 2*max(h-l-lastBetween, l+lastBetween-h)
			if l%12 != root {
				cost += 2
			}
			if h == l {
				cost += 100
			}
			if cost < best {
				best, low, high = cost, uint8(l), uint8(h)
			}
		}
	}
	if low == high {
		return 0, high
	}
	return low, high
}

// spreadOver is a note of change i that the right hand has over a voicing: the chord's root, third
// or fifth, but not the bass's own, a fourth or so above the top voice, within the hand and
// under the ceiling. 0 where there is none.
func (c *Pianist) spreadOver(v *voicing.Voicing, i int) uint8 {
	chord := &c.changes[i].Chord
	if int(v.N) == len(v.Notes) {
		return 0
	}
	best, least := 0, 1<<30
	for _, degree := range []byte("135") {
		pc, ok := bassline.Tone(chord, degree)
		key := v.Top() + 3
		for ok && key%12 != pc {
			key++
		}
		clear := ok && pc != chord.Bass.PC() && key <= min(Ceiling(c.Song.Piano, c.Pass), int(v.Notes[0])+c.span)
		for _, k := range v.Notes[:v.N] {
			clear = clear && (key-int(k))%12 != 1
		}
		if cost := max(key-v.Top()-5, v.Top()+5-key); clear && cost < least {
			best, least = key, cost
		}
	}
	return uint8(best)
}

// holds reports whether two hands reach two notes, or one twice, and a voicing over them.
func (c *Pianist) holds(low, high int, v *voicing.Voicing) bool {
	keys := []int{low}
	if high > low {
		keys = append(keys, high)
	}
	for _, k := range v.Notes[:v.N] {
		keys = append(keys, int(k))
	}
	return voicing.Playable(keys, c.span)
}

// clearUnder reports whether two notes, or one twice, are clear of each other and of a voicing
// over them.
func clearUnder(low, high int, v *voicing.Voicing) bool {
	return (low == high || !voicing.Muddy(low, high)) && voicing.ClearOver(low, v) && voicing.ClearOver(high, v)
}

// ringOut lets the song's last chord sound to the end: nothing is struck after it.
func (c *Pianist) ringOut(notes []score.Note) []score.Note {
	start := c.EndingAt()
	if start < 0 {
		return notes
	}
	score.ByTick(notes)
	out := notes[:0]
	for _, n := range notes {
		if n.At > start {
			continue
		}
		if n.At == start && !n.Art.Has(score.Accent) { // an accent keeps its own
			n.Cue = c.Cues.Ending
		}
		if n.End() > start {
			n.Hold(c.Pass.Length)
			n.Art |= score.Rings
		}
		out = append(out, n)
	}
	return out
}
