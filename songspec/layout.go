package songspec

import (
	"slices"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// laidOut is a chart in one meter: its bars, and its words with their ticks. It does not depend
// on the key.
type laidOut struct {
	bars   []timeline.Bar
	meters []meter.Meter // of each bar
	spans  []wordSpan
	length int64
}

type wordSpan struct {
	start, end int64
	word       *chartWord
}

// layOut gives every bar its place in time. Bars that do not add up go to rep,
// each once; ok is false when there was one.
func layOut(s *hcltext.Source, c *chart, usual meter.Meter, rep *hcltext.Report) (*laidOut, bool) {
	starts := make([][]int64, len(c.written))
	meters := make([]meter.Meter, len(c.written))
	ok := true
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
	out := &laidOut{}
	at := int64(0)
	for _, w := range c.order {
		bar := &c.written[w]
		out.bars = append(out.bars, timeline.Bar{Start: at, Length: meters[w].BarTicks(), Meter: meters[w],
			Text: bar.text, Line: bar.line})
		out.meters = append(out.meters, meters[w])
		for i := range bar.words {
			word, start := &bar.words[i], at+starts[w][i]
			if len(out.spans) == 0 && word.slash {
				rep.Errorf(s.Range(word.lo, word.hi), "A slash with no chord before it",
					"A / is one beat more of the chord before it. Write the chord first.")
				return nil, false
			}
			if len(out.spans) == 0 && start > at {
				rep.Errorf(s.Range(word.lo, word.count.End), "No chord before the first",
					"Before it the chord of the bar before goes on, and there is none. Write what stands on 1: "+
						"| N.C. %s |.", word)
				return nil, false
			}
			if !word.slash {
				out.spans = append(out.spans, wordSpan{start: start, word: word})
			}
		}
		at += meters[w].BarTicks()
	}
	for i := range out.spans { // a chord goes on until the next
		out.spans[i].end = at
		if i > 0 {
			out.spans[i-1].end = out.spans[i].start
		}
	}
	out.length = at
	return out, true
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
