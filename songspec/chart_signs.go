package songspec

import (
	"slices"
	"strconv"
	"strings"

	"plinth/songspec/meter"
)

// newline ends a bar that has something in it, as a bar line does.
func (r *chartReader) newline() {
	r.endBar()
	r.blank = false
}

var goodBarLine = pattern(`^:?\|\|?:?$`)

// repeatFigure is the number of times of a repeat, after its bar line: x3. A 3 without the x, and one
// with the x behind it or another sign, is a mistake; 2nd is no number of times.
var repeatFigure = pattern(`^(?:[ \t]*([xX*×]))?([0-9]+)(?:[xX×]|(st|nd|rd|th|\)))?`)

// readBarLine reads |, ||, |:, :| or a combination of them, with the figure of a repeat, and
// returns the offset after it.
func (r *chartReader) readBarLine(i, hi int) int {
	src := r.s.Src
	g := sign{lo: i, times: 2}
	for i < hi && (src[i] == '|' || src[i] == ':') {
		i++
	}
	run := string(src[g.lo:i])
	g.end, g.start = strings.HasPrefix(run, ":"), strings.HasSuffix(run, ":")
	if !goodBarLine().MatchString(run) {
		r.errorf(g.lo, i, "Not a bar line", "Bar lines are |, |: and :|, with a figure after a repeat that goes "+
			"round more than twice: :|x3.")
		r.endBar()
		r.lastSign = nil
		return i
	}
	if g.end && !g.start {
		m := repeatFigure().FindSubmatchIndex(src[i:hi])
		if m != nil && m[6] < 0 && (m[2] >= 0 || r.endings == nil && !endingFigure().Match(src[i:hi])) {
			lo, figure := i, string(src[i+m[4]:i+m[5]])
			i += m[1]
			n, err := strconv.Atoi(figure)
			good := err == nil && n >= 2 && n <= maxTimes
			switch {
			case m[2] < 0, m[1] > m[5], strings.ContainsAny(string(src[lo:i]), "*×"):
				e := r.errorf(lo, i, "A figure without its x",
					"How often a repeat goes round is written with an x: :|x%s.", figure)
				if good {
					e.Write(r.s.Range(lo, i), "x"+figure)
				}
			case good:
				g.times, g.figure = n, true
			default:
				r.errorf(lo+m[2], i, "Repeat figure out of bounds",
					"A repeat goes round 2 to %d times: write :|x3 for three.", maxTimes)
			}
		}
	}
	g.hi = i
	r.bar(g)
	return i
}

// bar ends the current bar at a bar line, and opens or closes a repeat.
func (r *chartReader) bar(g sign) {
	before := r.lastSign
	empty := !r.filled
	r.endBar()
	if empty && before != nil && r.blank && !g.end && !g.start && !before.end && !before.start {
		r.errorf(before.hi, g.lo, "Empty bar",
			"Write %% to play the bar before again, / / / / to hold its chord, or N.C. for no chord.")
	}
	switch e := r.endings; {
	case e != nil && !e.closed && (g.end || !g.start && len(e.list) > 1 && g.hi-g.lo == len("||")):
		r.closeEnding(g)
	case g.end:
		r.endRepeat(g)
	}
	if g.start {
		r.finishEndings(false)
		if r.open >= 0 {
			r.errorf(g.lo, g.hi, "Repeat inside a repeat",
				"Close the repeat that is open with :| first, or write the bars out.")
		}
		r.open, r.openSign = len(r.c.order), g
	}
	r.lastSign, r.blank = &g, true
}

func (r *chartReader) endRepeat(g sign) {
	r.finishEndings(false)
	from := r.open
	if from < 0 {
		if r.closed {
			r.errorf(g.lo, g.hi, "Repeat without a start",
				"Write |: before the first bar that this repeat plays again.")
			return
		}
		from = 0
	}
	r.open, r.closed = -1, true
	body := r.c.order[from:]
	if len(body) == 0 {
		r.errorf(g.lo, g.hi, "A repeat with nothing in it", "Write the bars to repeat between |: and :|.")
		return
	}
	if len(r.c.order)+len(body)*(g.times-1) > MaxBars {
		r.overflow(g.lo, g.hi)
		return
	}
	for t := range g.times {
		r.c.rounds = append(r.c.rounds, [2]int{from + t*len(body), from + (t+1)*len(body)})
	}
	r.c.order = append(r.c.order, slices.Repeat(body, g.times-1)...)
}

func (r *chartReader) overflow(lo, hi int) {
	if !r.tooMany {
		r.errorf(lo, hi, "Too many bars", "A song has at most %d bars, repeats written out.", MaxBars)
	}
	r.tooMany = true
}

// readMeterSign reads a meter such as "(2/4)" and returns the offset after it.
func (r *chartReader) readMeterSign(i, hi int) int {
	src, lo := r.s.Src, i
	for i < hi && src[i] != ')' && src[i] != '|' && src[i] != '\n' {
		i++
	}
	if i >= hi || src[i] != ')' {
		r.growBar(lo, i) // so that the bar is not reported as empty too
		r.errorf(lo, i, "Bracket not closed", "A bar in another meter says so in brackets: | (2/4) C |.")
		return i
	}
	i++
	r.growBar(lo, i)
	m, err := meter.Parse(string(src[lo+1 : i-1]))
	times := timesMark().FindStringSubmatch(string(src[lo:i]))
	switch {
	case err != nil && times != nil:
		summary, help := foreignWord(string(src[lo:i]))
		r.errorf(lo, i, summary, "%s", help)
	case err != nil && len(r.cur.words) > 0:
		r.errorf(lo, i, "Brackets after a chord",
			"A bracket belongs to its chord without a blank between, C7(b9). Chords that are played in turn or not "+
				"at all have no sign here.")
	case err != nil:
		r.errorf(lo, i, "Not a meter", "Brackets at the front of a bar hold its meter, like (2/4): %s.", err)
	case r.cur.meter != nil:
		r.errorf(lo, i, "Two meters in one bar", "Leave one of them out.")
	case len(r.cur.words) > 0 || r.cur.like >= 0:
		r.errorf(lo, i, "Meter in the middle of a bar",
			"Write the meter in front of the bar's first chord: | (%s) C |.", m)
	default:
		r.cur.meter = &m
	}
	return i
}

func (r *chartReader) percent(lo, hi int) {
	switch {
	case len(r.cur.words) > 0 && r.cur.like < 0:
		chord := "C"
		for _, w := range r.cur.words {
			if !w.slash {
				chord = w.text
			}
		}
		r.errorf(lo, hi, "Something beside %", "A %% stands alone in its bar: it repeats the whole bar before. "+
			"To stay on a chord, write a / for each beat more, | %[1]s / / / |, or the chord alone in its bar, "+
			"| %[1]s |.", chord)
	case r.cur.like >= 0:
		r.errorf(lo, hi, "Something beside %", "A %% stands alone in its bar: it repeats the whole bar before.")
	case len(r.c.written) == 0:
		r.errorf(lo, hi, "Nothing to repeat", "A %% repeats the bar before, and this is the first bar. Write its "+
			"chords.")
		r.cur.like = 0
	case r.endings != nil && len(r.endings.list) > 1 && r.endings.list[len(r.endings.list)-1].from == len(r.c.order):
		r.errorf(lo, hi, "A % that begins an ending",
			"Which bar is before it is not clear, as the repeat comes in between. Write its chords.")
		r.cur.like = 0
	default:
		r.cur.like = int(r.c.order[len(r.c.order)-1])
	}
}

// growBar makes the bar that is being read include the text from lo to hi.
func (r *chartReader) growBar(lo, hi int) {
	if !r.filled {
		r.cur.lo = lo
		if r.endings != nil && r.endings.closed {
			r.finishEndings(true)
		}
	}
	r.cur.hi = hi
	r.filled = true
}

// endBar ends the bar that is being read, if there is anything in it.
func (r *chartReader) endBar() {
	if !r.filled {
		return
	}
	bar := r.cur
	r.cur, r.filled = writtenBar{like: -1}, false
	bar.line = r.s.LineOf(bar.lo)
	if bar.like >= 0 && bar.like < len(r.c.written) {
		before := r.c.written[bar.like]
		if before.like >= 0 {
			bar.like = before.like
		}
		bar.words, bar.text = before.words, before.text
	} else if len(bar.words) == 0 && !r.hasErrors {
		r.errorf(bar.lo, bar.hi, "A meter without chords", "Write the bar's chords after its meter: | (2/4) C |.")
	} else {
		parts := make([]string, len(bar.words))
		for i := range bar.words {
			parts[i] = bar.words[i].String()
		}
		r.checkCounts(bar.words)
		bar.text = strings.Join(parts, " ")
	}
	if len(r.c.order) >= MaxBars {
		r.overflow(bar.lo, bar.hi)
		return
	}
	r.c.order = append(r.c.order, int32(len(r.c.written)))
	r.c.written = append(r.c.written, bar)
}
