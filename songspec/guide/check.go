package guide

import (
	"cmp"
	"fmt"
	"sort"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Check is what `plinth check` says about one of the song's vocals: the three worst clashes and
// how many there are, the worst alone where so much clashes that the guide must be another one,
// notes outside the singer's range, and a space in which the guide sings. All are warnings.
func Check(tl *timeline.Timeline, singer int) []Problem {
	v := &tl.Vocals[singer]
	var out problems
	clashes, _ := Clashes(tl, singer)
	shown := 3
	if len(v.Notes) >= fewestNotes && 3*len(clashes) > len(v.Notes) {
		shown = 1
	}
	for i, c := range clashes[:min(shown, len(clashes))] {
		worst := ""
		if i == 0 && len(clashes) > shown {
			worst = fmt.Sprintf(" Of %d that do so it is the worst.", len(clashes))
		}
		out.add("", wording.Sentence("%s", c), "It lies a semitone above the chord's %s and is held for %s.%s", c.Tone,
			beatsWord(c.Over*1000/beatAt(tl, c.At.Tick)), worst)
	}
	out = append(out, outOfRange(tl, v)...)
	out = append(out, farFromVoices(tl, v)...)
	for _, s := range Spaces(tl) {
		k := sort.Search(len(v.Notes), func(k int) bool { return v.Notes[k].Tick >= s.Start })
		if k < len(v.Notes) && v.Notes[k].Tick < s.End {
			n := v.Notes[k]
			out.add("", "The guide sings in a space",
				"It sings %s at %s, where the song file has the singer silent; the space is believed.",
				PitchName(int(n.Key), keyAt(tl, n.Tick)), At(tl, n.Tick).Words())
		}
	}
	return out
}

// outOfRange warns of notes outside the singer's range, and says where the guide would fit it
// in another octave: a tenor's line that is played as it is written in the treble clef is an
// octave high. At least a fifth of the notes must be outside, and 19 of 20 must fit then.
func outOfRange(tl *timeline.Timeline, v *timeline.Vocal) (out problems) {
	if v.RangeLow == 0 && v.RangeHigh == 0 {
		return nil
	}
	for _, side := range []struct {
		limit, up     int
		word          string
		better, wrong string
	}{
		{v.RangeHigh, 1, "above", "lower", "high, as a tenor's line in the treble clef is"},
		{v.RangeLow, -1, "below", "higher", "low"},
	} {
		count, fit, far := 0, 0, 0
		var worst timeline.SungNote
		for _, n := range v.Notes {
			d := side.up * (int(n.Key) - side.limit)
			if d > 0 {
				count++
			}
			if d > far {
				far, worst = d, n
			}
			if k := int(n.Key) - 12*side.up; v.RangeLow <= k && k <= v.RangeHigh {
				fit++
			}
		}
		if count == 0 {
			continue
		}
		octave := ""
		if 5*count >= len(v.Notes) && 20*fit >= 19*len(v.Notes) {
			octave = fmt.Sprintf(" An octave %s %d of %d would fit: the guide may be written an octave too %s. "+
				"Export it in the octave in which it is sung: the comp's ceiling follows it.",
				side.better, fit, len(v.Notes), side.wrong)
		}
		k := keyAt(tl, worst.Tick)
		limits := cmp.Or(v.Range, PitchName(v.RangeLow, k)+" to "+PitchName(v.RangeHigh, k))
		out.add("range", "The voice leaves the singer's range",
			"Sung %s, %s, lies %s the range %s; %d of %d notes do.%s", PitchName(int(worst.Key), k),
			At(tl, worst.Tick).Words(), side.word, limits, count, len(v.Notes), octave)
	}
	return out
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
func farFromVoices(tl *timeline.Timeline, v *timeline.Vocal) (out problems) {
	if v.RangeLow != 0 || v.RangeHigh != 0 || len(v.Notes) < 8 {
		return nil
	}
	middle := RegisterOf(keysOf(v.Notes, sungKey)).Median
	word, half := "high", "above"
	if middle < lowMiddle {
		word, half = "low", "below"
	} else if middle <= highMiddle {
		return nil
	}
	out.add("", "A "+word+" voice",
		"Half of what the guide sings lies at or %s %s: if it is written an octave too %s, "+
			"export it where it is sung, since the comp keeps under it; if it is meant so, "+
			"say so with range = [lowest, highest].",
		half, PitchName(middle, keyAt(tl, v.Notes[0].Tick)), word)
	return out
}

// beatsWord is a number of thousandths of a beat in words, to a tenth: "1 beat", "2.5 beats".
func beatsWord(thousandths int64) string { return wording.Beats((thousandths + 50) / 100 * 100) }

// keyAt is the song's key at an absolute tick.
func keyAt(tl *timeline.Timeline, tick int64) harmony.Key {
	p := passNear(tl, tick)
	return p.KeyAt(tick - p.Start)
}
