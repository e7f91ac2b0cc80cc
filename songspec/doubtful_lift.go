package songspec

import (
	"slices"
	"strings"

	"plinth/songspec/harmony"
)

// moved is where the plays of a chart put it.
type moved struct {
	chart    *chart
	section  *section
	written  harmony.Key
	sounding harmony.Key // before the song's transpose
	several  bool        // not all of its plays put it there
}

// addMoved keeps where a play puts the letters of its section.
func (r *resolver) addMoved(s *section, key keys) {
	if s.chords == nil || s.loan != nil {
		return
	}
	sounding := key.sounding.Transpose(-r.tl.Transpose)
	i := slices.IndexFunc(r.moved, func(m moved) bool { return m.chart == s.chords })
	if i < 0 {
		r.moved = append(r.moved, moved{s.chords, s, key.written, sounding, false})
	} else if m := &r.moved[i]; m.written != key.written || m.sounding != sounding {
		m.several = true
	}
}

// longestOffer is how many symbols are offered in place of others.
const longestOffer = 8

// doubtLifted warns of letters that are written in the key to which a lift has come, its tonic among them, where
// the lift moves them once more: whoever writes the coda after a lift may write what is to be heard.
func (r *resolver) doubtLifted() {
	for _, m := range r.moved {
		if m.several || m.written == m.sounding ||
			r.keyFit(m.chart, m.sounding)-r.keyFit(m.chart, m.written) < keyMargin {
			continue
		}
		var first *chartWord
		var offers, seen []string
		tonic := false
		for _, w := range m.chart.writtenChords() {
			chord, numeral, err := harmony.ParseEither(w.text, m.written)
			if err != nil || numeral || chord.None || slices.Contains(seen, w.text) {
				continue
			}
			if first == nil {
				first = w
			}
			seen = append(seen, w.text)
			tonic = tonic || chord.Root == m.sounding.Tonic && chord.PCSet()&^m.sounding.PCSet() == 0
			offers = append(offers, chord.Transpose(m.sounding, m.written).String()+" for "+w.text)
		}
		if !tonic {
			continue
		}
		if len(offers) > longestOffer {
			offers = append(offers[:longestOffer], "and so on")
		}
		r.rep.Warnf(first.rng(), "Letters that a lift moves once more",
			"The letters of section %q read as %s, to which the song has been lifted. But letters are written in %s "+
				"and move with the lift. Write %s.", m.section.name, m.sounding, m.written, strings.Join(offers, ", "))
	}
}
