package library

import (
	"testing"

	"plinth/groove/feel"
)

// handLimit is the shortest time in milliseconds between two strokes of one
// hand: ten a second, the rate of the single-stroke record held by one hand
// (WFD 2013: 1,208 strokes in 60 s with two hands).
const handLimit = 100

// handsKeepUp reports whether two hands can play the rows in a loop (or once,
// when loop is false) at stepMicros microseconds a step,
// no hand striking twice within handLimit. Each stroke goes to the hand that
// has rested longest. It returns the first step that comes too soon, or -1.
func handsKeepUp(rows []feel.Row, stepMicros int, loop bool) int {
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
			if r.Voice.Limb != feel.Hand || s.Touch <= feel.Sound {
				continue
			}
			h := 0
			if last[1] < last[0] {
				h = 1
			}
			now := i * stepMicros
			if now-last[h] < handLimit*1000 {
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

func TestHandsKeepUp(t *testing.T) {
	hat, _ := feel.VoiceNamed("hat")
	all := feel.Row{Voice: hat, Steps: make([]feel.Stroke, 16)}
	for i := range all.Steps {
		all.Steps[i].Touch = feel.Normal
	}
	for _, c := range []struct {
		name   string
		micros int
		want   int
	}{
		{"two hands take turns at 20 a second", 50_000, -1},
		{"faster than the record", 49_999, 2},
	} {
		if got := handsKeepUp([]feel.Row{all}, c.micros, true); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}
