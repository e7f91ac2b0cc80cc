// Package meter reads the text of a meter ("7/8 2+2+3") or of a place ("4, 8: 2&") and
// returns musical time in whole ticks, 960 a quarter. Nothing is rounded: whatever is no
// whole number of ticks cannot be written, or is an error.
package meter

import (
	"fmt"
	"strconv"
	"strings"
)

// TicksPerQuarter is the resolution of all musical time in plinth. 960 can be divided by 2,
// 3, 4, 5, 6, 8, 12 and 16.
const TicksPerQuarter = 960

// Meter is a time signature of Num units of 1/Den. Groups, such as "2+2+3", says how the
// units are grouped; it is empty where nothing is said. It is a string so that meters can
// be compared with ==.
type Meter struct {
	Num, Den int
	Groups   string
}

// Common is 4/4.
var Common = Meter{Num: 4, Den: 4}

// Parse reads "4/4", "12/8" or "7/8 2+2+3". The numerator is 1 to 32, the denominator 1, 2,
// 4, 8, 16 or 32; groups must add up to the numerator. The error says what is wrong.
func Parse(s string) (Meter, error) {
	sig, groups, hasGroups := strings.Cut(strings.TrimSpace(s), " ")
	num, den, ok := strings.Cut(sig, "/")
	if !ok {
		return Meter{}, fmt.Errorf("a meter is written like 4/4 or 7/8 2+2+3")
	}
	n, err := strconv.Atoi(num)
	if err != nil || n < 1 || n > 32 || num != strconv.Itoa(n) {
		return Meter{}, fmt.Errorf("the upper number of a meter is a whole number from 1 to 32")
	}
	d, err := strconv.Atoi(den)
	if err != nil || d < 1 || d > 32 || d&(d-1) != 0 || den != strconv.Itoa(d) {
		return Meter{}, fmt.Errorf("the lower number of a meter is 1, 2, 4, 8, 16 or 32")
	}
	m := Meter{Num: n, Den: d}
	if hasGroups {
		groups = strings.TrimSpace(groups)
		sum := 0
		for _, part := range strings.Split(groups, "+") {
			g, err := strconv.Atoi(part)
			if err != nil || g < 1 || part != strconv.Itoa(g) {
				return Meter{}, fmt.Errorf("the groups of a meter are written like 2+2+3")
			}
			sum += g
		}
		if sum != n {
			return Meter{}, fmt.Errorf("the groups %s add up to %d, but the meter has %d", groups, sum, n)
		}
		m.Groups = groups
	}
	return m, nil
}

// String is the meter as it is written in a song file.
func (m Meter) String() string {
	s := strconv.Itoa(m.Num) + "/" + strconv.Itoa(m.Den)
	if m.Groups != "" {
		s += " " + m.Groups
	}
	return s
}

// UnitTicks is the length of 1/Den in ticks.
func (m Meter) UnitTicks() int64 { return 4 * TicksPerQuarter / int64(m.Den) }

// BarTicks is the length of a bar in ticks.
func (m Meter) BarTicks() int64 { return int64(m.Num) * m.UnitTicks() }

// Compound reports whether the tempo counts dotted quarters, as in 6/8, 9/8 and 12/8, also
// with their groups of three written out. Common practice, no single source.
func (m Meter) Compound() bool {
	if m.Den != 8 || m.Num != 6 && m.Num != 9 && m.Num != 12 {
		return false
	}
	return m.Groups == "" || m.Groups == strings.TrimSuffix(strings.Repeat("3+", m.Num/3), "+")
}

// TempoTicks is the length in ticks of the beat that the tempo counts: a dotted quarter in
// compound meters, the unit in meters of halves (2/2, 3/2) or wholes, where charts and counts
// have it as the beat, too, and a quarter in all others.
func (m Meter) TempoTicks() int64 { return m.PlayedBeat() * m.QuartersAsOne() }

// PlayedBeat is the length in ticks of the beat by which players measure what they play: the
// one that the tempo counts, but a quarter in meters of halves and wholes. In 2/2 chords, lines
// and fills move as in 4/4; it is felt in two.
func (m Meter) PlayedBeat() int64 {
	if m.Compound() {
		return 3 * TicksPerQuarter / 2
	}
	return TicksPerQuarter
}

// QuartersAsOne is how many of the players' beats the tempo counts as one: 2 in meters of halves,
// 4 in meters of wholes, 1 in all others.
func (m Meter) QuartersAsOne() int64 {
	if m.Den == 1 || m.Den == 2 {
		return 4 / int64(m.Den)
	}
	return 1
}

// Beats are where the beats that a player feels begin, in ticks from the bar line: dotted
// quarters in compound meters, the groups where they are given or customary (5/8 is 3+2,
// 7/8 is 2+2+3), otherwise units of 1/Den. Common practice, no single source.
func (m Meter) Beats() []int64 {
	groups, step := m.Groups, 1
	switch { // the customary ones: common practice, no single source
	case groups != "":
	case m.Compound():
		step = 3
	case m.Den == 8 && m.Num == 7:
		groups = "2+2+3"
	case m.Den == 8 && m.Num == 5:
		groups = "3+2"
	}
	beats := make([]int64, 0, m.Num)
	for at := 0; at < m.Num; at += step {
		if groups != "" {
			var size string
			size, groups, _ = strings.Cut(groups, "+")
			step, _ = strconv.Atoi(size)
		}
		beats = append(beats, int64(at)*m.UnitTicks())
	}
	return beats
}
