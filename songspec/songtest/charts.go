package songtest

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/meter"
)

// chart writes the bars of a section and chooses where its events will crowd.
func (w *writer) chart(s *section) {
	n := 1 + w.r.Intn(6)
	for i := w.r.Intn(2); i >= 0; i-- {
		s.hot = append(s.hot, w.r.Intn(n))
	}
	s.hot = append(s.hot, n-1)
	twice := w.chance(8)
	var b strings.Builder
	b.WriteString("|")
	if twice {
		b.WriteString(":")
	}
	odd := false // the bar before has a meter of its own
	for i := range n {
		m := s.meter
		if i > 0 && !odd && w.chance(8) {
			b.WriteString(" % |")
			s.bars = append(s.bars, m)
			continue
		}
		if odd = w.chance(8); odd {
			m = w.meter(oddBars)
			fmt.Fprintf(&b, " (%s)", m)
		}
		s.bars = append(s.bars, m)
		b.WriteString(w.withCounts(w.bar(m, i == 0 || s.hot[0] == i-1), m, i == 0))
		b.WriteString(" |")
	}
	text := b.String()
	if twice {
		text = w.withEndings(strings.TrimSuffix(text, "|")+":|", n)
		s.bars = append(s.bars, s.bars...)
		s.hot = append(s.hot, 2*n-1)
	}
	w.line("  chords = %q", text)
}

// bar is the chords of one bar. After a crowded bar line, and at the beginning of the section,
// it often begins with N.C., so that a push over the line has no chord to play.
func (w *writer) bar(m meter.Meter, crowded bool) string {
	beats := len(m.Beats())
	n := pick(w, 1, 1, 1, beats)
	if beats%2 == 0 && w.chance(3) {
		n = 2
	}
	var b strings.Builder
	for i := range n {
		c := pick(w, chords...)
		if i == 0 && crowded && w.chance(4) {
			c = "N.C."
		}
		b.WriteString(" " + c)
	}
	return b.String()
}

// withCounts is a bar of chords of which some say their counts, now and then. The first of a chart
// stands on 1.
func (w *writer) withCounts(bar string, m meter.Meter, first bool) string {
	if !w.later(3) {
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
	if bars == 1 || !w.later(2) {
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
