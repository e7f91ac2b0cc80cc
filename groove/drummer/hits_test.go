package drummer

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// A hit is struck whole, also a sixteenth before the bar line where the hands have 111 ms and
// stray as far as they can.
func TestHitBeforeTheBarLineIsWhole(t *testing.T) {
	const bpm = 135
	hits := 0
	for _, name := range []string{"backbeat-eighths", "tight-sixteenths", "half-time"} {
		for _, bar := range []int{1, 3} {
			for energy := 3; energy <= 5; energy++ {
				for take := 1; take <= 40; take++ {
					a := grooveSection(name, "a", "C|F|G|C", energy)
					a.BPM = bpm
					a.Change = func(p *timeline.Pass) {
						groovetest.Event(p, timeline.Accent, bar, quarter*15/4, func(e *timeline.Event) { e.Weight = 2 })
					}
					tl := takeOf(t, take, a, a)
					tl.Looseness = 1000
					d, notes := notesOf(tl, 0)
					meant, struck := 0, 0
					for _, n := range notes {
						if n.Art.Has(score.Accent) {
							meant++
						}
					}
					for _, n := range played(tl, 0, library.Builtin()) {
						if notes[n.Meant].Art.Has(score.Accent) {
							struck++
						}
					}
					hits++
					if struck < meant || meant < 2 {
						t.Errorf("%s at %d, bar %d, take %d: %d strokes of a hit of %d", name, d.Energy(bar), bar+1, take, struck,
							meant)
					}
				}
			}
		}
	}
	if hits < 700 {
		t.Fatalf("only %d hits", hits)
	}
}

var _ = feel.Rest
