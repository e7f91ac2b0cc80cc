package room

import (
	"fmt"
	"strings"

	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// barsWord is "bar 5" or "bars 5-8".
func barsWord(first, last int) string {
	if first == last {
		return fmt.Sprintf("bar %d", first)
	}
	return fmt.Sprintf("bars %d-%d", first, last)
}

// beatWords writes thousandths of a beat to tenths: "1 beat", "6 beatWords", "2.5 beatWords". Singers
// are not more exact.
func beatWords(thousandths int64) string {
	s := beatFigure(thousandths)
	if s == "1" {
		return "1 beat"
	}
	return s + " beats"
}

// durationWords is "4.2 s", from a minute on "1:05".
func durationWords(micros int64) string {
	if micros >= 59_950_000 {
		return timeline.MinSec(micros)
	}
	t := (micros + 50_000) / 100_000
	return fmt.Sprintf("%d.%d s", t/10, t%10)
}

// andList is "flute, oboe and violin".
func andList(s []string) string {
	if len(s) < 2 {
		return strings.Join(s, "")
	}
	return strings.Join(s[:len(s)-1], ", ") + " and " + s[len(s)-1]
}

// shortList is an andList of at most limit items: the last one counts the rest.
func shortList(s []string, limit int) string {
	if len(s) > limit {
		s = append(s[:limit-1:limit-1], fmt.Sprintf("%d more", len(s)-limit+1))
	}
	return andList(s)
}

// capitalized makes the first letter of s a capital.
func capitalized(s string) string {
	if s == "" {
		return s
	}
	c := []rune(s)
	return strings.ToUpper(string(c[:1])) + string(c[1:])
}

// beatFigure is the number of beats alone: "6", "2.5".
func beatFigure(thousandths int64) string { return wording.Thousandths((thousandths + 50) / 100 * 100) }
