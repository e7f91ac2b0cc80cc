package room

import (
	"sort"

	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// measure fills what can be read from notes alone.
func (r *Report) measure(clock *guide.Clock, start, end int64) Scope {
	s := Scope{Start: start, End: end, Micros: clock.Micros(end) - clock.Micros(start)}
	beats := guide.Beats(r.tl, start, end) // thousandths
	if r.tl.Vocal != nil {
		var keys []int
		var onsets []int64
		for _, n := range r.sung(start, end) {
			keys, onsets = append(keys, int(n.Key)), append(onsets, n.Tick)
		}
		s.Voice = part(keys, onsets, beats)
	}
	loud := int64(0)
	for who := range r.meant {
		var keys []int
		var onsets []int64
		for _, n := range within(r.meant[who], start, end) {
			s.Plays |= timeline.Only(timeline.Player(who))
			keys, onsets = append(keys, int(n.key)), append(onsets, n.tick)
		}
		notes := r.perf.Parts[who]
		for i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick >= start }); i < len(notes) &&
			notes[i].Tick < end; i++ {
			loud += int64(notes[i].Velocity)
		}
		switch timeline.Player(who) {
		case timeline.Piano:
			s.Piano = part(keys, onsets, beats)
		case timeline.Bass:
			s.Bass = part(keys, onsets, beats)
		}
	}
	if beats > 0 {
		s.Loudness = int(loud * 1000 / beats)
	}
	s.Free = freeBands(s.Voice, s.Piano, s.Bass)
	s.Windows = guide.Within(r.tl, clock, r.Windows, start, end)
	s.Grid = r.grid(start, end)
	return s
}

// sung are the notes of the voice that begin in a stretch.
func (r *Report) sung(start, end int64) []timeline.SungNote {
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
const together = 120

// part is a line's register, nil when it is silent.
func part(keys []int, onsets []int64, beats int64) *Part {
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

// freeBands are the stretches of three semitones and more between what the parts
// use, from the compass's bottom up.
func freeBands(parts ...*Part) []Band {
	var used [][2]int
	for _, p := range parts {
		if p != nil {
			used = append(used, [2]int{p.P5, p.P95})
		}
	}
	sort.Slice(used, func(i, j int) bool { return used[i][0] < used[j][0] })
	var out []Band
	add := func(low, high int) {
		if high-low >= 3 {
			out = append(out, Band{low, high, seated(low, high, 12)})
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
