package cue

import "sort"

// Stretch is a stretch of ticks, its end not included.
type Stretch struct{ Start, End int64 }

// Stretches are stretches in order that do not touch. A song may have thousands.
type Stretches []Stretch

// At is the stretch that holds a tick, if any does.
func (s Stretches) At(tick int64) (Stretch, bool) {
	i := sort.Search(len(s), func(i int) bool { return s[i].End > tick })
	if i < len(s) && s[i].Start <= tick {
		return s[i], true
	}
	return Stretch{}, false
}

// Has reports whether a tick lies in one of them.
func (s Stretches) Has(tick int64) bool {
	_, has := s.At(tick)
	return has
}

// Next is the start of the first stretch that begins after a tick, or limit if none begins
// before that.
func (s Stretches) Next(tick, limit int64) int64 {
	i := sort.Search(len(s), func(i int) bool { return s[i].Start > tick })
	if i < len(s) {
		return min(limit, s[i].Start)
	}
	return limit
}

// Over reports whether one of them overlaps the stretch from start to end.
func (s Stretches) Over(start, end int64) bool {
	i := sort.Search(len(s), func(i int) bool { return s[i].End > start })
	return i < len(s) && s[i].Start < end
}

// with adds a stretch that begins no earlier than the last one. If the two touch, they become
// one.
func (s Stretches) with(start, end int64) Stretches {
	if n := len(s); n > 0 && start <= s[n-1].End {
		s[n-1].End = max(s[n-1].End, end)
		return s
	}
	return append(s, Stretch{start, end})
}
