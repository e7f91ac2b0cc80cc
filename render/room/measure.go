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
	sung := r.sungIn(start, end)
	s.Voice = newPart(sungKeys(sung), sungOnsets(sung), beats)
	for _, p := range playerRows {
		notes := beginningIn(r.meant[p.who], start, end)
		if len(notes) > 0 {
			s.Plays |= timeline.Only(p.who)
		}
		if p.pitched {
			s.Players[p.who] = newPart(meantKeys(notes), meantOnsets(notes), beats)
		}
	}
	if beats > 0 {
		s.Loudness = int(r.velocities(start, end) * 1000 / beats)
	}
	s.Free = freeRanges(s.registers())
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

// sungIn returns the singer's notes that begin from start on and before end.
func (r *Report) sungIn(start, end int64) []timeline.SungNote {
	if r.tl.Vocal == nil {
		return nil
	}
	notes := r.tl.Vocal.Notes
	i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick >= start })
	j := sort.Search(len(notes), func(j int) bool { return notes[j].Tick >= end })
	return notes[i:j]
}

// together is how far apart onsets may lie and still be one attack, in ticks: a
// thirty-second.
const together = meter.TicksPerQuarter / 8

// newPart is the register of some notes, nil when there are none. beats is the length of
// the stretch, in thousandths.
func newPart(keys []int, onsets []int64, beats int64) *Part {
	if len(keys) == 0 {
		return nil
	}
	p := &Part{Register: guide.RegisterOf(keys)}
	attacks, last := int64(0), int64(-1<<62)
	for _, t := range onsets {
		if t-last > together {
			attacks++
			last = t
		}
	}
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

// sungKeys are the MIDI notes of the singer's notes.
func sungKeys(notes []timeline.SungNote) []int {
	var out []int
	for _, n := range notes {
		out = append(out, int(n.Key))
	}
	return out
}

// sungOnsets are the ticks at which the singer's notes begin.
func sungOnsets(notes []timeline.SungNote) []int64 {
	var out []int64
	for _, n := range notes {
		out = append(out, n.Tick)
	}
	return out
}
