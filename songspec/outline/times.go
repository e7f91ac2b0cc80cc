package outline

import (
	"fmt"

	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// barTime says when a bar comes, with a blank before it.
type barTime func(p *timeline.Pass, bar *timeline.Bar) string

// timesOf says when the bars of a song come.
func timesOf(t *timeline.Timeline) barTime {
	clock := timeline.NewClock(t.Tempos)
	return func(p *timeline.Pass, bar *timeline.Bar) string {
		micros := clock.Micros(p.Start+bar.Start) - clock.Micros(t.Lead)
		s := fmt.Sprintf(" %7s", timeline.MinSecTenths(micros))
		if t.Picture != nil {
			s += "  " + t.Picture.Code(micros)
		}
		return s
	}
}

// picture is the picture of a song, "" for none.
func picture(p *timeline.Picture) string {
	if p == nil {
		return ""
	}
	return fmt.Sprintf("%s frames a second, bar 1 at %s", p.Count.Name, p.Code(0))
}

// LastTime says behind which of its times a song is played as written: " from the cue "door" in "chorus"
// on"; "" where it has none.
func LastTime(t *timeline.Timeline) string {
	if len(t.Landings) == 0 {
		return ""
	}
	return fmt.Sprintf(" from %s on", t.Landings[len(t.Landings)-1].What)
}

// landings are the places of a song that have a time, one in a line.
func landings(t *timeline.Timeline) []string {
	var out []string
	for _, l := range t.Landings {
		at := timeline.MinSecTenths(l.Micros)
		if t.Picture != nil {
			at = t.Picture.Code(l.Micros)
		}
		sign := ""
		if l.Change > 0 {
			sign = "+"
		}
		out = append(out, fmt.Sprintf("%s at %s, tempo %s%s %%", l.What, at, sign, wording.Thousandths(l.Change*10)))
	}
	return out
}
