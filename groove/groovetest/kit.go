package groovetest

import (
	"fmt"

	"plinth/groove/feel"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// Loudest is the highest velocity of a key among notes, 0 when it is not there.
func Loudest(notes []touch.Note, key uint8) uint8 {
	var out uint8
	for _, n := range notes {
		if n.Key == key {
			out = max(out, n.Velocity)
		}
	}
	return out
}

// LimbOfKey is what plays a key of the kit.
func LimbOfKey(key uint8) feel.Limb {
	for _, v := range feel.Voices() {
		if v.Key == key {
			return v.Limb
		}
	}
	return feel.Hand
}

// TooManyLimbs says where two hands or two feet do not reach. The two grace strokes
// of a drag are one hand's rebound and count with the stroke they lead to.
func TooManyLimbs(c *timeline.Clock, notes []touch.Note) string {
	var last [3][]int64
	for i, n := range notes {
		limb := LimbOfKey(n.Key)
		at := c.Micros(n.Tick)
		if limb == feel.Hand && grace(c, notes, i) {
			continue
		}
		together := 1
		if limb == feel.Hand {
			together = 2
		}
		if l := last[limb]; len(l) >= together && at-l[len(l)-together] < touch.AgainUS {
			return fmt.Sprintf("%d strokes of limb %d within %d microseconds at tick %d",
				together+1, limb, at-l[len(l)-together], n.Tick)
		}
		last[limb] = append(last[limb], at)
	}
	return ""
}

func grace(c *timeline.Clock, notes []touch.Note, i int) bool {
	for _, n := range notes[i+1:] {
		if c.Micros(n.Tick)-c.Micros(notes[i].Tick) > 100_000 {
			return false
		}
		if n.Key == notes[i].Key && n.Velocity > notes[i].Velocity && notes[i].Velocity <= touch.GhostCeiling {
			return true
		}
	}
	return false
}
