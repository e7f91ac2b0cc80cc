package songspec

import "testing"

// TestCalledHere: no word of the song file's own is taken for another.
func TestCalledHere(t *testing.T) {
	for _, words := range [][]string{topAttrs, topBlocks, sectionAttrs, playAttrs, eventWords, drumsAttrs, bassAttrs,
		pianoAttrs, vocalAttrs, {"play", "lift", "by", "weight", "alone", "short", "beats", "to"}} {
		for _, w := range words {
			if calledHere[w] != "" || partOfSong(w) {
				t.Errorf("%q is a word of its own", w)
			}
		}
	}
}
