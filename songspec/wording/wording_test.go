package wording

import (
	"strings"
	"testing"
)

func TestNearest(t *testing.T) {
	feels := []string{"ballad-eighths", "ballad-sixteenths", "tight-sixteenths", "swing", "waltz", "jazz-waltz"}
	rows := []string{"from", "bass", "comp", "hat", "tambourine", "cross_stick", "snare", "tom_high", "kick"}
	for _, row := range []struct {
		reason, word string
		known        []string
		want         string
	}{
		{"the same but for capitals", "Swing", feels, "swing"},
		{"a blank for a hyphen", "Jazz Waltz", feels, "jazz-waltz"},
		{"a hyphen for an underscore, and a letter less", "cros-stick", rows, "cross_stick"},
		{"two letters swapped are one change", "hta", rows, "hat"},
		{"a letter put in", "walltz", feels, "waltz"},
		{"a letter left out", "kik", rows, "kick"},
		{"three letters of a long word", "balad-eigts", feels, "ballad-eighths"},
		{"four are too many", "balad-eigt", feels, ""},
		{"two of three letters are too many", "rim", rows, ""},
		{"the beginning of a word", "tight", feels, "tight-sixteenths"},
		{"and more than a word", "kick_drum", rows, "kick"},
		{"a beginning of two letters says nothing", "ta", rows, ""},
		{"one letter is not like another", "x", []string{"a", "b"}, ""},
		{"one letter in a capital", "A", []string{"a", "b"}, "a"},
		{"the earliest of equals", "cat", []string{"hat", "bat"}, "hat"},
		{"nothing there", "x", nil, ""},
		{"too long to be looked at", strings.Repeat("x", 65), []string{strings.Repeat("x", 64)}, ""},
	} {
		if got := Nearest(row.word, row.known); got != row.want {
			t.Errorf("%s: %q for %q, want %q", row.reason, got, row.word, row.want)
		}
	}
}

func TestClosest(t *testing.T) {
	for _, row := range []struct {
		word, known string
		changes     int
	}{
		{"maj7", "maj7", 0}, {"maj7", "Maj7", 1}, {"mja7", "maj7", 1}, {"m", "maj7", 3}, {"", "dim", 3},
		{"♭5", "b5", 1}, {"ca", "abc", 3},
	} {
		if Closest(row.word, []string{row.known}, row.changes) == "" {
			t.Errorf("%q is not within %d changes of %q", row.known, row.changes, row.word)
		}
		if row.changes > 0 && Closest(row.word, []string{row.known}, row.changes-1) != "" {
			t.Errorf("%q is within %d changes of %q", row.known, row.changes-1, row.word)
		}
	}
}

func TestJoined(t *testing.T) {
	three := []string{"a", "b", "c"}
	for got, want := range map[string]string{
		And(nil): "", And(three[:1]): "a", And(three[:2]): "a and b", And(three): "a, b and c",
		Or(three): "a, b or c", Or(Quoted(three[:2])): `"a" or "b"`,
		Count(1, "slash"): "1 slash", Count(2, "slash"): "2 slashes", Count(0, "beat"): "0 beats",
		Count(2, "bass"):           "2 basses",
		Sentence("%s plays", "he"): "He plays", Sentence("é"): "é",
		Clip("♭♯♮", 2): "♭♯…", Clip("♭♯", 2): "♭♯",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestThousandths(t *testing.T) {
	for n, want := range map[int64]string{0: "0", 667: "0.667", 1500: "1.5", 6000: "6", 10_000: "10", -1250: "-1.25"} {
		if got := Thousandths(n); got != want {
			t.Errorf("Thousandths(%d) is %q, want %q", n, got, want)
		}
	}
	for n, want := range map[int64]string{1000: "1 beat", 500: "0.5 beats", 2000: "2 beats"} {
		if got := Beats(n); got != want {
			t.Errorf("Beats(%d) is %q, want %q", n, got, want)
		}
	}
}
