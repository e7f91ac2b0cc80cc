package guide

import (
	"cmp"
	"slices"
	"sort"

	"plinth/songspec/timeline"
)

// Window is a stretch in which nobody sings: a rest of a beat or more, a space of the
// song file, or both in one.
type Window struct {
	Pass       int   // index of the pass it begins in, -1 in front of bar 1
	Start, End int64 // absolute ticks
	From, To   Position
	Beats      int64 // its length in thousandths of the beat that the tempo counts
	Micros     int64 // its length in microseconds
	Space      bool  // a space of the song file is part of it
}

// Span is a stretch of absolute ticks, its end not included.
type Span struct{ Start, End int64 }

// Windows are the windows of the whole song, in order, from its first beat (of the pickup, if
// any) to its last bar line. Without a vocal they are only the spaces.
func Windows(tl *timeline.Timeline) []Window {
	var spans []Span
	if notes := sungNotes(tl); notes != nil {
		at := tl.Lead - tl.Pickup
		end := timeline.SungNote{Tick: tl.End}
		for _, n := range append(slices.Clip(notes), end) {
			if Beats(tl, at, n.Tick) >= 1000 {
				spans = append(spans, Span{at, n.Tick})
			}
			at = max(at, n.Tick+n.Length)
		}
	}
	spaces := Spaces(tl)
	spans = merge(append(spans, spaces...))
	clock := timeline.NewClock(tl.Tempos)
	out := make([]Window, 0, len(spans))
	for _, s := range spans {
		w := measure(tl, clock, s)
		i := sort.Search(len(spaces), func(i int) bool { return spaces[i].End > s.Start })
		w.Space = i < len(spaces) && spaces[i].Start < s.End
		out = append(out, w)
	}
	return out
}

// Within are the windows cut to a stretch of absolute ticks, such as a pass. They may be
// shorter than a beat then.
func Within(tl *timeline.Timeline, clock *timeline.Clock, windows []Window, start, end int64) []Window {
	var out []Window
	i := sort.Search(len(windows), func(i int) bool { return windows[i].End > start })
	for ; i < len(windows) && windows[i].Start < end; i++ {
		w := windows[i]
		c := measure(tl, clock, Span{max(w.Start, start), min(w.End, end)})
		c.Space = w.Space
		out = append(out, c)
	}
	return out
}

func measure(tl *timeline.Timeline, clock *timeline.Clock, s Span) Window {
	w := Window{Start: s.Start, End: s.End, From: At(tl, s.Start), To: At(tl, s.End),
		Beats: Beats(tl, s.Start, s.End), Micros: clock.Micros(s.End) - clock.Micros(s.Start)}
	w.Pass = w.From.Pass
	return w
}

// Spaces are the space events of the song file in absolute ticks, in order; those that touch
// are one.
func Spaces(tl *timeline.Timeline) []Span {
	var out []Span
	for i := range tl.Passes {
		p := &tl.Passes[i]
		for _, e := range p.Events {
			if e.Kind == timeline.Space && e.End > e.Tick {
				out = append(out, Span{p.Start + e.Tick, min(p.Start+e.End, tl.End)})
			}
		}
	}
	return merge(out)
}

// merge sorts spans and joins those that touch.
func merge(spans []Span) []Span {
	slices.SortFunc(spans, func(a, b Span) int { return cmp.Compare(a.Start, b.Start) })
	var out []Span
	for _, s := range spans {
		if n := len(out); n > 0 && s.Start <= out[n-1].End {
			out[n-1].End = max(out[n-1].End, s.End)
			continue
		}
		out = append(out, s)
	}
	return out
}

// Beats is the length from start to end, in absolute ticks, as thousandths of a beat, rounded
// down. In each bar it counts the beat of the tempo there.
func Beats(tl *timeline.Timeline, start, end int64) int64 {
	// 11520 is a multiple of all beats, 960, 1440, 1920 and 3840, so the sum is exact.
	const unit = 11520
	sum := int64(0)
	for at := start; at < end; {
		stop := end
		if i := tl.PassAt(at); i < 0 {
			stop = min(end, tl.Passes[0].Start)
		} else {
			p := &tl.Passes[i]
			b := &p.Bars[p.BarAt(at-p.Start)]
			if barLine := p.Start + b.Start + b.Length; barLine > at {
				stop = min(end, barLine)
			}
		}
		sum += (stop - at) * unit / beatAt(tl, at)
		at = stop
	}
	return sum * 1000 / unit
}

// beatAt is the length of the beat that the tempo counts at an absolute tick.
func beatAt(tl *timeline.Timeline, tick int64) int64 { return passNear(tl, tick).Meter.TempoTicks() }
