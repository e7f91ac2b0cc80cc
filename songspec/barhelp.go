package songspec

import (
	"fmt"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/wording"
)

// barHelp says how to write a bar that does not add up.
func barHelp(bar *writtenBar, m meter.Meter) string {
	beats := len(m.Beats())
	slashes := 0
	for _, w := range bar.words {
		if w.slash {
			slashes++
		}
	}
	if slashes == len(bar.words) {
		return fmt.Sprintf("Each / is one beat, and a bar of %s has %s. Write %% to play the bar before again, or %s "+
			"to hold its chord.", m, wording.Count(beats, "beat"), example(bar, beats))
	}
	what := wording.Count(len(bar.words)-slashes, "chord")
	if slashes > 0 {
		what += " and " + wording.Count(slashes, "slash")
	}
	if m.Den < 4 && len(bar.words) > beats && len(bar.words) <= inQuarters(m).Num {
		return fmt.Sprintf("%s are too many for a bar of %s, which has %s.%s For a chart in quarters write meter = "+
			"%q and a feel for it; the tempo then counts quarters, so write it %s as fast.",
			what, m, wording.Count(beats, "beat"), onCounts(bar, m), inQuarters(m), timesAsFast(m))
	}
	if len(bar.words) > beats && (slashes == 0 || len(bar.words) > m.Num) {
		help := "Move some into a bar of their own"
		if slashes == 0 {
			help += fmt.Sprintf(", or say on which count each comes, like %s@2&", bar.words[len(bar.words)-1].text)
		}
		return fmt.Sprintf("%s are too many for a bar of %s, which has %s: at most one a beat. %s.",
			what, m, wording.Count(beats, "beat"), help)
	}
	if slashes > 0 {
		return fmt.Sprintf("%s make %s, but a bar of %s has %d: each chord and each / is one beat. Write for "+
			"example | %s |.",
			what, wording.Count(len(bar.words), "beat"), m, beats, example(bar, beats))
	}
	return fmt.Sprintf("%s do not share the %s of %s evenly (%s would). Say with / how long each lasts, for example "+
		"| %s |.",
		what, wording.Count(beats, "beat"), m, evenly(beats), example(bar, beats))
}

// onCounts says how a bar that is written in quarters is written in a meter of halves: its chords
// with their counts, where they are not one a beat. Empty where the bar is not full of quarters.
func onCounts(bar *writtenBar, m meter.Meter) string {
	if len(bar.words) != inQuarters(m).Num || bar.words[0].slash {
		return ""
	}
	plain, counted, offBeats := "", "", false
	for i, w := range bar.words {
		if !w.slash {
			plain += " " + w.text
			counted += fmt.Sprintf(" %s@%s", w.text, m.CountAt(int64(i)*meter.TicksPerQuarter))
			offBeats = offBeats || int64(i)*meter.TicksPerQuarter%m.UnitTicks() != 0
		}
	}
	if !offBeats && len(strings.Fields(plain)) == len(m.Beats()) { // one chord a beat
		counted = plain
	}
	return fmt.Sprintf(" Write |%s |.", strings.Replace(counted, "@1 ", " ", 1))
}

// example is the bar filled up with slashes after its chords. The first chords last longest.
func example(bar *writtenBar, beats int) string {
	var chords []string
	for _, w := range bar.words {
		if !w.slash && len(chords) < beats {
			chords = append(chords, w.text)
		}
	}
	if len(chords) == 0 {
		return strings.TrimSpace(strings.Repeat("/ ", beats))
	}
	var out []string
	left := beats
	for i, c := range chords {
		per := (left + len(chords) - i - 1) / (len(chords) - i)
		left -= per
		out = append(out, c+strings.Repeat(" /", per-1))
	}
	return strings.Join(out, " ")
}

// evenly lists how many chords can share so many beats evenly: "1, 2 or 4".
func evenly(beats int) string {
	var out []string
	for n := 1; n <= beats; n++ {
		if beats%n == 0 {
			out = append(out, fmt.Sprint(n))
		}
	}
	return wording.Or(out)
}
