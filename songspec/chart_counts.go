package songspec

import (
	"strings"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
)

// A chord that changes off the beat says its count: G7@2&. In a bar with such a chord each
// lasts until the next. Only the first may stand without a count, and then on 1.

// counted reports whether one of the words says on which count it comes.
func counted(words []chartWord) bool {
	for i := range words {
		if words[i].count.N > 0 {
			return true
		}
	}
	return false
}

// String is the word as it is written.
func (w *chartWord) String() string {
	if w.count.N == 0 {
		return w.text
	}
	return w.text + "@" + w.count.String()
}

// readCounted reads a chord with its count, and returns the offset after them. lo and hi are where both
// stand, as far as there is no blank.
func (r *chartReader) readCounted(lo, hi int, text string) (end int) {
	chord, said, _ := strings.Cut(text, "@")
	w := chartWord{src: r.s, lo: lo, hi: hi - len(said) - 1, text: chord}
	n := len(r.cur.words)
	count, help := meter.ParseCount(said)
	count.Off, count.End = hi-len(said), hi
	switch {
	case strings.Trim(chord, "/") == "" && chord != "":
		r.errorf(lo, hi, "A count for a slash", "A chord goes on until the next one where that says its count: leave "+
			"the / out.")
		return hi
	case chord == "%":
		r.errorf(lo, hi, "Something beside %", "A %% stands alone in its bar: it repeats the whole bar before.")
		return hi
	case help != "" && said == "" && chord == "":
		r.errorf(lo, hi, "A count without a chord", "The count stands behind its chord without a blank: G7@2&.")
		return hi
	case help != "" && said == "":
		if m := countNext().FindSubmatch(r.s.Src[hi:]); m != nil { // C@ 3
			whole := chord + "@" + string(m[1])
			at := hi + len(m[0]) - 1
			r.errorf(lo, at, "A count apart from its chord", "The count stands behind its chord without a blank: %s.",
				whole).Write(r.s.Range(lo, at), whole)
			w.count, _ = meter.ParseCount(string(m[1]))
			r.cur.words = append(r.cur.words, w)
			r.growBar(lo, at)
			return at
		}
		r.errorf(lo, hi, "No count after @", "The count stands behind the @ without a blank: %s@2&.", chord)
		count.N = 1
	case help != "" && chord == "" && chordNext().MatchString(said): // @3G
		m := chordNext().FindStringSubmatch(said)
		r.errorf(lo, hi, "A count in front of its chord", "The count stands behind its chord: %s@%s.", m[2], m[1]).
			Write(r.s.Range(lo, hi), m[2]+"@"+m[1])
		w.text = m[2]
		w.count, _ = meter.ParseCount(m[1])
		r.cur.words = append(r.cur.words, w)
		return hi
	case help != "":
		e := r.errorf(count.Off, hi, "Not a count after @", "%s", help)
		half := strings.NewReplacer("+", "&", "and.", "&", "and", "&").Replace(said)
		if _, help := meter.ParseCount(half); help == "" {
			e.Write(r.s.Range(count.Off, hi), half)
		}
		count.N = 1
	case chord == "" && n > 0 && !r.cur.words[n-1].slash && r.cur.words[n-1].count.N == 0:
		before := &r.cur.words[n-1]
		r.errorf(lo, hi, "A count apart from its chord", "The count stands behind its chord without a blank: %s%s.",
			before.text, text).Write(r.s.Range(before.lo, hi), before.text+text)
		before.count = count
		return hi
	case chord == "":
		r.errorf(lo, hi, "A count without a chord", "The count stands behind its chord without a blank: G7%s.", text)
		return hi
	}
	w.count = count
	r.cur.words = append(r.cur.words, w)
	return hi
}

var (
	countNext = pattern(`^[ \t]+([1-9][0-9]?[&eatl]?)[ \t|]`)
	chordNext = pattern(`^([1-9][0-9]?&?)([A-G][^@]*)$`)
)

// checkCounts reports what cannot stand in a bar beside a chord with its count.
func (r *chartReader) checkCounts(words []chartWord) {
	if !counted(words) {
		return
	}
	for i := range words {
		switch w := &words[i]; {
		case w.slash:
			r.errorf(w.lo, w.hi, "A slash in a bar with counts", "Each chord lasts until the next one comes on its "+
				"count: leave the / out, and write the count of each chord after the first, as in %s.", countOf(words))
			return
		case i > 0 && w.count.N == 0:
			r.errorf(w.lo, w.hi, "A chord without its count", "Only the first chord of a bar with counts may stand "+
				"without one, on 1. Write the count behind it: %s@%d.", w.text, max(3, words[i-1].count.N+1))
			return
		}
	}
}

// countOf is the first word that says its count, for messages.
func countOf(words []chartWord) string {
	for i := range words {
		if words[i].count.N > 0 {
			return words[i].String()
		}
	}
	return ""
}

// countStarts is where in its bar each word starts, by its count. It is nil when a count
// is outside the bar or not after the one before, which is reported.
func countStarts(s *hcltext.Source, words []chartWord, m meter.Meter, rep *hcltext.Report) []int64 {
	starts := make([]int64, len(words))
	for i := range words {
		w := &words[i]
		if w.count.N == 0 {
			continue // the first, on 1
		}
		at := s.Range(w.count.Off, w.count.End)
		tick, ok := w.count.Tick(m)
		if !ok {
			rep.Errorf(at, "No such count in the bar", "A bar of %d/%d has the counts 1 to %d, and this is %s.",
				m.Num, m.Den, m.Num, w.count)
			return nil
		}
		if i > 0 && tick <= starts[i-1] {
			rep.Errorf(at, "Counts the wrong way round", "%s comes after %s in the bar, and so must its count, which "+
				"is not after %s.", w.text, words[i-1].text, m.CountAt(starts[i-1]))
			return nil
		}
		starts[i] = tick
	}
	return starts
}
