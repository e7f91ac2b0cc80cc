package meter

import "strconv"

// A Count is a spoken count of a bar: "1", "2&", "3e", "4a", "1t", "1l".
//
// The number counts the meter's units of 1/Den from 1: quarters in 4/4, halves
// in 2/2, eighths in 6/8, 9/8, 12/8, 5/8 and 7/8. The letter divides that unit,
// whatever it is: & is its half, e its first quarter, a its third quarter; t and
// l (one-trip-let) are its thirds. So 4& in 12/8 is a sixteenth after the fourth
// eighth. Every count is a whole number of ticks in every meter Parse takes.
type Count struct {
	N   int  // from 1
	Sub byte // 0, '&', 'e', 'a', 't' or 'l'
	// Off and End are where the count stands in the place's text, in bytes.
	Off, End int
}

// subdivisions are the letters with the part of a unit they stand for: common
// practice, no single source (one-e-and-a, one-trip-let).
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

// CountAt names the count at a tick of a bar, the tick counted from the bar
// line: "3", "4&". A tick between the spoken counts is written as the count
// before it and the ticks past it, "2+35", so that no two ticks share a name.
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

// NextBeat is the first felt beat after tick, both in ticks from the bar line;
// the bar's length when none is left in the bar.
func (m Meter) NextBeat(tick int64) int64 {
	for _, b := range m.Beats() {
		if b > tick {
			return b
		}
	}
	return m.BarTicks()
}
