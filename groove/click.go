package groove

import (
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// The click's sounds: General MIDI percussion keys of the two wood blocks, with
// their velocities.
const (
	clickHigh, clickLow        = 76, 77
	clickHighTouch, clickTouch = 112, 92
	clickTicks                 = meter.TicksPerQuarter / 8
)

// click is a click on every felt beat of the song, from the count-in on, higher on the first
// beat of a bar. It follows the tempo map and nothing else, and so goes on through stops and
// bars of written hits.
func click(tl *timeline.Timeline) []Note {
	var out []Note
	bar := func(start int64, m meter.Meter) {
		for i, at := range m.Beats() {
			n := Note{Tick: start + at, Length: clickTicks, Key: clickLow, Velocity: clickTouch}
			if i == 0 {
				n.Key, n.Velocity = clickHigh, clickHighTouch
			}
			out = append(out, n)
		}
	}
	first := meter.Common
	if len(tl.Meters) > 0 {
		first = tl.Meters[0].Meter
	}
	for at := int64(0); at+first.BarTicks() <= tl.Lead; at += first.BarTicks() {
		bar(at, first)
	}
	for i := range tl.Passes {
		for _, b := range tl.Passes[i].Bars {
			bar(tl.Passes[i].Start+b.Start, b.Meter)
		}
	}
	return out
}
