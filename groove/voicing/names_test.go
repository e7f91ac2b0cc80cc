package voicing

import (
	"strconv"
	"strings"
	"testing"

	"plinth/songspec/harmony"
)

var keyNames = [12]string{"C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}

func keyName(key int) string { return keyNames[key%12] + strconv.Itoa(key/12-1) }

// names writes a voicing as note names with octaves, for messages.
func names(v Voicing) string {
	var out []string
	for _, k := range v.Notes[:v.N] {
		out = append(out, keyName(int(k)))
	}
	return strings.Join(out, " ")
}

// sideBySide reports whether the tone so many semitones over the root stands a
// semitone under its neighbour.
func sideBySide(v Voicing, root, semitones int) bool {
	for i := int8(1); i < v.N; i++ {
		if int(v.Notes[i-1])%12 == (root+semitones)%12 && v.Notes[i]-v.Notes[i-1] == 1 {
			return true
		}
	}
	return false
}

func chordOf(t testing.TB, s string) harmony.Chord {
	t.Helper()
	c, err := harmony.ParseChord(s)
	if err != nil {
		t.Fatalf("chord %q: %v", s, err)
	}
	return c
}
