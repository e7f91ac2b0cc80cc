package touch

import "plinth/groove/score"

// A pianist voices a chord to its top: the highest voice of a hand is the loudest, each under it
// a little softer, and the left hand is softer than the right. Common practice, no single source.
const (
	leftUnder  = 4 // the left hand is so much softer than the right
	voiceUnder = 1 // a voice is so much softer than the next one above it in the hand
)

// prepareChords works out for each note of the pianist how much louder its place in the chord
// makes it than the mean of the hand's chord.
func (t *Playing) prepareChords(notes []score.Note) {
	t.chords = t.chords[:0]
	if !t.who.Chords() {
		return
	}
	for i := range notes {
		voices, above := inHand(notes, i)
		t.chords = append(t.chords, int8((voices/2-above)*voiceUnder))
	}
}

// inHand is how many notes the hand of a note strikes with it, itself included, and how many of
// them lie above it.
func inHand(notes []score.Note, i int) (voices, above int) {
	voices = 1
	for _, j := range [2]int{-1, 1} {
		for k := i + j; k >= 0 && k < len(notes) && notes[k].At == notes[i].At; k += j {
			if notes[k].Voice == notes[i].Voice {
				voices++
				if notes[k].Key > notes[i].Key {
					above++
				}
			}
		}
	}
	return voices, above
}

// inChord is what prepareChords has for a note, 0 for a player of single notes.
func (t *Playing) inChord(note int) int {
	if len(t.chords) == 0 {
		return 0
	}
	return int(t.chords[note])
}

// voiceToTheTop lets chance make no note of an attack louder than one above it, nor one of the
// left hand louder than one of the right.
func (t *Playing) voiceToTheTop(notes []score.Note, velocities []uint8) {
	for i := range notes {
		for k := i + 1; t.who.Chords() && k < len(notes) && notes[k].At == notes[i].At; k++ {
			low, high := i, k
			if over(&notes[i], &notes[k]) {
				low, high = k, i
			}
			velocities[low] = min(velocities[low], velocities[high])
		}
	}
}

// over reports whether a note of an attack is to be heard over another.
func over(a, b *score.Note) bool {
	if a.Voice != b.Voice {
		return a.Voice == score.Right
	}
	return a.Key > b.Key
}
