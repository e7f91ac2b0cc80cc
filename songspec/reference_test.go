package songspec

import (
	"slices"
	"strings"
	"testing"
)

// The reference speaks of every word of the song file, and its help fits on a screen's width.
func TestWordHelp(t *testing.T) {
	words := slices.Concat(topAttrs, topBlocks, drumsAttrs, bassAttrs, pianoAttrs, pictureAttrs, vocalAttrs,
		sectionAttrs, playAttrs, insideAttrs, partBlocks, []string{"play", "N.C."})
	for i := range eventRules {
		words = append(words, eventRules[i].attrs...)
	}
	for _, word := range words {
		help := WordHelp(word)
		if !strings.Contains(help, word) {
			t.Errorf("nothing of %q", word)
		}
		for line := range strings.Lines(help) {
			if len([]rune(strings.TrimRight(line, "\n"))) > 80 || strings.Contains(line, "`") {
				t.Errorf("%s: %q", word, line)
			}
		}
	}
	for _, word := range []string{"", "`", "|", "a b", "vam", "(", "zzz"} {
		if help := WordHelp(word); help != "" {
			t.Errorf("%q: %s", word, help)
		}
	}
}

// A word with a row of its own has that row and no other, each cell under the head of its column.
func TestWordHelpOfRow(t *testing.T) {
	const want = `Form

  vamp = "till Nell turns"
    meaning: until when it is played again, in words: a cue point of the MIDI
      file where the pass begins, vamp till Nell turns, and a line of outline;
      the file plays it times, or once
`
	if got := WordHelp("vamp"); got != want {
		t.Errorf("%s, want\n%s", got, want)
	}
}
