package songspec

import "testing"

// TestCalledHere: no word of the song file's own is taken for another.
func TestCalledHere(t *testing.T) {
	words := [][]string{topAttrs, topBlocks, sectionAttrs, playAttrs, partBlocks, drumsAttrs, bassAttrs, pianoAttrs,
		vocalAttrs, pictureAttrs, {"play"}}
	for _, rule := range eventRules {
		words = append(words, rule.attrs)
	}
	for _, words := range words {
		for _, w := range words {
			if calledIn("", w) != "" || partOfSong(w) {
				t.Errorf("%q is a word of its own", w)
			}
		}
	}
}
