package feel

import "fmt"

// HandLimit is the shortest time in milliseconds between two strokes of one
// hand: ten a second, the rate of the single-stroke record held by one hand
// (WFD 2013: 1,208 strokes in 60 s with two hands).
const HandLimit = 100

// Clash says what one drummer cannot do at one step of some rows, or "" when
// all is well: no more than two hands, one foot on each pedal, and one thing at
// a time on the hi-hat. A flam or a drag takes both hands; so a third voice
// beside it is one too many. A brush that goes on sweeping (~) keeps its hand.
func Clash(rows []Row, step int) string {
	hands, feet := 0, [3]int{}
	hat := ""
	words := ""
	for _, r := range rows {
		s := r.Steps[step]
		if s.Touch == Rest {
			continue
		}
		if r.Voice.HatFamily() {
			if hat != "" {
				return fmt.Sprintf("%s and %s are one hi-hat, which can do only one of them at a time", hat, r.Voice.Word)
			}
			hat = r.Voice.Word
		}
		if r.Voice.Limb != Hand {
			if feet[r.Voice.Limb]++; feet[r.Voice.Limb] > 1 {
				return "one foot cannot play two pedals"
			}
			continue
		}
		hands++
		if s.Flam || s.Drag {
			hands++
		}
		if words != "" {
			words += ", "
		}
		words += r.Voice.Word
	}
	if hands > 2 {
		return fmt.Sprintf("%s need %d hands, and a drummer has two", words, hands)
	}
	return ""
}

// HandsKeepUp reports whether two hands can play the rows in a loop (or once,
// when loop is false) at stepMicros microseconds a step,
// no hand striking twice within HandLimit. Each stroke goes to the hand that
// has rested longest. It returns the first step that comes too soon, or -1.
func HandsKeepUp(rows []Row, stepMicros int, loop bool) int {
	if len(rows) == 0 {
		return -1
	}
	n := len(rows[0].Steps)
	total := n
	if loop {
		total = 2 * n
	}
	const never = -1 << 40
	last := [2]int{never, never}
	for i := 0; i < total; i++ {
		for _, r := range rows {
			s := r.Steps[i%n]
			if r.Voice.Limb != Hand || s.Touch <= Sound {
				continue
			}
			h := 0
			if last[1] < last[0] {
				h = 1
			}
			now := i * stepMicros
			if now-last[h] < HandLimit*1000 {
				return i % n
			}
			last[h] = now
			if s.Flam || s.Drag {
				last[1-h] = now
			}
		}
	}
	return -1
}
