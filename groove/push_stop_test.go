package groove_test

import (
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/songspec/timeline"
)

// A push that falls into a stop is not heard: its chord is struck where it is
// written, by everybody. Design of the band: a stop is silence, and a push moves an
// attack; it does not take it away.
func TestPushInAStop(t *testing.T) {
	const bar, eighth = groovetest.Bar44, groovetest.Eighth
	tests := []struct {
		name, why string
		push      int64 // in the second of four bars
		stop, end int64
		struck    int64 // where the third bar's chord is struck
	}{
		{"swallowed", "the stop holds the push and ends at the bar line",
			bar - eighth, bar - quarter, bar, 2 * bar},
		{"before the stop", "the push is heard, and nothing strikes its target again",
			bar - quarter, bar - eighth, bar, 2*bar - quarter},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			verse := groovetest.Section{Name: "verse", Chords: "C|Am|F|G", Energy: 3, NoFills: true}
			verse.Change = func(p *timeline.Pass) {
				groovetest.Event(p, timeline.Push, 1, tt.push, func(e *timeline.Event) { e.Target = 2 * bar })
				groovetest.Event(p, timeline.Stop, 1, tt.stop, func(e *timeline.Event) { e.End = bar + tt.end })
			}
			tl := groovetest.Song(t, verse, groovetest.Section{Name: "chorus", Chords: "C|C", Energy: 3})
			part := groove.Perform(tl, groovetest.Set(nil)).Passes[0]
			for who, notes := range part.Notes {
				var at, other int64 = -1, -1
				for _, n := range notes {
					if n.Tick >= bar+tt.stop && n.Tick < bar+tt.end {
						t.Errorf("%s: struck at %d, in the stop", timeline.Player(who), n.Tick)
					}
					if n.Tick == tt.struck {
						at = n.Tick
					} else if n.Tick == 2*bar {
						other = n.Tick
					}
				}
				if at < 0 {
					t.Errorf("%s: the chord is not struck at %d (%s)", timeline.Player(who), tt.struck, tt.why)
				}
				if other >= 0 {
					t.Errorf("%s: the target %d is struck again (%s)", timeline.Player(who), other, tt.why)
				}
			}
		})
	}
}
