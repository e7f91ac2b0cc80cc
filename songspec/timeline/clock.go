package timeline

import (
	"fmt"
	"sort"

	"plinth/songspec/meter"
)

// Clock turns ticks into time and back by a tempo map: that of a song, or of a pass. It is
// exact: a moment is kept in microseconds times ticks a quarter and divided only when it is
// read.
type Clock struct {
	tempos []Tempo
	sums   []int64 // up to each tempo, in microseconds × TicksPerQuarter
}

// defaultMicros is 120 quarters a minute, what a MIDI file without a tempo has (Standard
// MIDI Files 1.0).
const defaultMicros = 500_000

// NewClock makes a clock of a tempo map: ascending, the first at tick 0. Without any tempo
// it runs at 120 quarters a minute.
func NewClock(tempos []Tempo) *Clock {
	if len(tempos) == 0 {
		tempos = []Tempo{{Micros: defaultMicros}}
	}
	c := &Clock{tempos: tempos, sums: make([]int64, len(tempos))}
	for i := 1; i < len(tempos); i++ {
		c.sums[i] = c.sums[i-1] + (tempos[i].Tick-tempos[i-1].Tick)*tempos[i-1].Micros
	}
	return c
}

// index is the tempo in force at a tick; before tick 0 the first one rules.
func (c *Clock) index(tick int64) int {
	if len(c.tempos) == 1 || tick < c.tempos[1].Tick {
		return 0 // most passes have but one
	}
	return max(0, sort.Search(len(c.tempos), func(i int) bool { return c.tempos[i].Tick > tick })-1)
}

// Micros is the moment of a tick in microseconds from tick 0, rounded toward it.
func (c *Clock) Micros(tick int64) int64 { return c.Exact(tick) / meter.TicksPerQuarter }

// Exact is the moment of a tick from tick 0, in microseconds × TicksPerQuarter.
func (c *Clock) Exact(tick int64) int64 {
	i := c.index(tick)
	return c.sums[i] + (tick-c.tempos[i].Tick)*c.tempos[i].Micros
}

// Ticks is the length in ticks of a displacement of us microseconds from a tick,
// rounded to the nearest: a positive one is measured at the tempo from the tick
// on, a negative one at the tempo that leads up to it.
func (c *Clock) Ticks(tick, us int64) int64 {
	if us < 0 {
		m := c.QuarterAt(tick - 1)
		return -((-us*meter.TicksPerQuarter + m/2) / m)
	}
	m := c.QuarterAt(tick)
	return (us*meter.TicksPerQuarter + m/2) / m
}

// Shift is the tick that lies us microseconds after tick.
func (c *Clock) Shift(tick, us int64) int64 { return tick + c.Ticks(tick, us) }

// QuarterAt is a quarter at the tempo of a tick, in microseconds.
func (c *Clock) QuarterAt(tick int64) int64 { return max(1, c.tempos[c.index(tick)].Micros) }

// SongMicros is how long the song lasts from bar 1 to its last bar line; the
// bars in front do not count.
func (t *Timeline) SongMicros() int64 {
	c := NewClock(t.Tempos)
	return c.Micros(t.End) - c.Micros(t.Lead)
}

// Micros is how long the pass lasts.
func (p *Pass) Micros() int64 { return NewClock(p.Tempos).Micros(p.Length) }

// SongBars is the number of bars of the song, those in front not among them.
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
