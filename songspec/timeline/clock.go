package timeline

import (
	"fmt"
	"sort"

	"plinth/songspec/meter"
)

// Clock turns ticks into time by a tempo map. It sums exactly and rounds only the result.
type Clock struct {
	tempos []Tempo
	sums   []int64 // time up to each tempo, in microseconds × TicksPerQuarter
}

// NewClock makes a clock of a tempo map whose ticks ascend, the first one 0.
func NewClock(tempos []Tempo) *Clock {
	c := &Clock{tempos: tempos, sums: make([]int64, len(tempos))}
	for i := 1; i < len(tempos); i++ {
		c.sums[i] = c.sums[i-1] + (tempos[i].Tick-tempos[i-1].Tick)*tempos[i-1].Micros
	}
	return c
}

// Micros is the time from tick 0 to a tick in microseconds, rounded down; 0 without tempos.
func (c *Clock) Micros(tick int64) int64 {
	if len(c.tempos) == 0 {
		return 0
	}
	i := max(0, sort.Search(len(c.tempos), func(i int) bool { return c.tempos[i].Tick > tick })-1)
	return (c.sums[i] + (tick-c.tempos[i].Tick)*c.tempos[i].Micros) / meter.TicksPerQuarter
}

// SongMicros is how long the song lasts in microseconds, from bar 1 to its last bar line.
func (t *Timeline) SongMicros() int64 {
	c := NewClock(t.Tempos)
	return c.Micros(t.End) - c.Micros(t.Lead)
}

// Micros is how long the pass lasts in microseconds.
func (p *Pass) Micros() int64 { return NewClock(p.Tempos).Micros(p.Length) }

// SongBars is the number of bars of the song, without those in front of bar 1.
func (t *Timeline) SongBars() int {
	n := 0
	for i := range t.Passes {
		n += len(t.Passes[i].Bars)
	}
	return n
}

// MinSec writes microseconds as minutes and seconds, to the nearest second:
// "3:07".
func MinSec(micros int64) string {
	s := (micros + 500_000) / 1_000_000
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}
