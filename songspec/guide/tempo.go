package guide

import (
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// TempoMap is the file's tempo map on the song, whose bar from is the file's first: absolute
// ticks, ascending, the first at 0, each within the song. It is nil if the file has no tempo or
// the song no such bar. The file's first tempo also holds before it is written.
func (f *File) TempoMap(tl *timeline.Timeline, from int) []timeline.Tempo {
	at, ok := BarStart(tl, from)
	if !ok || len(f.Tempos) == 0 {
		return nil
	}
	l := layout{tl: tl, file: f, at: at - upbeat(f)}
	out := []timeline.Tempo{{Micros: f.Tempos[0].Micros}}
	for _, t := range f.Tempos {
		tick := max(0, l.tick(t.Tick))
		if tick >= tl.End {
			break
		}
		switch last := &out[len(out)-1]; {
		case last.Tick == tick: // of two at one place the later counts
			last.Micros = t.Micros
		case last.Micros != t.Micros:
			out = append(out, timeline.Tempo{Tick: tick, Micros: t.Micros})
		}
	}
	return out
}

// Clicks are the felt beats from one bar line of a song to another, the bars in front included, in
// absolute ticks; and behind them the bar line at which they end.
func Clicks(tl *timeline.Timeline, from, to int64) (out []int64) {
	add := func(at int64, m meter.Meter, length int64) { // an odd bar may be shorter than its meter
		for _, beat := range m.Beats() {
			if at+beat >= from && at+beat < to && beat < length {
				out = append(out, at+beat)
			}
		}
	}
	for at := int64(0); at < tl.Lead; at += tl.Passes[0].Meter.BarTicks() {
		add(at, tl.Passes[0].Meter, tl.Lead)
	}
	for i := max(0, tl.PassAt(from)); i < len(tl.Passes) && tl.Passes[i].Start < to; i++ {
		p := &tl.Passes[i]
		for j := p.BarAt(from - p.Start); j < len(p.Bars) && p.Start+p.Bars[j].Start < to; j++ {
			add(p.Start+p.Bars[j].Start, p.Bars[j].Meter, p.Bars[j].Length)
		}
	}
	return append(out, to)
}

// The click is drawn even over about two beats to either side, which takes out what a hand that
// taps a tempo does from beat to beat and leaves a rit its shape. But it never is further than
// clickDrift from the guide's own clock, in microseconds: whoever sings with the guide hears no
// click beside the voice. Two strokes 20 ms apart are heard as one, as a rule; it is also less
// than players stray from a click (common practice, no single source). Rounding to microseconds
// and ticks needs some of it.
const (
	evenings   = 8
	clickDrift = 18_000
)

// Smooth is a tempo map by which a click can follow a guide, whose clock is sung: one tempo from
// each click to the next, drawn even, with the clock at each click no more than clickDrift away
// from the guide's and at the first and the last one exactly there. The clicks are ascending
// ticks, two at least; the map begins at the first of them. A place where the guide keeps its
// tempo for some beats stays as it is.
//
// It smooths the moments of the clicks and no tempos, so that nothing adds up.
func Smooth(clicks []int64, sung *timeline.Clock) []timeline.Tempo {
	const drift = clickDrift * meter.TicksPerQuarter
	guide := make([]int64, len(clicks)) // in microseconds × TicksPerQuarter, as all moments here
	for i, tick := range clicks {
		guide[i] = sung.Exact(tick)
	}
	now, next := append([]int64{}, guide...), append([]int64{}, guide...)
	for range evenings {
		for i := 1; i+1 < len(clicks); i++ {
			// Where the click would fall at an even tempo between its neighbours.
			even := now[i-1] + (now[i+1]-now[i-1])*(clicks[i]-clicks[i-1])/(clicks[i+1]-clicks[i-1])
			next[i] = min(max((now[i]+even)/2, guide[i]-drift), guide[i]+drift)
		}
		now, next = next, now
	}
	var out []timeline.Tempo
	at := now[0]
	for i := 0; i+1 < len(clicks); i++ {
		ticks := clicks[i+1] - clicks[i]
		micros := max(1, (now[i+1]-at+ticks/2)/ticks)
		at += micros * ticks // what was rounded off goes to the next
		if n := len(out); n == 0 || out[n-1].Micros != micros {
			out = append(out, timeline.Tempo{Tick: clicks[i], Micros: micros})
		}
	}
	return out
}
