package groove

import (
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// Excerpt is some passes of a song that was performed as a whole: the song that has only these
// (see Timeline.Excerpt), and its notes as they were played. Passes that follow each other in
// the song are one stretch, and a stretch has what sounds between its first and its last bar
// line. The push that takes its first chord early is struck before it: so that chord begins
// with the bar line. A push into what follows is struck in its last bar, and stays up to the
// last bar line.
//
// The performance has no Passes: its notes no longer play a score.
func Excerpt(tl *timeline.Timeline, perf *Performance, which []int) (*timeline.Timeline, *Performance) {
	cut, stretches := tl.Excerpt(which)
	out := NewPerformance()
	for who, sounds := range perf.Sounds {
		out.Sounds[who] = soundsIn(stretches, sounds)
	}
	for who, notes := range perf.Parts {
		var part []Note
		for _, s := range stretches {
			for _, n := range notes {
				if s.Cut(&n.Tick, &n.Length) {
					n.Pass, n.Meant = 0, 0
					part = append(part, n)
				}
			}
		}
		touch.SortNotes(part)
		out.Parts[who] = part
	}
	if cut.CountIn > 0 {
		out.Click = click(cut)
	}
	return cut, out
}

// soundsIn are what a player plays on in the stretches of an excerpt, the first from tick 0 on.
func soundsIn(stretches []timeline.Stretch, sounds []Sound) []Sound {
	var out []Sound
	for _, s := range stretches {
		out = timeline.AppendMap(s, out, sounds, func(c *Sound) *int64 { return &c.Tick })
	}
	if len(out) > 0 {
		out[0].Tick = 0
	}
	return out
}
