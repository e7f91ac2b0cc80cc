package room

import (
	"sort"

	"plinth/songspec/guide"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// measureScope measures what can be read from notes alone, between two absolute ticks.
func (r *Report) measureScope(start, end int64) Scope {
	s := Scope{Start: start, End: end, Micros: r.clock.Micros(end) - r.clock.Micros(start),
		Players: make([]*Part, len(r.meant))}
	beats := guide.Beats(r.tl, start, end) // thousandths
	s.Voice = newPart(beginningIn(r.sung, start, end), beats)
	for i := range r.lines {
		part := newPart(beginningIn(r.lines[i], start, end), beats)
		s.Singers = append(s.Singers, Singer{r.tl.Vocals[i].Called(), part})
	}
	for _, p := range playerRows {
		notes := beginningIn(r.meant[p.who], start, end)
		if len(notes) > 0 {
			s.Plays |= timeline.Only(p.who)
		}
		if p.pitched {
			s.Players[p.who] = newPart(notes, beats)
		}
	}
	if beats > 0 {
		s.Loudness = int(r.velocities(start, end) * 1000 / beats)
	}
	s.Free = freeRanges(s.parts())
	s.Windows = guide.Within(r.tl, r.clock, r.Windows, start, end)
	s.Grid = r.measureGrid(start, end)
	return s
}

// velocities is the sum of the velocities of the notes that the band plays between two
// absolute ticks.
func (r *Report) velocities(start, end int64) int64 {
	sum := int64(0)
	for _, notes := range r.perf.Parts {
		i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick >= start })
		for ; i < len(notes) && notes[i].Tick < end; i++ {
			sum += int64(notes[i].Velocity)
		}
	}
	return sum
}

// together is how far apart onsets may lie and still be one attack, in ticks: a
// thirty-second.
const together = meter.TicksPerQuarter / 8

// newPart is the register of some notes, nil when there are none. beats is the length of
// the stretch, in thousandths.
func newPart(notes []meant, beats int64) *Part {
	if len(notes) == 0 {
		return nil
	}
	keys := make([]int, len(notes))
	attacks, last := int64(0), int64(-1<<62)
	for i, n := range notes {
		keys[i] = n.key
		if n.tick-last > together {
			attacks++
			last = n.tick
		}
	}
	p := &Part{Register: guide.RegisterOf(keys)}
	if beats > 0 {
		p.Attacks = int(attacks * 1_000_000 / beats)
	}
	return p
}

// freeRanges returns the ranges of three semitones and more that no part uses, from the
// lowest up.
func freeRanges(parts []namedRegister) []FreeRange {
	var used [][2]int
	for _, p := range parts {
		if p.part != nil {
			used = append(used, [2]int{p.part.P5, p.part.P95})
		}
	}
	sort.Slice(used, func(i, j int) bool { return used[i][0] < used[j][0] })
	var out []FreeRange
	add := func(low, high int) {
		if high-low >= 3 {
			out = append(out, FreeRange{low, high, seatsWithin(low, high, 12)})
		}
	}
	at := compassLow
	for i, u := range used {
		if i > 0 || u[0]-1-at >= 12 { // a few notes below the bass are no room
			add(at, u[0]-1)
		}
		at = max(at, u[1]+1)
	}
	add(at, compassHigh)
	return out
}
