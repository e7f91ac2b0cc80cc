package guide

import (
	"fmt"
	"sort"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// Check is what `plinth check` says about the voice and the song: the three worst clashes and
// how many more there are, notes outside the singer's range, and a space in which the guide
// sings. All are warnings. Without a vocal there are none.
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
			Detail: fmt.Sprintf("It lies a semitone above the chord's %s and is held for %s.%s", c.Tone,
				beatsWord(c.Over*1000/beatAt(tl, c.At.Tick)), more)})
	}
	if r.Doubtful() {
		out = append(out, Problem{Attr: "from", Summary: "The voice does not fit the chords",
			Detail: fmt.Sprintf("%d of %d long notes on the beat lie a semitone above a chord tone; "+
				"in 19 songs of 20 it is fewer than 16 in 100. "+
				"The guide may start at another bar (from) or be in another key.", r.Rub, r.Long)})
	}
	out = append(out, outOfRange(tl)...)
	out = append(out, farFromVoices(tl)...)
	for _, s := range Spaces(tl) {
		notes := tl.Vocal.Notes
		k := sort.Search(len(notes), func(k int) bool { return notes[k].Tick >= s.Start })
		if k < len(notes) && notes[k].Tick < s.End {
			n := notes[k]
			out = append(out, Problem{Summary: "The guide sings in a space",
				Detail: fmt.Sprintf("The song file has the singer silent from %s, but the guide sings %s at %s; "+
					"the space is believed.",
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
			Detail: fmt.Sprintf("Sung %s, %s, lies %s the range %s to %s; %d of %d notes do.%s",
				PitchName(int(n.Key), k), At(tl, n.Tick), side.word,
				PitchName(v.RangeLow, k), PitchName(v.RangeHigh, k), count, len(v.Notes),
				octaveOff(v, side.word, count))})
	}
	return out
}

// octaveOff is a sentence for a guide that would fit the range in another octave: a tenor's
// line that is played as it is written in the treble clef is an octave high. At least a
// fifth of the notes must be outside, and 19 of 20 must fit then; otherwise it is "".
func octaveOff(v *timeline.Vocal, word string, outside int) string {
	move, where, off := -12, "lower", "high, as a tenor's line in the treble clef is"
	if word == "below" {
		move, where, off = 12, "higher", "low"
	}
	if 5*outside < len(v.Notes) {
		return ""
	}
	fit := 0
	for _, n := range v.Notes {
		if k := int(n.Key) + move; k >= v.RangeLow && k <= v.RangeHigh {
			fit++
		}
	}
	if 20*fit < 19*len(v.Notes) {
		return ""
	}
	return fmt.Sprintf(" An octave %s %d of %d would fit: the guide may be written an octave too %s. "+
		"Export it in the octave in which it is sung: the comp's ceiling follows it.", where, fit, len(v.Notes), off)
}

// A line whose middle note (the median, as a MIDI note number) lies over D#5 or under C3 is
// rarely in the octave in which it is sung. Measured on McGill Billboard and OpenScore
// Lieder: in pop songs the median is D4 for men and F4 for women; in art song it is A#4, and
// over E5 in one song of twenty. A bass in art song is about an octave lower (from memory).
const (
	highMiddle = 75
	lowMiddle  = 48
)

// farFromVoices warns of a guide that lies where few sing, if no range is given.
func farFromVoices(tl *timeline.Timeline) []Problem {
	v := tl.Vocal
	if v.RangeLow != 0 || v.RangeHigh != 0 || len(v.Notes) < 8 {
		return nil
	}
	keys := make([]int, len(v.Notes))
	for i, n := range v.Notes {
		keys[i] = int(n.Key)
	}
	middle := RegisterOf(keys).Median
	k := keyAt(tl, v.Notes[0].Tick)
	word, half := "high", "above"
	switch {
	case middle > highMiddle:
	case middle < lowMiddle:
		word, half = "low", "below"
	default:
		return nil
	}
	return []Problem{{Summary: "A " + word + " voice",
		Detail: fmt.Sprintf("Half of what the guide sings lies at or %s %s: if it is written an octave too %s, "+
			"export it where it is sung, since the comp keeps under it; if it is meant so, "+
			"say so with range = [lowest, highest].",
			half, PitchName(middle, k), word)}}
}

// beatsWord is a number of thousandths of a beat in words, to a tenth: "1 beat", "2.5 beats".
func beatsWord(thousandths int64) string {
	s := Thousandths((thousandths + 50) / 100 * 100)
	if s == "1" {
		return "1 beat"
	}
	return s + " beats"
}

// keyAt is the song's key at an absolute tick.
func keyAt(tl *timeline.Timeline, tick int64) harmony.Key {
	if i := max(0, tl.PassAt(tick)); i < len(tl.Passes) {
		return tl.Passes[i].Key
	}
	return harmony.Key{}
}

// Thousandths is a number of thousandths as a decimal without trailing zeros: 6000 is "6", 1500
// is "1.5", 667 is "0.667".
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
