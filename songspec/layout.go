package songspec

import (
	"slices"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// measure is a bar of a chart laid out in a meter. It does not depend on the key.
type measure struct {
	number int // in its section, from 1
	meter  meter.Meter
	bar    *writtenBar
	starts []int64    // where in the bar each of its words starts, in ticks
	before *chartWord // the chord that goes on where the bar begins without one of its own
}

// layOut divides every bar of a chart among its words, in a usual meter, and writes the repeats
// out. Bars that do not add up go to rep, each once; ok is false when there was one. The
// measures have no numbers yet.
func layOut(c *chart, usual meter.Meter, rep *hcltext.Report) (ms []measure, ok bool) {
	s := c.src
	starts := make([][]int64, len(c.written))
	meters := make([]meter.Meter, len(c.written))
	ok = true
	var beats []int64
	for i := range c.written {
		bar := &c.written[i]
		meters[i] = usual
		if bar.meter != nil {
			meters[i] = *bar.meter
		}
		if i == 0 || meters[i] != meters[i-1] {
			beats = meters[i].Beats()
		}
		if bar.like >= 0 {
			of := meters[bar.like]
			if of.BarTicks() != meters[i].BarTicks() && (len(bar.words) != 1 || counted(bar.words)) ||
				of.Den != meters[i].Den && counted(bar.words) {
				rep.Errorf(s.Range(bar.lo, bar.hi), "The bar before has another meter",
					"The bar to repeat is in %s and this one in %s: write its chords out.", of, meters[i])
				ok = false
				continue
			}
		}
		if counted(bar.words) {
			if starts[i] = starts[max(bar.like, 0)]; bar.like < 0 {
				starts[i] = countStarts(s, bar.words, meters[i], rep)
			}
			ok = ok && starts[i] != nil
			continue
		}
		starts[i] = share(bar.words, meters[i], beats)
		if starts[i] == nil {
			if slices.ContainsFunc(bar.words, func(w chartWord) bool { return w.bad }) {
				// A bad chord in the bar is reported already.
			} else if bar.like < 0 {
				rep.Errorf(s.Range(bar.lo, bar.hi), "A bar that does not add up", "%s", barHelp(bar, meters[i]))
			} else {
				rep.Errorf(s.Range(bar.lo, bar.hi), "A bar that does not add up",
					"The bar it repeats does not fit into %s: write its chords out.", meters[i])
			}
			ok = false
		}
	}
	if !ok {
		return nil, false
	}
	out := make([]measure, len(c.order))
	for i, w := range c.order {
		out[i] = measure{meter: meters[w], bar: &c.written[w], starts: starts[w]}
	}
	return out, true
}

// goesOn reports whether a measure begins with the chord of the one before it.
func (m *measure) goesOn() bool { return m.bar.words[0].slash || m.starts[0] > 0 }

// giveNumbers gives the measures of a section their numbers, and to those that begin without a
// chord of their own the one that goes on. It returns the first word that would need a chord
// before it and has none; nil if there is no such word.
func giveNumbers(ms []measure) *chartWord {
	var before *chartWord
	for i := range ms {
		m := &ms[i]
		m.number, m.before = i+1, before
		if m.goesOn() && before == nil {
			return &m.bar.words[0]
		}
		for j := range m.bar.words {
			if w := &m.bar.words[j]; !w.slash {
				before = w
			}
		}
	}
	return nil
}

// noChordBefore reports a word that needs a chord before it.
func (r *resolver) noChordBefore(w *chartWord) {
	if w.slash {
		r.rep.Errorf(w.rng(), "A slash with no chord before it",
			"A / is one beat more of the chord before it. Write the chord first.")
		return
	}
	r.rep.Errorf(w.src.Range(w.lo, w.count.End), "No chord before the first",
		"Before it the chord of the bar before goes on, and there is none. Write what stands on 1: | N.C. %s |.", w)
}

// laidOut are the measures that a pass plays, put in time.
type laidOut struct {
	all    []measure     // those of the whole section
	meters []meter.Meter // of all
	bars   []timeline.Bar
	spans  []wordSpan
	length int64
	played [][]int // by number from 0: where the bar is in bars; nil where bars are all in order
}

type wordSpan struct {
	start, end int64
	bar        int // in which it begins, as an index in bars
	word       *chartWord
}

// inTime puts measures of a section one after another; all are those of the section. A chord
// that goes on into a measure from the one before it in the section begins anew where another
// one stands before it.
func inTime(ms, all []measure) *laidOut {
	out := &laidOut{all: all, bars: make([]timeline.Bar, len(ms))}
	for i := range all {
		out.meters = append(out.meters, all[i].meter)
	}
	at := int64(0)
	for i := range ms {
		m := &ms[i]
		out.bars[i] = timeline.Bar{Start: at, Length: m.meter.BarTicks(), Meter: m.meter, Text: m.bar.text,
			Line: m.bar.line, Number: m.number}
		if m.goesOn() && (i == 0 || ms[i-1].number != m.number-1) {
			out.spans = append(out.spans, wordSpan{start: at, bar: i, word: m.before})
		}
		for j := range m.bar.words {
			if word := &m.bar.words[j]; !word.slash {
				out.spans = append(out.spans, wordSpan{start: at + m.starts[j], bar: i, word: word})
			}
		}
		at += m.meter.BarTicks()
	}
	for i := range out.spans { // a chord goes on until the next
		out.spans[i].end = at
		if i > 0 {
			out.spans[i-1].end = out.spans[i].start
		}
	}
	out.length = at
	asWritten := len(ms) == len(all)
	for i := range ms {
		asWritten = asWritten && ms[i].number == i+1
	}
	if !asWritten {
		out.played = make([][]int, len(all))
		for i := range ms {
			out.played[ms[i].number-1] = append(out.played[ms[i].number-1], i)
		}
	}
	return out
}

// at are the indices in bars of a bar of the section, counted from 0.
func (lo *laidOut) at(bar int) []int {
	if lo.played != nil {
		return lo.played[bar]
	}
	return []int{bar}
}

// runs are the parts of a range of the section's bars that are played in one piece, as pairs of
// indices in bars. first and last are counted from 0.
func (lo *laidOut) runs(first, last int) [][2]int {
	if lo.played == nil {
		return [][2]int{{first, last}}
	}
	var out [][2]int
	for i, b := range lo.bars {
		if b.Number-1 < first || b.Number-1 > last {
			continue
		}
		if n := len(out); n > 0 && out[n-1][1] == i-1 && lo.bars[i-1].Number < b.Number {
			out[n-1][1] = i
		} else {
			out = append(out, [2]int{i, i})
		}
	}
	return out
}

// share returns where in its bar each word starts, in ticks; nil when the words do not fill the
// bar. There must be as many words as felt beats, or as counts (six in 6/8), or, without
// slashes, a number of words that divides the felt beats evenly.
func share(words []chartWord, m meter.Meter, beats []int64) []int64 {
	n := len(words)
	if n == 0 {
		return nil
	}
	slashes := slices.ContainsFunc(words, func(w chartWord) bool { return w.slash })
	out := make([]int64, n)
	switch {
	case n == len(beats), !slashes && len(beats)%n == 0:
		for i := range out {
			out[i] = beats[i*len(beats)/n]
		}
	case n == m.Num:
		for i := range out {
			out[i] = int64(i) * m.UnitTicks()
		}
	default:
		return nil
	}
	return out
}
