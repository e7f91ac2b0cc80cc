package pianist

import (
	"slices"

	"plinth/groove/feel"
)

// This file deals the figures of a level out over a phrase. What comes again is heard as the
// same: every four bars begin with the first figure, and the others keep their order in the
// section. One bar of every four differs from pass to pass. The last figure closes a phrase.
// Common practice, no single source.

// unit is how many bars the figures take before they come again.
const unit = 4

// deal is which figures a section's bars have, where a level has several.
type deal struct {
	order []int // the figures between the first and the last, in the section's own order
	swap  int   // the place in the second four bars of a phrase that has another figure
}

// dealOf is the deal of a level with n figures, 3 or more.
func (c *Pianist) dealOf(n int) *deal {
	if d := c.deals[n]; d != nil {
		return d
	}
	d := &deal{}
	from := c.SectionChance("comp figures")
	for i := 1; i < n-1; i++ {
		d.order = slices.Insert(d.order, from.At(int64(i)).Below(len(d.order)+1), i)
	}
	d.swap = 1 + from.At(0).Below(unit-1)
	c.deals[n] = d
	return d
}

// figure is what the comp has in a bar, nil where the level has nothing for it.
func (c *Pianist) figure(bar int) *feel.Figure {
	list := c.Level(bar).Comp
	n := len(list)
	if n < 2 {
		if n == 0 {
			return nil
		}
		return &list[0]
	}
	first, bars := c.Phrase(bar)
	at := bar - first
	switch {
	case bars >= unit && at == bars-1:
		return &list[n-1]
	case at%unit == 0 || n == 2:
		return &list[0]
	}
	d := c.dealOf(n)
	k := at%unit - 1
	if at >= unit && at%unit == d.swap {
		k++
	}
	own := c.Chance("comp figure").At(int64(first + at - at%unit)) // what this pass does in these four bars
	if at%unit == 1+own.Below(unit-1) {
		k += 2
	}
	return &list[d.order[k%len(d.order)]]
}
