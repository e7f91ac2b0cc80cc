package songspec

import (
	"slices"

	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
)

// Endings stand behind the bars that all times of a repeat share, each with the numbers of
// its times: |: Am7 | D7 |1. Gmaj7 :|2. G6 |. How often the repeat goes round follows from
// them. Whatever goes back is closed by :|. The last time's ending may be, too; else it
// goes on to the next |: or || or to the end of the chart.

// endings are those of the repeat that is being read.
type endings struct {
	from, split int // indexes in order: the first bar that is repeated, and the first of the first ending
	list        []ending
	closed      bool // the last of list is; a figure that follows opens another
	closing     sign // that closed it, :| or ||
	figures     []sign
	bad         bool // something is reported, and the rest is not looked at
}

// ending is one ending of a repeat.
type ending struct {
	lo, hi int   // its figure
	times  []int // when it is played
	from   int   // index in order of its first bar
	back   bool  // closed by :|
}

// startEnding opens an ending, of the repeat that is open.
func (r *chartReader) startEnding(lo, hi int, figure string) {
	e := r.endings
	if e == nil {
		e = &endings{from: max(r.open, 0), split: len(r.c.order)}
		switch {
		case r.open < 0 && r.closed:
			e.bad = true
			r.errorf(lo, hi, "An ending outside a repeat", "Write |: before the first bar that is played again.")
		case e.from == e.split:
			e.bad = true
			r.errorf(lo, hi, "An ending without bars before it",
				"Endings stand behind the bars that all times share: |: Am7 | D7 |1. Gmaj7 :|2. G6 |.")
		}
		r.endings, r.open, r.closed = e, -1, true
	} else {
		r.betweenEndings(e, lo, hi)
	}
	next := ending{lo: lo, hi: hi, times: r.timesOf(lo, hi, figure), from: len(r.c.order)}
	switch first := e.missing(); {
	case next.times == nil:
		e.bad = true
	case e.bad:
	case next.times[0] > first:
		r.badEnding(lo, hi, "An ending is missing", "Number %d comes before number %d: write |%d. with its bars in "+
			"front of this one.", first, next.times[0], first)
	default:
		for _, t := range next.times {
			if e.at(t) >= 0 {
				r.badEnding(lo, hi, "An ending twice", "Number %d is there already. The next one is |%d.", t, first)
				break
			}
		}
	}
	e.list = append(e.list, next)
	e.closed = false
}

// betweenEndings checks what stands between one ending and the next.
func (r *chartReader) betweenEndings(e *endings, lo, hi int) {
	last := &e.list[len(e.list)-1]
	switch {
	case e.bad:
	case last.from == len(r.c.order):
		r.badEnding(last.lo, last.hi, "An ending without bars", "Write its chords behind the figure: |1. Gmaj7 :|.")
	case last.back:
	case r.blank && r.lastSign != nil:
		g := r.lastSign
		entry := r.badEnding(g.lo, g.hi, "An ending that does not go back",
			"After it the repeat begins again, so it is closed by :|, as in |1. Gmaj7 :|2. G6 |.")
		entry.Write(r.s.Range(g.lo, g.hi), ":|")
	default:
		r.badEnding(lo, hi, "An ending that does not go back",
			"The ending before this one is closed by :|, as in |1. Gmaj7 :|2. G6 |.")
	}
}

// at is the index of the ending of a time; -1 when there is none.
func (e *endings) at(time int) int {
	return slices.IndexFunc(e.list, func(n ending) bool { return slices.Contains(n.times, time) })
}

// missing is the first time that has no ending.
func (e *endings) missing() int {
	t := 1
	for e.at(t) >= 0 {
		t++
	}
	return t
}

// badEnding reports a mistake about the endings of a repeat, after which the rest of them is not
// looked at.
func (r *chartReader) badEnding(lo, hi int, summary, detail string, args ...any) hcltext.Entry {
	r.endings.bad = true
	return r.errorf(lo, hi, summary, detail, args...)
}

// closeEnding closes the ending that is open at :| or ||.
func (r *chartReader) closeEnding(g sign) {
	e := r.endings
	e.list[len(e.list)-1].back = g.end
	e.closed, e.closing = true, g
	if g.figure {
		e.figures = append(e.figures, g)
	}
}

// finishEndings checks the endings of a repeat when the last one is read, and writes the
// repeat out. follows says that another bar does.
func (r *chartReader) finishEndings(follows bool) {
	e := r.endings
	r.endings = nil
	if e == nil || e.bad {
		return
	}
	order, last := r.c.order, e.list[len(e.list)-1]
	bars := make([][]int32, len(e.list)) // of each ending
	longest := 0
	for i, n := range e.list {
		end := len(order)
		if i+1 < len(e.list) {
			end = e.list[i+1].from
			longest = max(longest, end-n.from)
		}
		bars[i] = order[n.from:end]
	}
	times := e.missing() - 1
	highest := 0
	for _, n := range e.list {
		highest = max(highest, slices.Max(n.times))
	}
	final := len(last.times) == 1 && last.times[0] == times
	switch {
	case len(bars[len(bars)-1]) == 0:
		r.errorf(last.lo, last.hi, "An ending without bars", "Write its chords behind the figure: |2. G6 |.")
		return
	case highest > times:
		r.errorf(last.lo, last.hi, "An ending is missing", "Number %d is there and number %d is not: write |%d. with "+
			"its bars.", highest, times+1, times+1)
		return
	case times == 1 && last.back:
		entry := r.errorf(last.lo, last.hi, "A first ending alone",
			"Write |2. before the bars that are played instead the second time, as in |1. Gmaj7 :|2. G6 |.")
		if follows && r.lastSign != nil && r.blank && r.lastSign.hi == e.closing.hi {
			entry.Write(r.s.Range(e.closing.hi, e.closing.hi), "2.")
		}
		return
	case times == 1:
		r.errorf(last.lo, last.hi, "A first ending alone", "Close it by :| after its last bar, and write |2. before "+
			"the bars that are played instead the second time, as in |1. Gmaj7 :|2. G6 |.")
		return
	case !final && !last.back:
		entry := r.errorf(last.lo, last.hi, "An ending that does not go back",
			"It is not for the last time alone, so it is closed by :| after its last bar.")
		if g := r.lastSign; g != nil && !g.start && len(bars[len(bars)-1]) <= longest {
			entry.Write(r.s.Range(g.lo, g.hi), ":|")
		}
		return
	case final && last.back && len(bars[len(bars)-1]) > longest:
		r.errorf(e.closing.lo, e.closing.hi, "Repeat without a start", "Ending %d is longer than the others. Write |: "+
			"before the first bar that this repeat plays again, or | for :| where it is the ending's last bar.", times)
		return
	}
	for _, g := range e.figures {
		if g.times != times {
			r.errorf(g.lo, g.hi, "Repeat figure against the endings", "The endings are for %s: leave the figure out, "+
				"or write the endings of all times.", wording.Count(times, "time"))
			return
		}
	}
	body := slices.Clone(order[e.from:e.split])
	out := slices.Clone(order[:e.from])
	for t := 1; t <= times; t++ {
		end := bars[e.at(t)]
		if len(out)+len(body)+len(end) > MaxBars {
			r.overflow(e.list[0].lo, last.hi)
			return
		}
		r.c.rounds = append(r.c.rounds, [2]int{len(out), len(out) + len(body) + len(end)})
		out = append(append(out, body...), end...)
	}
	r.c.order = out
}
