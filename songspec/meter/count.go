package meter

import "strconv"

// A Count is a spoken count of a bar: "1", "2&", "3e", "4a", "1t", "1l".
//
// The number counts the meter's units of 1/Den from 1: quarters in 4/4, halves in 2/2,
// eighths in 6/8 and 7/8. The letter is a place inside that unit: & is half way through
// it, e a quarter, a three quarters, t a third and l (one-trip-let) two thirds. So 4& in
// 12/8 is a sixteenth after the fourth eighth. Every count is a whole number of ticks in
// every meter that Parse takes.
type Count struct {
	N   int  // from 1
	Sub byte // 0, '&', 'e', 'a', 't' or 'l'
	// Off and End are where the count stands in the place's text, in bytes.
	Off, End int
}

// subdivisions are the letters of a count, with how much of the unit is over there. Common
// practice, no single source: one-e-and-a, one-trip-let.
var subdivisions = [...]struct {
	letter   byte
	num, den int64
}{
	{0, 0, 1},
	{'e', 1, 4},
	{'t', 1, 3},
	{'&', 1, 2},
	{'l', 2, 3},
	{'a', 3, 4},
}

// String is the count as it is spoken: "2&".
func (c Count) String() string {
	if c.Sub == 0 {
		return strconv.Itoa(c.N)
	}
	return strconv.Itoa(c.N) + string(c.Sub)
}

// Tick is where the count stands in a bar of meter m, in ticks from the bar
// line; ok is false when the bar has no such count.
func (c Count) Tick(m Meter) (tick int64, ok bool) {
	if c.N < 1 || c.N > m.Num {
		return 0, false
	}
	for _, s := range subdivisions {
		if s.letter == c.Sub {
			unit := m.UnitTicks()
			return int64(c.N-1)*unit + unit*s.num/s.den, true
		}
	}
	return 0, false
}

// CountAt is the count at a tick from the bar line: "3", "4&". A tick between the spoken
// counts is the number before it and the ticks since then, "2+35", so that no two ticks
// have the same name.
func (m Meter) CountAt(tick int64) string {
	unit := m.UnitTicks()
	n := tick / unit
	rest := tick - n*unit
	if rest < 0 {
		n, rest = n-1, rest+unit
	}
	name := strconv.FormatInt(n+1, 10)
	for _, s := range subdivisions {
		if unit*s.num/s.den == rest {
			if s.letter == 0 {
				return name
			}
			return name + string(s.letter)
		}
	}
	return name + "+" + strconv.FormatInt(rest, 10)
}

// NextBeat is the first felt beat after a tick, both in ticks from the bar line; the bar's
// length if there is none.
func (m Meter) NextBeat(tick int64) int64 {
	for _, b := range m.Beats() {
		if b > tick {
			return b
		}
	}
	return m.BarTicks()
}
