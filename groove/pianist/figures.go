package pianist

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
)

// This file deals the figures of a level out over a phrase. What comes again is heard as the
// same: every phrase begins with the first figure and, in half of all sections, its second
// four bars do; the others keep their order in the section. One bar or two of every four
// differ from pass to pass. The last figure closes half of the phrases, and a section that the
// band leaves downwards; one that rises goes on to the border, and its last bar has a figure of
// a level nearer to the next section's. Common practice, no single source.

// unit is how many bars the figures take before they come again.
const unit = 4

// figure is what the comp has in a bar, nil where the level has nothing for it.
func (c *Pianist) figure(bar int) *feel.Figure {
	list := c.compLevel(bar).Comp
	switch len(list) {
	case 0:
		return nil
	case 1:
		return &list[0]
	default:
		if c.deals[&list[0]] == nil {
			c.deals[&list[0]] = c.deal(list)
		}
		return &list[c.deals[&list[0]][bar]]
	}
}

// deal deals figures, 2 or more, out over the bars of the pass.
func (c *Pianist) deal(list []feel.Figure) []int {
	out, n := make([]int, len(c.Pass.Bars)), len(list)
	section, own := c.SectionChance("comp figures"), c.Chance("comp figure")
	order := c.order(list)
	for first := 0; first < len(out); {
		_, bars := c.Phrase(first)
		phrase := out[first : first+bars]
		for at := range phrase {
			if at%unit > 0 && len(order) > 0 {
				phrase[at] = order[(at%unit-1)%len(order)]
			}
		}
		if bars > unit {
			if section.At(-1).Below(2) == 0 {
				another(phrase, unit, order, section)
			}
			another(phrase, unit+1+section.At(0).Below(min(unit-2, bars-unit)), order, section)
		}
		for from := 0; from < bars; from += unit {
			draw := own.At(int64(first + from))
			at := draw.Below(unit - 1)
			another(phrase, from+1+at, order, draw)
			if draw.At(-1).Below(3) > 0 {
				another(phrase, from+1+(at+1)%(unit-1), order, draw)
			}
		}
		if bars >= unit && c.closes(first+bars-1) {
			phrase[bars-1] = n - 1
		}
		first += bars
	}
	return out
}

// order is the order of the figures between the first and the last in this section: of three
// that are drawn the one whose neighbours are most alike.
func (c *Pianist) order(list []feel.Figure) []int {
	var best []int
	most := -1
	for draw := range int64(3) {
		from := c.SectionChance("comp figures").At(draw)
		var order []int
		for i := 1; i < len(list)-1; i++ {
			order = slices.Insert(order, from.At(int64(i)).Below(len(order)+1), i)
		}
		alike, before := 0, 0
		for _, k := range order[:min(len(order), unit-1)] {
			alike, before = alike+shared(&list[before], &list[k]), k
		}
		if alike > most {
			best, most = order, alike
		}
	}
	return best
}

// shared is how many of a hundred places of two figures both strike.
func shared(a, b *feel.Figure) int {
	both, either := 0, 0
	for i := range min(len(a.Right), len(b.Right)) {
		switch x, y := a.Strikes(i), b.Strikes(i); {
		case x && y:
			both, either = both+1, either+1
		case x || y:
			either++
		}
	}
	return 100 * both / max(1, either)
}

// compLevel is the level whose figures a bar has: its own or, in the last bar of a pass from
// which the band rises or falls, one half-way to the next pass's, and nearer to that. Two steps
// up or more begin a bar earlier.
func (c *Pianist) compLevel(bar int) *feel.Level {
	own, to := c.Energy(bar), c.LeadsTo(bar)
	half := (own + to) / 2
	switch last := c.Crosses(bar); {
	case own == to, !last && to < own+2:
		return c.Level(bar)
	case !last:
		half = own + 1
	case to > own:
		half = (own + to + 1) / 2
	}
	lv := &c.FeelIn(bar).Levels[half-1]
	if c.Level(bar).Voices == 2 && lv.Voices > 2 {
		return c.Level(bar) // in two voices the other figures would strike one key again and again
	}
	return lv
}

// closes reports whether the bar at a phrase's end has the closing figure.
func (c *Pianist) closes(bar int) bool {
	switch own, to := c.Energy(bar), c.LeadsTo(bar); {
	case to > own:
		return false
	case to < own || c.Pass.After == nil && bar == len(c.Pass.Bars)-1:
		return true
	}
	return c.Chance("comp close").At(int64(bar)).Below(2) == 0
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
