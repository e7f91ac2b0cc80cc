package pianist

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/songspec/cue"
)

// idle are the cues of events in which nobody of the band does anything.
var idle = []cue.Kind{cue.Space, cue.Rit, cue.Accel, cue.Signal}

// answerGap is the least distance in bars between two answers.
const answerGap = 4

// restWindows are the windows in which the singer rests after a phrase, or in which the song
// file writes a space. They are in order, within the pass, and each lasts two beats or more.
// The time before the first phrase is not one, as there is nothing to answer.
func (l *listener) restWindows() []cue.Stretch {
	var rests []cue.Stretch
	var last int64
	for i, s := range l.sung {
		if i > 0 && s.Tick > last {
			rests = append(rests, cue.Stretch{Start: last, End: s.Tick})
		}
		last = max(last, s.Tick+s.Length)
	}
	if len(l.sung) > 0 {
		rests = append(rests, cue.Stretch{Start: last, End: l.Pass.Length})
	}
	for i := range l.Cues.List {
		if q := &l.Cues.List[i]; q.Kind == cue.Space {
			rests = append(rests, cue.Stretch{Start: q.At, End: q.Until})
		}
	}
	sort.Slice(rests, func(i, j int) bool { return rests[i].Start < rests[j].Start })
	var out []cue.Stretch
	for _, r := range rests {
		r.Start, r.End = max(r.Start, 0), min(r.End, l.Pass.Length)
		if n := len(out); n > 0 && r.Start <= out[n-1].End {
			out[n-1].End = max(out[n-1].End, r.End)
		} else if r.End > r.Start {
			out = append(out, r)
		}
	}
	return slices.DeleteFunc(out, func(r cue.Stretch) bool {
		return r.End-r.Start < 2*l.Pass.Bars[l.BarAt(r.Start)].Meter.PlayedBeat()
	})
}

// addAnswers puts a small figure into windows: three single voices of the chord, or two where
// three have no room, half a beat apart. Strikes of the tab make room for it. It stays out of
// the last beat of a window, as the next phrase begins there, and does not come twice in four
// bars, not even over the border of a pass.
func (l *listener) addAnswers(c *Pianist, strikes []mark) []mark {
	next := 0
	if c.Pass.Before != nil {
		next = answerGap - 1
	}
	for _, w := range l.restWindows() {
		start, n := l.placeAnswer(c, w, next)
		if n == 0 {
			continue
		}
		bar := c.BarAt(start)
		half := c.Pass.Bars[bar].Meter.PlayedBeat() / 2
		out := make([]mark, 0, len(strikes)+n)
		for _, m := range strikes {
			if m.forced || m.tick < start || m.tick >= start+int64(n)*half {
				out = append(out, m)
			} else if m.left { // the bass goes on below
				m.part, m.up = 'b', false
				out = append(out, m)
			}
		}
		top := byte(c.voicings[c.changeAt(start)].N)
		figure := [3]byte{max(1, top-1), top, max(1, top-1)}
		if top >= 3 && c.Chance("comp answer").At(int64(bar)).Below(2) == 0 {
			figure = [3]byte{top - 2, top - 1, top}
		}
		for i, voice := range figure[:n] {
			at := start + int64(i)*half
			out = append(out, mark{tick: at, cue: -1, change: -1, part: '0' + voice, touch: feel.Soft, forced: true,
				ring:  true,
				least: at + 2*half, answer: true})
		}
		strikes = c.spaceOut(mergeMarks(out))
		next = bar + answerGap
	}
	return strikes
}

// placeAnswer finds the place of an answer in a window, and the number of notes that it has
// room for. It is the first free beat, at most four beats after the singer stops. n is 0 when
// there is no room.
func (l *listener) placeAnswer(c *Pianist, w cue.Stretch, next int) (start int64, n int) {
	bar := c.BarAt(w.Start)
	beat := c.Pass.Bars[bar].Meter.PlayedBeat()
	start = c.Pass.Bars[bar].Start
	for start < w.Start {
		start += beat
	}
	for until := start + 4*beat; start < until; start += beat {
		bar := c.BarAt(start)
		if bar < next || !answersSinger.At(c.Energy(bar)) {
			continue
		}
		for n := 3; n >= 2; n-- {
			last := start + int64(n-1)*beat/2
			if last < w.End-beat && l.hasToItself(c, bar, start, last+beat/2) {
				return start, n
			}
		}
	}
	return 0, 0
}

// hasToItself reports whether nothing else happens in the stretch of an answer: it must have
// one chord, no stop and no event.
func (l *listener) hasToItself(c *Pianist, bar int, start, end int64) bool {
	if c.alone[bar] || bar == c.Ending() || end > c.end {
		return false
	}
	i := c.changeAt(start)
	if i < 0 || i != c.changeAt(end-1) || c.voicings[i].N < 2 {
		return false
	}
	if ch := &c.changes[i]; ch.Pushed() && start <= ch.Nominal || start == ch.Start {
		return false
	}
	if c.silences.Has(start) || c.silences.Has(end-1) {
		return false
	}
	// Stops were looked at above, and idle cues do not matter. No other event reaches out of its bar.
	list := c.Cues.List
	from := c.Pass.Bars[bar].Start
	k := sort.Search(len(list), func(i int) bool { return list[i].At >= from })
	for ; k < len(list) && list[k].At < end; k++ {
		q := &list[k]
		until := max(q.Until, q.At+1)
		if q.Kind == cue.Chord {
			until = q.Target
		}
		if q.Event >= 0 && until > start && !slices.Contains(idle, q.Kind) {
			return false
		}
	}
	return true
}
