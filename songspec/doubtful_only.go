package songspec

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/wording"
)

// doubtOnly warns of bars of a play that begin or end in the middle of a repeat of the chart, where
// they are others than those that are printed there: bars count as they are played. all are the bars of
// the section. A number beyond the printed bars can only be meant as it is read.
func (r *resolver) doubtOnly(p *play, runs [][2]int, all []measure) {
	c := p.section.chords
	if len(c.order) != len(all) || runs[len(runs)-1][1] >= len(c.written) {
		return
	}
	printed := func(bar int) bool { return int(c.order[bar]) == bar }
	for _, run := range runs {
		inside := slices.ContainsFunc(c.rounds, func(round [2]int) bool {
			return round[0] < run[0] && run[0] < round[1] && !printed(run[0]) ||
				round[0] <= run[1] && run[1] < round[1]-1 && !printed(run[1])
		})
		if inside {
			r.rep.Warnf(p.only.rng, "Bars that begin or end inside a repeat", "Bars count as they are played, with "+
				"the repeats written out: here %s. %s", barList(all[run[0]:run[1]+1]), c.asPrinted(run))
			return
		}
	}
}

// barList is some bars as a chart, of many the first and the last ones.
func barList(ms []measure) string {
	const most = 8
	var out []string
	for i := range ms {
		if len(ms) <= most || i < most-3 || i >= len(ms)-2 {
			out = append(out, ms[i].bar.text)
		} else if i == most-3 {
			out = append(out, "…")
		}
	}
	return "| " + strings.Join(out, " | ") + " |"
}

// asPrinted says how bars are named that are counted as they stand in the chart: with their repeat, and
// where that is something else the last time alone.
func (c *chart) asPrinted(run [2]int) string {
	last := func(bar int) int {
		for i := len(c.order) - 1; ; i-- {
			if int(c.order[i]) == bar {
				return i + 1
			}
		}
	}
	only := func(from, to int) string {
		if from == to {
			return fmt.Sprintf("only = \"%d\"", from)
		}
		return fmt.Sprintf("only = \"%d-%d\"", from, to)
	}
	what := fmt.Sprintf("bars %d to %d are", run[0]+1, run[1]+1)
	if run[0] == run[1] {
		what = fmt.Sprintf("bar %d is", run[0]+1)
	}
	first, from, to := slices.Index(c.order, int32(run[0]))+1, last(run[0]), last(run[1])
	ways := []string{only(first, to)}
	if first < from && from <= to {
		ways = append(ways, only(from, to)+" for the last time alone")
	}
	return fmt.Sprintf("Counted as they are printed, %s %s.", what, wording.Or(ways))
}
