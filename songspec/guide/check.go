package guide

import (
	"fmt"
	"sort"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// Check is what `plinth check` says about the voice and the song: clashes, the
// worst three in words; notes outside the singer's range; a space in which the
// guide sings. All are warnings.
func Check(tl *timeline.Timeline) []Problem {
	if tl.Vocal == nil {
		return nil
	}
	var out []Problem
	r := Clashes(tl)
	for i, c := range r.Clashes {
		if i == 3 {
			break
		}
		more := ""
		if i == 2 && len(r.Clashes) > 3 {
			more = fmt.Sprintf(" So do %d more.", len(r.Clashes)-3)
		}
		out = append(out, Problem{Summary: capital(c.String()),
			Detail: fmt.Sprintf("It lies a semitone above the chord's %s and is held for %s beats.%s", c.Tone, Thousandths(c.Over*1000/beatAt(tl, c.At.Tick)), more)})
	}
	if r.Doubtful() {
		out = append(out, Problem{Attr: "from", Summary: "The voice does not fit the chords",
			Detail: fmt.Sprintf("%d of %d long notes on the beat lie a semitone above a chord tone; in 19 songs of 20 it is fewer than 16 in 100. The guide may start at another bar (from) or be in another key.", r.Rub, r.Long)})
	}
	out = append(out, outOfRange(tl)...)
	for _, s := range Spaces(tl) {
		notes := tl.Vocal.Notes
		k := sort.Search(len(notes), func(k int) bool { return notes[k].Tick >= s.Start })
		if k < len(notes) && notes[k].Tick < s.End {
			n := notes[k]
			out = append(out, Problem{Summary: "The guide sings in a space",
				Detail: fmt.Sprintf("The song file has the singer silent from %s, but the guide sings %s at %s; the space is believed.",
					At(tl, s.Start), PitchName(int(n.Key), keyAt(tl, n.Tick)), At(tl, n.Tick))})
		}
	}
	return out
}

func outOfRange(tl *timeline.Timeline) []Problem {
	v := tl.Vocal
	if v.RangeLow == 0 && v.RangeHigh == 0 {
		return nil
	}
	var out []Problem
	for _, side := range []struct {
		word string
		far  func(k int) int // semitones outside on this side
	}{
		{"above", func(k int) int { return k - v.RangeHigh }},
		{"below", func(k int) int { return v.RangeLow - k }},
	} {
		count, worst, at := 0, 0, 0
		for i, n := range v.Notes {
			if d := side.far(int(n.Key)); d > 0 {
				count++
				if d > worst {
					worst, at = d, i
				}
			}
		}
		if count == 0 {
			continue
		}
		n := v.Notes[at]
		k := keyAt(tl, n.Tick)
		out = append(out, Problem{Attr: "range", Summary: "The voice leaves the singer's range",
			Detail: fmt.Sprintf("Sung %s, %s, lies %s the range %s to %s; %d of %d notes do.", PitchName(int(n.Key), k), At(tl, n.Tick), side.word,
				PitchName(v.RangeLow, k), PitchName(v.RangeHigh, k), count, len(v.Notes))})
	}
	return out
}

// keyAt is the key in force at an absolute tick.
func keyAt(tl *timeline.Timeline, tick int64) harmony.Key {
	if i := max(0, passAt(tl, tick)); i < len(tl.Passes) {
		return tl.Passes[i].Key
	}
	return harmony.Key{}
}

// Thousandths writes a number of thousandths without needless decimals: "6",
// "1.5", "0.667".
func Thousandths(n int64) string {
	if n < 0 {
		return "-" + Thousandths(-n)
	}
	s := fmt.Sprintf("%d.%03d", n/1000, n%1000)
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return s
}
