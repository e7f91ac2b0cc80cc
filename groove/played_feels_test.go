package groove_test

import (
	"fmt"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec/meter"
)

// feelGolden is the name of a feel's golden.
func feelGolden(name string) string { return "feel-" + name }

// plainSong is the text of a song that plays one feel at energies 1 to 5: the same
// four bars each time, whatever the meter, at the middle of the feel's tempos.
func plainSong(f *feel.Feel) string {
	m := meter.Common
	if len(f.Meters) > 0 {
		m = f.Meters[0]
	}
	beats := len(m.Beats())
	halves := func(a, b string) string { // two chords in a bar; the first has the odd beat
		return a + strings.Repeat(" /", (beats+1)/2-1) + " " + b + strings.Repeat(" /", beats/2-1)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "title = \"The feel %s at energies 1 to 5\"\nkey = \"Eb major\"\nmeter = %q\n", f.Name, m)
	fmt.Fprintf(&b, "tempo = %d\nfeel = %q\nlooseness = 0\n", (f.TempoLow+f.TempoHigh)/2, f.Name)
	chart := fmt.Sprintf("| Eb | %s | %s | %s |", halves("Bb/D", "Cm7"), halves("Ab", "Abm"),
		halves("Bb7sus4", "Bb7"))
	for i, name := range []string{"one", "two", "three", "four", "five"} {
		fmt.Fprintf(&b, "section %q {\n  energy = %d\n  chords = %q\n}\n", name, i+1, chart)
	}
	return b.String()
}

// What every feel plays at every energy.
func TestPlayedFeels(t *testing.T) {
	for _, name := range library.Names() {
		text := playedSong(t, plainSong(library.Builtin().Feels[name]))
		checkPlayed(t, feelGolden(name), text)
	}
}
