package plan

import (
	"sort"

	"plinth/songspec/timeline"
)

// Clock turns the ticks of a pass into time and back, by its tempo map. Time is
// in microseconds from the start of the pass.
type Clock struct {
	tick   []int64 // where a tempo begins
	micros []int64 // a quarter, in microseconds
	at     []int64 // the time at tick
	least  []int64 // the length of the shortest note that is written, in ticks
}

// defaultMicros is 120 quarters a minute, what a MIDI file without a tempo has.
const defaultMicros = 500_000

// NewClock makes a clock of a pass's tempo map, its first tempo at tick 0. Without any it
// runs at 120 quarters a minute.
func NewClock(tempos []timeline.Tempo) *Clock {
	if len(tempos) == 0 {
		tempos = []timeline.Tempo{{Micros: defaultMicros}}
	}
	all := make([]int64, 0, 4*len(tempos))
	n := len(tempos)
	c := &Clock{tick: all[0:0:n], micros: all[n : n : 2*n], at: all[2*n : 2*n : 3*n], least: all[3*n : 3*n]}
	for i, t := range tempos {
		at := int64(0)
		if i > 0 {
			at = c.at[i-1] + (t.Tick-c.tick[i-1])*c.micros[i-1]/quarter
		}
		c.tick = append(c.tick, t.Tick)
		c.micros = append(c.micros, max(1, t.Micros))
		c.at = append(c.at, at)
		c.least = append(c.least, (shortestUS*quarter+c.micros[i]/2)/c.micros[i])
	}
	return c
}

// index is the tempo in force at a tick; before the pass the first one rules.
func (c *Clock) index(tick int64) int {
	if len(c.tick) == 1 || tick < c.tick[1] {
		return 0 // most passes have but one
	}
	return max(0, sort.Search(len(c.tick), func(i int) bool { return c.tick[i] > tick })-1)
}

// Micros is the time of a tick.
func (c *Clock) Micros(tick int64) int64 {
	i := c.index(tick)
	return c.at[i] + (tick-c.tick[i])*c.micros[i]/quarter
}

// Ticks is the length in ticks of a displacement of us microseconds from a tick,
// rounded to the nearest: a positive one is measured at the tempo from the tick
// on, a negative one at the tempo that leads up to it.
func (c *Clock) Ticks(tick, us int64) int64 {
	if us < 0 {
		m := c.micros[c.index(tick-1)]
		return -((-us*quarter + m/2) / m)
	}
	m := c.micros[c.index(tick)]
	return (us*quarter + m/2) / m
}

// QuarterAt is a quarter at the tempo of a tick, in microseconds.
func (c *Clock) QuarterAt(tick int64) int64 { return c.micros[c.index(tick)] }

// Shortest is the length in ticks of the Shortest note that is written, from tick.
func (c *Clock) Shortest(tick int64) int64 { return c.least[c.index(tick)] }

// Shift is the tick that lies us microseconds after tick.
func (c *Clock) Shift(tick, us int64) int64 { return tick + c.Ticks(tick, us) }

// shortestUS is the shortest note that is written, in microseconds.
const shortestUS = 10_000
