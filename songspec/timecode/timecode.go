// Package timecode counts the frames of a picture, as SMPTE ST 12-1 has it: in go a rate and a
// time code as text, out come a frame and its time from the first, and back. Everything is an
// integer.
package timecode

import (
	"fmt"
	"strconv"
)

// Rate is how many frames a second has: num/den of them. A time code counts as many frames, whole,
// as base in each of its seconds.
type Rate struct {
	Name     string
	num, den int64
	base     int64
}

// Rates are the rates of film and television.
var Rates = []Rate{
	{"23.976", 24000, 1001, 24}, {"24", 24, 1, 24}, {"25", 25, 1, 25}, {"29.97", 30000, 1001, 30},
	{"30", 30, 1, 30}, {"50", 50, 1, 50}, {"59.94", 60000, 1001, 60}, {"60", 60, 1, 60},
}

// Drops reports whether the rate may be counted with dropped frames: a second of it is longer than
// the frames that it counts, by a thousandth, and it counts in thirties.
func (r Rate) Drops() bool { return r.den == 1001 && r.base%30 == 0 }

// Count is a rate and how its frames are counted.
type Count struct {
	Rate
	Drop bool // in each minute but every tenth the first two numbers (of 60, four) are left out
}

// Frame is the number of a frame from 00:00:00:00.
type Frame int64

// Error is what is wrong with a time code.
type Error struct{ Help string } // a sentence that says what to write

func (e *Error) Error() string { return e.Help }

// Parse reads a time code such as "01:02:10:00", or "01:02:10;00" where frames are dropped.
func Parse(s string, r Rate) (Frame, Count, error) {
	c := Count{Rate: r}
	if !IsCode(s) {
		return 0, c, &Error{`A time code is hours, minutes, seconds and frames: "01:02:10:00".`}
	}
	c.Drop = s[8] == ';'
	if c.Drop && !r.Drops() {
		return 0, c, &Error{fmt.Sprintf("At %s no frames are dropped: write \"%s:%s\".", r.Name, s[:8], s[9:])}
	}
	n := func(at int) int64 { i, _ := strconv.Atoi(s[at : at+2]); return int64(i) }
	h, m, sec, f := n(0), n(3), n(6), n(9)
	switch {
	case h > 23 || m > 59 || sec > 59:
		return 0, c, &Error{"Hours go to 23, minutes and seconds to 59."}
	case f >= r.base:
		return 0, c, &Error{fmt.Sprintf("At %s the frames of a second go from 00 to %d.", r.Name, r.base-1)}
	case c.Drop && sec == 0 && m%10 != 0 && f < c.dropped():
		return 0, c, &Error{fmt.Sprintf("The minute %s begins with frame %02d where frames are dropped: "+
			"write \"%s;%02d\".",
			s[3:5], c.dropped(), s[:8], c.dropped())}
	}
	minutes := h*60 + m
	frame := (minutes*60+sec)*r.base + f
	if c.Drop {
		frame -= c.dropped() * (minutes - minutes/10)
	}
	return Frame(frame), c, nil
}

// IsCode reports whether a text has the form of a time code.
func IsCode(s string) bool {
	if len(s) != 11 {
		return false
	}
	for i := range len(s) {
		switch sep := i%3 == 2; {
		case sep && s[i] != ':' && (i != 8 || s[i] != ';'), !sep && (s[i] < '0' || s[i] > '9'):
			return false
		}
	}
	return true
}

// dropped is how many numbers are left out in a minute.
func (c Count) dropped() int64 { return c.base / 15 }

// Code is the time code of a frame; after a day it begins again.
func (c Count) Code(frame Frame) string {
	n, sep := int64(frame), ":"
	if c.Drop {
		sep = ";"
		minute := 60*c.base - c.dropped()
		ten := 10*minute + c.dropped()
		tens, rest := floorDiv(n, ten), floorMod(n, ten)
		n += 9 * c.dropped() * tens
		if rest >= 60*c.base { // the first minute of ten is whole
			n += c.dropped() * ((rest-60*c.base)/minute + 1)
		}
	}
	n = floorMod(n, 24*60*60*c.base)
	s := n / c.base
	return fmt.Sprintf("%02d:%02d:%02d%s%02d", s/3600, s/60%60, s%60, sep, n%c.base)
}

// Micros is the time from one frame to another in microseconds, rounded to the nearest.
func (r Rate) Micros(from, to Frame) int64 {
	return floorDiv(2*int64(to-from)*1_000_000*r.den+r.num, 2*r.num)
}

// At is the frame that is nearest to a time after another frame, in microseconds.
func (r Rate) At(from Frame, micros int64) Frame {
	unit := 1_000_000 * r.den
	return from + Frame(floorDiv(2*micros*r.num+unit, 2*unit))
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

func floorMod(a, b int64) int64 { return a - b*floorDiv(a, b) }
