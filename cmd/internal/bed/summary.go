package bed

import (
	"fmt"
	"strings"

	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Summary says in one line what was made: bars, length, keys, players, and where bar 1
// stands when bars lie before it. It needs a Performance.
func (r *Result) Summary() string {
	tl := r.Timeline
	parts := []string{wording.Count(tl.SongBars(), "bar"), timeline.MinSec(tl.SongMicros()), keyWords(tl.Keys),
		r.playerWords()}
	switch {
	case r.part != "" && tl.LeadBars > 0:
		parts = append(parts, r.barWords()+" after "+wording.Count(tl.LeadBars, "bar")+" in front")
	case r.part != "":
		parts = append(parts, r.barWords())
	case tl.LeadBars > 0:
		parts = append(parts, fmt.Sprintf("bar 1 of the song is bar %d of the file", tl.LeadBars+1))
	}
	return strings.Join(parts, ", ")
}

// barWords says which bars of the song a part is.
func (r *Result) barWords() string {
	var runs []string
	passes := r.Timeline.Passes
	for i := 0; i < len(passes); {
		first := passes[i].FirstBar
		next := first
		for ; i < len(passes) && passes[i].FirstBar == next; i++ {
			next += len(passes[i].Bars)
		}
		run := fmt.Sprint(first)
		if next-first > 1 {
			run = fmt.Sprintf("%d-%d", first, next-1)
		}
		runs = append(runs, run)
	}
	word := "bars "
	if r.Timeline.SongBars() == 1 {
		word = "bar "
	}
	return word + strings.Join(runs, ", ") + " of the song"
}

// playerWords names who plays, in the order of the file.
func (r *Result) playerWords() string {
	var who []string
	for p, notes := range r.Performance.Parts {
		if len(notes) > 0 {
			who = append(who, timeline.PlayerNames[p])
		}
	}
	if len(r.Performance.Click) > 0 {
		who = append(who, "click")
	}
	switch n := len(who); n {
	case 0:
		return "nobody plays"
	case 1:
		return who[0]
	default:
		return strings.Join(who[:n-1], " ") + " and " + who[n-1]
	}
}

// keyWords is the key of the song, or the first and the last one and how many there are.
func keyWords(changes []timeline.KeyChange) string {
	seen := map[string]bool{}
	for _, c := range changes {
		seen[c.Key.String()] = true
	}
	first, last := changes[0].Key.String(), changes[len(changes)-1].Key.String()
	switch {
	case len(seen) == 1:
		return first
	case len(seen) == 2 && first != last:
		return first + " to " + last
	}
	return fmt.Sprintf("%s to %s over %d keys", first, last, len(seen))
}
