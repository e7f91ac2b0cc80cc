package pianist

import (
	"plinth/groove/score"
	"plinth/groove/voicing"
)

// The song's last chord is spread over two hands, from the bass up to the top voice of the
// comp, and rolled slowly. Common practice, no single source.

// lastRollMS is the time between two notes of the last chord's roll, in milliseconds
// (judgement: twice a quick roll and a little more).
const lastRollMS = 35

// LastRollUS is the longest time that the roll of the last chord takes, in microseconds.
const LastRollUS = 1000 * lastRollMS * (voicing.MaxVoices + 1)

// The register of the left hand's two notes in the last chord, in MIDI numbers.
const (
	lastLowest  = 36 // C2
	lastHome    = 43 // G2, where the lower note lies best
	lastBetween = 7  // and a fifth to the upper one
)

// spreadUnder are two notes of change i for the left hand under a voicing: chord tones, the
// lower one the root or the fifth, clear of each other, of the voicing and of the bass. Both
// are 0 where there is no room for two.
func (c *Pianist) spreadUnder(v *voicing.Voicing, i int) (low, high uint8) {
	chord := &c.changes[i].Chord
	if v.N == 0 {
		return 0, 0
	}
	var tones [12]bool
	tones[chord.Root.PC()] = true
	outer := tones
	for k := range chord.ToneCount() {
		t := chord.Tone(k)
		pc := (chord.Root.PC() + int(t.Semitones)) % 12
		tones[pc] = true
		outer[pc] = outer[pc] || t.Degree == 5
	}
	bass := 0
	if n := len(c.bass); n > 0 {
		bass = int(c.bass[n-1].Key)
	}
	best := 1 << 30
	for l := max(lastLowest, bass+1); l < int(v.Notes[0])-2; l++ {
		for h := l + 3; h < int(v.Notes[0])-1 && h-l <= c.span; h++ {
			if !outer[l%12] || !tones[h%12] || h%12 == l%12 || bass > 0 && voicing.Muddy(bass, l) {
				continue
			}
			keys := []int{l, h}
			for _, k := range v.Notes[:v.N] {
				keys = append(keys, int(k))
			}
			if _, _, muddy := voicing.FirstMuddy(keys); muddy {
				continue
			}
			cost := max(l-lastHome, lastHome-l) + 2*max(h-l-lastBetween, l+lastBetween-h)
			if l%12 != chord.Root.PC() {
				cost += 2
			}
			if cost < best {
				best, low, high = cost, uint8(l), uint8(h)
			}
		}
	}
	return low, high
}

// ringOut lets the song's last chord sound to the end: of the last bar it keeps the notes on
// the first beat.
func (c *Pianist) ringOut(notes []score.Note) []score.Note {
	bar := c.Ending()
	if bar < 0 {
		return notes
	}
	score.ByTick(notes)
	start := c.Pass.Bars[bar].Start
	out := notes[:0]
	for _, n := range notes {
		if n.At > start {
			continue
		}
		if n.At == start {
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
