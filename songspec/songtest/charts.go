package songtest

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/meter"
)

// withCounts is a bar of chords of which some say their counts, now and then. The first of a chart
// stands on 1.
func (w *writer) withCounts(bar string, m meter.Meter, first bool) string {
	if w.more == nil || w.more.Intn(3) > 0 {
		return bar
	}
	words := strings.Fields(bar)
	if first || w.more.Intn(2) == 0 {
		words = append(words, chords[w.more.Intn(len(chords))])
	}
	counts := map[int64]bool{}
	subs := []int64{0, 6, 6, 6, 6, 3, 9, 4, 8} // twelfths of a unit: halves mostly, quarters, thirds
	for range len(words) {
		sub := subs[w.more.Intn(len(subs))]
		if tick := int64(w.more.Intn(m.Num))*m.UnitTicks() + m.UnitTicks()*sub/12; tick > 0 {
			counts[tick] = true
		}
	}
	var ticks []int64
	for tick := range counts {
		ticks = append(ticks, tick)
	}
	slices.Sort(ticks)
	if len(ticks) == 0 {
		return bar
	}
	out := ""
	if first || len(words) > len(ticks) {
		out, words = " "+words[0], words[1:]
	}
	for i, tick := range ticks[:min(len(ticks), len(words))] {
		out += fmt.Sprintf(" %s@%s", words[i], m.CountAt(tick))
	}
	return out
}

// withEndings is a repeat of so many bars whose last bar is two endings, now and then.
func (w *writer) withEndings(repeat string, bars int) string {
	if w.more == nil || bars == 1 || w.more.Intn(2) == 0 {
		return repeat
	}
	body := strings.TrimSuffix(repeat, ":|")
	i := strings.LastIndex(body, "|") + 1
	second := " "
	if m, _, ok := strings.Cut(body[i:], ")"); ok && strings.HasPrefix(m, " (") {
		second = m + ") "
	}
	second += chords[w.more.Intn(len(chords))]
	return fmt.Sprintf("%s1.%s:|2.%s |", body[:i], body[i:], second)
}
