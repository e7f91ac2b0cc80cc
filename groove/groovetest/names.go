package groovetest

import (
	"strconv"
	"strings"
)

// KeyNames are the names of the pitch classes, for messages.
var KeyNames = [12]string{"C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}

// KeyName is the name of a MIDI number with its octave, for messages.
func KeyName(key int) string { return KeyNames[key%12] + strconv.Itoa(key/12-1) }

// KeyList writes the names of several.
func KeyList(keys []int) string {
	var out []string
	for _, k := range keys {
		out = append(out, KeyName(k))
	}
	return strings.Join(out, " ")
}
