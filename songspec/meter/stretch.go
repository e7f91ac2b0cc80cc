package meter

import (
	"cmp"
	"fmt"
	"strings"
)

// ParseStretch reads where a rit goes: bars, "7-8" or "last", or from one count to another,
// "7: 3 - 8: 4", with or without blanks. The error is a *PlaceError.
func ParseStretch(s string) (Place, error) {
	parse, dashes := ParseBars, false
	if len(s) <= maxPlaceText && strings.ContainsRune(s, ':') {
		parse, dashes = parseCountToCount, strings.ContainsAny(s, "–—−")
	}
	p, err := parse(s)
	if err == nil || dashes { // of which the error says where they stand
		return p, err
	}
	if like := likeStretch(s); like != "" {
		return Place{}, &PlaceError{0, len(s), "not a stretch", fmt.Sprintf("Write \"%s\".", like), like}
	}
	return p, err
}

// parseCountToCount reads "7: 3 - 8: 4".
func parseCountToCount(s string) (Place, error) {
	const form = `From one count to another is written "7: 3 - 8: 4", each with its bar; whole bars are "7-8".`
	dash := strings.IndexAny(s, "-–—−")
	if dash < 0 {
		return Place{}, badPlace(0, len(s), "one place where a stretch belongs", form)
	}
	if s[dash] != '-' {
		end := dash + len("–")
		return Place{}, badPlace(dash, end, "not the dash of the keyboard",
			"The dash is the plain hyphen: \""+s[:dash]+"-"+s[end:]+"\".")
	}
	p := Place{Text: s, Through: true}
	for _, part := range [2][2]int{{0, dash}, {dash + 1, len(s)}} {
		text := s[part[0]:part[1]]
		part[0] += len(text) - len(strings.TrimLeft(text, " \t"))
		part[1] = part[0] + len(strings.Trim(text, " \t"))
		wrong := badPlace(part[0], part[1], "not one count of one bar", form)
		if strings.ContainsRune(text, '-') {
			return Place{}, wrong
		}
		one, err := ParsePlace(s[part[0]:part[1]])
		if err != nil {
			e := err.(*PlaceError)
			e.Off, e.End = e.Off+part[0], e.End+part[0]
			return Place{}, e
		}
		if len(one.Bars) == 0 && len(p.Bars) == 1 && len(one.Counts) == 1 {
			return Place{}, badPlace(part[0], part[1], "no bar for the last count",
				noLastBar(strings.TrimSpace(s[:dash]), p.Bars[0].From, one.Counts[0]))
		}
		if len(one.Bars) != 1 || one.Bars[0].From != one.Bars[0].To || len(one.Counts) != 1 {
			return Place{}, wrong
		}
		bar, count := one.Bars[0], one.Counts[0]
		bar.Off, bar.End = bar.Off+part[0], bar.End+part[0]
		count.Off, count.End = count.Off+part[0], count.End+part[0]
		p.Bars, p.Counts = append(p.Bars, bar), append(p.Counts, count)
	}
	return p, nil
}

// noLastBar says how a stretch is written of which the second count has no bar. That count is
// perhaps a bar itself.
func noLastBar(from string, bar int, c Count) string {
	same := fmt.Sprintf("\"%s - %s: %s\"", from, from[:strings.IndexByte(from, ':')], c)
	next := fmt.Sprintf("\"%s - %d: 1\"", from, c.N)
	switch {
	case c.Sub != 0 || bar == Last || c.N <= bar:
		return "Each count has its bar: " + same + "."
	case c.N > 4:
		return fmt.Sprintf("Each count has its bar. If bar %d is meant, write %s.", c.N, next)
	}
	return fmt.Sprintf("Each count has its bar: %s ends with count %s of that bar, %s with bar %d.", same, c, next, c.N)
}

// Stretch is a part of a section: from From up to To, which is in the bar that To names and may be
// its end.
type Stretch struct{ From, To At }

// Stretches are the stretches of what ParseStretch has read, in a section whose bars have these
// meters, in order. One that ends with a count ends with the felt beat in which that count lies.
// The error is a *PlaceError.
func (p Place) Stretches(bars []Meter) ([]Stretch, error) {
	var out []Stretch
	if !p.Through {
		runs, err := p.Runs(len(bars))
		for _, run := range runs {
			out = append(out, Stretch{At{run[0], 0}, At{run[1], bars[run[1]].BarTicks()}})
		}
		return out, err
	}
	var ends [2]At
	for i, r := range p.Bars {
		bar, _, err := r.clip(len(bars))
		if err != nil {
			return nil, err
		}
		tick, ok := p.Counts[i].Tick(bars[bar])
		if !ok {
			return nil, p.Counts[i].missing(bar, bars[bar])
		}
		ends[i] = At{bar, tick}
	}
	if compareAt(ends[0], ends[1]) > 0 {
		a, b, _ := strings.Cut(p.Text, "-")
		return nil, badPlace(0, len(p.Text), "counts the wrong way round",
			fmt.Sprintf("What comes first stands first: \"%s - %s\".", strings.TrimSpace(b), strings.TrimSpace(a)))
	}
	ends[1].Tick = bars[ends[1].Bar].NextBeat(ends[1].Tick)
	return append(out, Stretch{ends[0], ends[1]}), nil
}

func compareAt(a, b At) int { return cmp.Or(a.Bar-b.Bar, cmp.Compare(a.Tick, b.Tick)) }
