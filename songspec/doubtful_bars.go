package songspec

import (
	"fmt"
	"slices"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
)

// Sections have mostly 8, 12, 16 or 32 bars. Where a bar line is forgotten, Em7 A7 for
// Em7 | A7, the section is one bar short, and one bar alone has two chords. Common practice,
// no single source.
var usualLengths = []int{8, 12, 16, 32}

// doubtBarLine warns of the bar in which a bar line may be forgotten.
func (r *resolver) doubtBarLine(c *chart, key harmony.Key, m meter.Meter) {
	n := len(c.order)
	if !slices.Contains(usualLengths, n+1) {
		return
	}
	var two *writtenBar
	for _, w := range c.order {
		bar := &c.written[w]
		chord := func(w chartWord) bool { return !w.slash && w.count.N == 0 }
		pair := len(bar.words) == 2 && bar.like < 0 && chord(bar.words[0]) && chord(bar.words[1])
		switch {
		case bar.meter != nil:
			return
		case pair && two == nil:
			two = bar
		case len(bar.words) != 1 && slices.ContainsFunc(bar.words, chord):
			return
		}
	}
	if two == nil {
		return
	}
	first, second := &two.words[0], &two.words[1]
	if r.chord(first.text, key, key).chord.None || r.chord(second.text, key, key).chord.None {
		return // the band stops in the middle of the bar
	}
	meant := example(two, len(m.Beats()))
	if len(m.Beats()) == 2 {
		meant = fmt.Sprintf("%s %s@%s", first.text, second.text, m.CountAt(m.Beats()[1]))
	}
	r.rep.Warnf(r.f.src.Range(two.lo, two.hi), fmt.Sprintf("%d bars, and two chords in this one", n),
		"The section is one bar short of %d, and no other bar has two chords. If a bar line is missing, write %s | %s."+
			" If they share the bar, write %s.", n+1, first.text, second.text, meant)
}
