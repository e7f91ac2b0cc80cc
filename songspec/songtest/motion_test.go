package songtest

import (
	"testing"

	"plinth/songspec/harmony"
)

func TestLeastMotion(t *testing.T) {
	for _, r := range []struct {
		source, a, b string
		want         int
	}{
		{"musicMCT documentation", "C", "F", 3},
		{"Tymoczko 2006, supplement, fig. S12: with doubling", "Cmaj7", "Emaj7", 3},
		{"parallel (Cohn, from memory)", "C", "Cm", 1},
		{"leading-tone exchange (Cohn, from memory)", "C", "Em", 1},
		{"relative (Cohn, from memory)", "C", "Am", 2},
		{"hexatonic pole (Cohn, from memory)", "C", "Abm", 3},
		{"half-diminished to dominant (Tristan, from memory)", "Fm7b5", "E7", 2},
		{"the same notes", "C6", "Am7", 0},
	} {
		if got := LeastMotion(pitchClasses(t, r.a), pitchClasses(t, r.b)); got != r.want {
			t.Errorf("%s to %s (%s): %d, want %d", r.a, r.b, r.source, got, r.want)
		}
	}
}

func pitchClasses(t *testing.T, symbol string) []int {
	t.Helper()
	c, err := harmony.ParseChord(symbol)
	if err != nil {
		t.Fatal(err)
	}
	var out []int
	for _, tone := range c.Tones() {
		out = append(out, (c.Root.PC()+int(tone.Semitones))%12)
	}
	return out
}
