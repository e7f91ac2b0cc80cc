package songspec

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// A place without a colon means counts in every bar. An author who forgets the colon, or writes
// a comma for it, gets a hold in each bar instead of one in bar 4. So there is a warning about
// events that are hardly ever meant for every bar. Which events those are is common practice,
// no single source.

// doubtPlace warns of a place that reads as if its first figure were a bar, in a
// section of so many bars in a meter.
func (r *resolver) doubtPlace(e *event, bars int, m meter.Meter) {
	counts := e.place.Counts
	if len(e.place.Bars) > 0 || len(counts) == 0 || bars < 2 {
		return
	}
	at := e.rng // where it is written, also when another section takes it over
	many := len(counts) > 1
	word := e.kind.String()
	switch {
	case many && seldom(e.kind),
		many && eventRules[e.kind].toLine && e.beats == nil,
		many && e.kind == timeline.Push && strings.Contains(e.place.Text, ",") && asBar(counts[0], bars):
		words := wording.Plural(len(counts), word)
		r.rep.Warnf(at, wording.Sentence("%s %s in every bar", number(len(counts)), words),
			"Without a colon these are the counts %s of every bar. %s", spoken(counts), meant(e, bars))
	case many && !ascending(counts):
		r.rep.Warnf(at, "Counts the wrong way round", "Without a colon these are the counts %s of every bar. %s",
			spoken(counts), meant(e, bars))
	case many:
	case seldom(e.kind), e.kind == timeline.Space && counts[0].N == m.Num && e.beats == nil: // of one count
		r.rep.Warnf(at, wording.Sentence("%s in every bar", withArticle(word)),
			"Without a bar in front %q is count %s of every bar. %s", e.place.Text, counts[0], meant(e, bars))
	}
}

// seldom reports whether an event is hardly ever meant for every bar.
func seldom(k timeline.EventKind) bool {
	return k == timeline.Hold || k == timeline.Fill || k == timeline.Cue || k == timeline.Caesura
}

// meant says how to write the place for one bar. It uses the figures of the place where the
// first of them can be a bar.
func meant(e *event, bars int) string {
	counts := e.place.Counts
	if asBar(counts[0], bars) {
		if len(counts) == 1 {
			return fmt.Sprintf("If bar %d is meant, write \"%d: 1\"; for the last bar, \"last: %s\".", counts[0].N,
				counts[0].N, counts[0])
		}
		return fmt.Sprintf("If bar %d is meant, write \"%d: %s\".", counts[0].N, counts[0].N, countsAfter(e, 0))
	}
	return fmt.Sprintf("For one bar write it in front, with a colon: \"%d: %s\".", bars, e.place.Text)
}

// countsAfter is the text of the counts after count i of a place.
func countsAfter(e *event, i int) string {
	return strings.Trim(e.place.Text[e.place.Counts[i].End:], " \t,")
}

// asBar reports whether a count could be the number of a bar.
func asBar(c meter.Count, bars int) bool { return c.Sub == 0 && c.N <= bars }

// ascending reports whether counts are in the order in which they come in a bar.
func ascending(counts []meter.Count) bool {
	return slices.IsSortedFunc(counts, func(a, b meter.Count) int {
		return cmp.Or(cmp.Compare(a.N, b.N), cmp.Compare(min(a.Sub, 1), min(b.Sub, 1)))
	})
}

// spoken are counts in words: "2 and 4".
func spoken(counts []meter.Count) string {
	words := make([]string, len(counts))
	for i, c := range counts {
		words[i] = c.String()
	}
	return wording.And(words)
}

func number(n int) string {
	if n <= 4 {
		return [...]string{"no", "one", "two", "three", "four"}[n]
	}
	return fmt.Sprint(n)
}
