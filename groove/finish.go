package groove

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// played is a note on its way from the grid to the tick it is played at.
type played struct {
	*score.Note
	index      int32 // of the note among those that are meant
	start, end int64
	velocity   uint8
}

// finish plays what a player means: swing, timing and touch, and at the end what a file
// must hold to: no two notes of one pitch at once, none too short, none outside the
// pass. It is the only place where looseness counts, and changes no note of the score.
func (p *Plan) finish(who timeline.Player, notes []score.Note) []Note {
	if p.Pass.Tacet.Has(who) {
		return nil
	}
	velocities := p.dynamics(who, notes)
	h := p.human()
	fences := p.fences(who)
	out := slices.Grow(p.scratch.played[:0], len(notes))
	for i := range notes {
		n := &notes[i]
		us := h.stray(who, n)
		at := h.clock.Shift(p.Swung(n.At), us+int64(n.Roll)*1000)
		off := n.End()
		end := p.Swung(off)
		if off < p.Pass.Length {
			end = h.clock.Shift(end, h.drift(off))
		}
		low, high := fences.around(n)
		shortest := max(1, h.clock.Shortest(n.At))
		at = min(max(at, low), high-shortest)
		end = min(max(end, at+shortest), high)
		if at < low {
			continue // no room for a note at all
		}
		out = append(out, played{Note: n, index: int32(i), start: at, end: end, velocity: velocities[i]})
	}
	p.scratch.played = out
	byStart(out)
	if who == timeline.Drums {
		out = p.handSpeed(h.clock, fences, p.overBorder(who, h.clock, out))
	}
	switch who {
	case timeline.Bass:
		out = oneAtATime(h.clock, fences, out)
	case timeline.Piano:
		out = leftInTurn(h.clock, p.keySpeed(h.clock, fences, p.overBorder(who, h.clock, out)))
	}
	return separate(h.clock, out)
}

// fences are the ticks that neither a start nor an end may cross, in order: the
// pass's own borders and the stops; and with the bars of written hits, whose lines a
// pushed chord is tied over.
type fences struct{ hard, all []int64 }

func (p *Plan) fences(who timeline.Player) fences {
	low := int64(0)
	if pushes := p.Cues.Pushes(who); len(pushes) > 0 {
		low = min(low, pushes[0].From)
	}
	out := fences{hard: []int64{low, p.Cues.End(who)}}
	for _, s := range p.Cues.Silences(who) {
		out.hard = append(out.hard, s.Start, s.End)
	}
	if p.Cues.End(who) < p.Pass.Length { // struck here by the drummer; the others strike it in the next pass
		out.hard = append(out.hard, p.Pass.Length)
	}
	slices.Sort(out.hard)
	out.all = out.hard
	if slices.Contains(p.Cues.Alone, true) {
		out.all = slices.Clone(out.hard)
		for bar := range p.Pass.Bars {
			if p.Cues.Alone[bar] {
				out.all = append(out.all, p.Pass.Bars[bar].Start, p.BarEnd(bar))
			}
		}
		slices.Sort(out.all)
	}
	return out
}

// around are the fences on either side of a note. What is struck ahead of the first bar
// line was pushed there; no early hand goes over it.
func (f fences) around(n *score.Note) (low, high int64) {
	list := f.all
	if n.Art.Has(score.Pushed) {
		list = f.hard
	}
	i := sort.Search(len(list), func(i int) bool { return list[i] > n.At })
	low, high = list[max(0, i-1)], list[min(i, len(list)-1)]
	if n.At >= 0 {
		low = max(low, 0)
	}
	return low, high
}

// handSpeed holds the strokes as they are played to the limit of two hands and two
// feet: a stroke that timing brought too close comes as late as it must, or not at
// all when that would carry it over a fence. A grace stroke is part of the stroke
// it leads to: a drag's two are one hand's rebound.
func (p *Plan) handSpeed(c Clock, fences fences, notes []played) []played {
	last := p.lastStroke(timeline.Drums, c)
	var recent [3]latest
	out := notes[:0]
	for _, n := range notes {
		if n.Roll != 0 {
			out = append(out, n)
			continue
		}
		before := &recent[n.Voice.Limb()]
		together := 1
		if n.Voice.Limb() == feel.Hand {
			together = 2
		}
		if before.n >= together {
			us := c.Micros(n.start)
			if wait := before.at[2-together] + limbLimitUS - us; wait > 0 {
				late := c.Shift(n.start, wait)
				for c.Micros(late) < us+wait {
					late++ // ticks are coarser than microseconds
				}
				_, high := fences.around(n.Note)
				if n.start <= last {
					high = min(high, last+2)
				}
				if late+1 >= high {
					continue
				}
				n.end = max(n.end+late-n.start, late+1)
				n.end = min(n.end, high)
				n.start = late
			}
		}
		before.add(c.Micros(n.start))
		out = append(out, n)
	}
	byStart(out)
	return out
}

// latest are the latest two times of a limb's strokes, in order; with n less than
// 2 only the last n of them count.
type latest struct {
	at [2]int64
	n  int
}

func (l *latest) add(at int64) {
	switch {
	case l.n == 0 || at >= l.at[1]:
		l.at = [2]int64{l.at[1], at}
	case l.n == 1 || at > l.at[0]:
		l.at[0] = at
	}
	l.n = min(l.n+1, 2)
}

// legatoTicks: two bass notes closer than this on the grid follow without a gap.
const legatoTicks = 2

// oneAtATime ends every note where the next begins at the latest; notes that
// follow each other on the grid do so as played.
func oneAtATime(c Clock, fences fences, notes []played) []played {
	out := notes[:0]
	for i, n := range notes {
		if i+1 < len(notes) {
			next := &notes[i+1]
			if n.end > next.start || next.At-n.End() < legatoTicks {
				n.end = next.start
			} else if gap := next.At - n.End(); gap <= releaseTicks && next.start-gap > n.start {
				_, high := fences.around(n.Note)
				n.end = min(next.start-gap, high)
			}
		}
		if n.end-n.start < c.Shortest(n.start) && i+1 < len(notes) {
			continue
		}
		out = append(out, n)
	}
	return out
}

// separate ends a note where the next of the same pitch begins, drops what is left
// too short by it, and sorts by tick and key.
func separate(c Clock, notes []played) []Note {
	var last [128]int // index into out + 1
	out := make([]Note, 0, len(notes))
	for _, n := range notes {
		if j := last[n.Key] - 1; j >= 0 {
			before := &out[j]
			if before.Tick+before.Length > n.start {
				before.Length = n.start - before.Tick
			}
			if before.Length < c.Shortest(before.Tick) {
				// Two attacks in one: the louder, from the first on.
				before.Length = max(n.end-before.Tick, before.Length)
				before.Velocity = max(before.Velocity, n.velocity)
				continue
			}
		}
		last[n.Key] = len(out) + 1
		out = append(out, Note{Tick: n.start, Length: n.end - n.start, Meant: n.index, Key: n.Key, Velocity: n.velocity})
	}
	notesInOrder(out)
	return out
}
