package songspec

import (
	"slices"
	"strconv"
	"strings"

	"plinth/songspec/harmony"
)

// endingText is the figure of an ending: 1. or 1,3. or 1-3. in one of the ways of engravers.
const endingText = `[0-9]+(?:[ \t]*[.,–—-]+[ \t]*[0-9]+)*\.`

var (
	endingFigure = pattern(`^(?:` + endingText + `)`)
	bareFigure   = pattern(`^\(?([1-9](?:[,-][1-9])*)(?:\.?\)|st|nd|rd|th)?[ \t]+([A-GivIV][^ \t\r\n|]*)`)
)

// readEnding reads the figure of an ending at the start of a bar, and returns the offset
// after it.
func (r *chartReader) readEnding(i, hi int) (end int, ok bool) {
	src := r.s.Src
	if m := endingFigure().Find(src[i:hi]); m != nil {
		r.startEnding(i, i+len(m), string(m[:len(m)-1]))
		return i + len(m), true
	}
	m := bareFigure().FindSubmatch(src[i:hi])
	if m == nil {
		return i, false
	}
	at := bareFigure().FindSubmatchIndex(src[i:hi])
	chord, _, _ := strings.Cut(string(m[2]), "@")
	if _, _, err := harmony.ParseEither(chord, harmony.Key{}); err != nil {
		return i, false
	}
	end = i + len(strings.TrimRight(string(src[i:i+at[4]]), " \t"))
	r.errorf(i, end, "An ending without its full stop", "The number of an ending has a full stop: |%s. %s.", m[1],
		m[2]).Write(r.s.Range(i, end), string(m[1])+".")
	r.startEnding(i, end, string(m[1]))
	return end, true
}

// timesOf are the numbers in the figure of an ending, in order; nil when they are no good,
// which is reported.
func (r *chartReader) timesOf(lo, hi int, figure string) []int {
	var times []int
	plain := strings.NewReplacer(" ", "", "\t", "", "–", "-", "—", "-").Replace(figure)
	plain = strings.ReplaceAll(plain, ".-", "-")
	if strings.ContainsAny(figure, "–—") {
		r.errorf(lo, hi, "A dash of another kind", "The dash between the numbers of endings is the plain hyphen of "+
			"the keyboard: |%s.", plain).Write(r.s.Range(lo, hi), plain+".")
	}
	for _, part := range strings.FieldsFunc(plain, func(c rune) bool { return c == '.' || c == ',' }) {
		a, b, isRange := strings.Cut(part, "-")
		if !isRange {
			b = a
		}
		from, err := strconv.Atoi(a)
		to, err2 := strconv.Atoi(b)
		if err != nil || err2 != nil || from < 1 || to > maxTimes || to < from {
			r.errorf(lo, hi, "Not the figure of an ending",
				"Endings are numbered upwards from 1 to %d, like |1. or |1,3. or |1-3.", maxTimes)
			return nil
		}
		for t := from; t <= to; t++ {
			times = append(times, t)
		}
	}
	slices.Sort(times)
	return times
}
