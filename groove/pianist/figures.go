package pianist

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
)

// This file deals the figures of a level out over a phrase. What comes again is heard as the
// same: every four bars begin with the first figure, and the others keep their order in the
// section. One bar of every four differs from pass to pass. The last figure closes a phrase.
// Common practice, no single source.

// unit is how many bars the figures take before they come again.
const unit = 4

// figure is what the comp has in a bar, nil where the level has nothing for it.
func (c *Pianist) figure(bar int) *feel.Figure {
	list := c.Level(bar).Comp
	switch n := len(list); n {
	case 0:
		return nil
	case 1:
		return &list[0]
	default:
		if c.deals[n] == nil {
			c.deals[n] = c.deal(n)
		}
		return &list[c.deals[n][bar]]
	}
}

// deal deals n figures, 2 or more, out over the bars of the pass.
func (c *Pianist) deal(n int) []int {
	out := make([]int, len(c.Pass.Bars))
	section, own := c.SectionChance("comp figures"), c.Chance("comp figure")
	var order []int // the figures between the first and the last, in the section's own order
	for i := 1; i < n-1; i++ {
		order = slices.Insert(order, section.At(int64(i)).Below(len(order)+1), i)
	}
	for first := 0; first < len(out); {
		_, bars := c.Phrase(first)
		phrase := out[first : first+bars]
		for at := range phrase {
			if at%unit > 0 && len(order) > 0 {
				phrase[at] = order[(at%unit-1)%len(order)]
			}
		}
		if bars > unit {
			another(phrase, unit+1+section.At(0).Below(min(unit-2, bars-unit)), order, section)
		}
		for from := 0; from < bars; from += unit {
			draw := own.At(int64(first + from))
			another(phrase, from+1+draw.Below(unit-1), order, draw)
		}
		if bars >= unit {
			phrase[bars-1] = n - 1
		}
		first += bars
	}
	return out
}

// another puts another figure into a bar of a phrase, which neither it nor a bar beside it
// has. Where there is none, it leaves the bar as it is.
func another(phrase []int, at int, order []int, draw plan.Chance) {
	if at >= len(phrase) {
		return
	}
	var free []int
	for _, k := range order {
		if k != phrase[at] && k != phrase[at-1] && (at+1 == len(phrase) || k != phrase[at+1]) {
			free = append(free, k)
		}
	}
	if len(free) > 0 {
		phrase[at] = free[draw.At(int64(at)).Below(len(free))]
	}
}
