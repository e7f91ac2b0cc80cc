package groove_test

import (
	"fmt"
	"testing"
)

// The chords on which the choice of tones and their places is put to the test, by
// what is hard about them.
var hardChords = []struct{ name, chords string }{
	{"plain", "| C | Am7 | Dm7 | G7 | Fmaj7 | Fm6 | C6 | Bdim7 | Bm7b5 | Caug | C5 | Cm(maj7) |"},
	{"altered", "| E7#9 | A7b9 | D7alt | G7#11 | C7b5 | F7#5 | B7#9#5 | E7b9b5 | A7b9#11 | D9#5 |"},
	{"extended", "| Cmaj9 | F13 | Bb13 | Em9 | A9 | Dm13 | G13b9 | Cmaj13 | Am11 | D11 | Fmaj7#11 | C13#11 |"},
	{"sixths", "| C6/9 | Am6/9 | Fadd9 | Dm(add9) | G13sus4 | Gsus2 | C9sus4 | F7b9sus4 | Ebm6/9 | Bb6 |"},
	{"over the fifth", "| C/G | Am7/E | Fmaj7/C | G7/D | E7#9/B | A7b9/E | D7#11/A | Cm7b5/Gb | F13/C | Bm9b5/F |"},
	{"over another tone",
		"| C/E | Am/C | F/A | G7/F | Fm/G | D/C | Em11/G | Cm11/Eb | Bb13/D | F#7#9/E | Dm/B | E/G# |"},
	{"close", "| Aadd9/E | Am7(add11) | C9sus4/G | Db13(add11) | A9/E | Fm6/9/B | Gbm7(add11) | Eb7b13/G |"},
}

// voicingSongs: chords one after another, a bar each, held, without drums.
func voicingSongs() playedSongs {
	g := playedSongs{"voicings", nil}
	for _, as := range []struct {
		title, top, line string
		energies         []int
	}{
		{"Chords of every kind", "", "", []int{1, 3, 5}},
		{"The same under C4", "piano { highest = \"C4\" }", "", []int{3, 5}},
		{"The same for hands that span ten semitones, under C5", "piano {\n  highest = \"C5\"\n  span = 10\n}", "",
			[]int{5}},
		{"The same over the left hand", "", tacet("bass"), []int{2, 4}},
	} {
		body := ""
		var plays []string
		for _, c := range hardChords {
			body += part(c.name, 3, c.chords, as.line)
			for _, e := range as.energies {
				plays = append(plays, fmt.Sprintf("play %q { energy = %d }", c.name, e))
			}
		}
		g.songs = append(g.songs, sketch(as.title, top("sustain", 80, as.top), body, form(plays...)))
	}
	return g
}

// How the pianist lays chords out.
func TestPlayedVoicings(t *testing.T) { checkSongs(t, voicingSongs()) }
