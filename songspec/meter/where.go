package meter

import (
	"fmt"
	"slices"

	"plinth/songspec/wording"
)

// At is a moment in a section: a bar, counted from 0, and a tick from its bar line.
type At struct {
	Bar  int
	Tick int64
}

// Where are the moments of a place in a section whose bars have these meters, in order and
// each once. usual is the section's own meter. A bar in another meter may lack a count: it
// is left out there if the place names the bar only in a range or as one of all bars. The
// error is a *PlaceError: a bar outside the section, or a count that the bar named, or
// every bar, lacks.
func (p Place) Where(bars []Meter, usual Meter) ([]At, error) {
	runs := p.Bars
	if len(runs) == 0 {
		runs = []BarRange{{From: 1, To: Last}}
	}
	found := make([]bool, len(p.Counts))
	var out []At
	for _, r := range runs {
		from, to, err := r.clip(len(bars))
		if err != nil {
			return nil, err
		}
		named := len(p.Bars) > 0 && r.From == r.To
		for b := from; b <= to; b++ {
			for i, c := range p.Counts {
				tick, ok := c.Tick(bars[b])
				if ok {
					found[i] = true
					out = append(out, At{b, tick})
				} else if named || sameSize(bars[b], usual) {
					return nil, c.missing(b, bars[b])
				}
			}
		}
	}
	for i, ok := range found {
		if !ok {
			return nil, p.Counts[i].missing(-1, usual)
		}
	}
	slices.SortFunc(out, compareAt)
	return slices.Compact(out), nil
}

// Runs are the place's bars in a section of so many bars, as pairs of first and last bar,
// counted from 0, in order. The error is a *PlaceError.
func (p Place) Runs(bars int) ([][2]int, error) {
	var out [][2]int
	for _, r := range p.Bars {
		from, to, err := r.clip(bars)
		if err != nil {
			return nil, err
		}
		out = append(out, [2]int{from, to})
	}
	slices.SortFunc(out, func(a, b [2]int) int { return a[0] - b[0] })
	return out, nil
}

// clip is the range as bars counted from 0; the error says which bar is outside.
func (r BarRange) clip(bars int) (from, to int, err error) {
	from, to = r.From, r.To
	if from == Last {
		from = bars
	}
	if to == Last {
		to = bars
	}
	outside := to
	if from > bars {
		outside = from
	}
	if outside > bars {
		return 0, 0, badPlace(r.Off, r.End, fmt.Sprintf("bar %d is outside the section", outside),
			fmt.Sprintf("The section has %s; bars that are repeated count each time.", wording.Count(bars, "bar")))
	}
	if from > to {
		return 0, 0, badPlace(r.Off, r.End, "bars the wrong way round",
			fmt.Sprintf("The section has %s, so the last one is not after bar %d.", wording.Count(bars, "bar"), from))
	}
	return from - 1, to - 1, nil
}

func (c Count) missing(bar int, m Meter) error {
	in := "in " + m.String()
	if bar >= 0 {
		in = fmt.Sprintf("in bar %d, which is in %s", bar+1, m)
	}
	help := fmt.Sprintf("The counts of %d/%d are 1 to %d, halved with &, quartered with e & a.", m.Num, m.Den, m.Num)
	if m.Num == 1 {
		help = fmt.Sprintf("The only count of %d/%d is 1.", m.Num, m.Den)
	}
	return badPlace(c.Off, c.End, fmt.Sprintf("no count %s %s", c, in), help)
}

func sameSize(a, b Meter) bool { return a.Num == b.Num && a.Den == b.Den }
