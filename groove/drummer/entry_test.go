package drummer

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/songspec/timeline"
)

// Drums that come in after a section without them pick up in its last beat: one or two soft
// strokes, and not where the song wants no fill or no lead, where the drums stay out, or where
// the beat is stopped, pushed, hit or the singer's. Common practice, no single source.
func TestPickupAfterATacet(t *testing.T) {
	for _, row := range []struct {
		name    string
		strokes bool
		change  func(p *timeline.Pass)
		next    func(s *groovetest.Section)
	}{
		{"as it is", true, nil, nil},
		{"fills = false", false, func(p *timeline.Pass) { p.Fills = false }, nil},
		{"lead = false", false, func(p *timeline.Pass) { p.Lead = false }, nil},
		{"the drums stay out", false, nil, func(s *groovetest.Section) {
			s.Tacet = timeline.Only(timeline.Drums)
		}},
		{"everybody stays out", false, func(p *timeline.Pass) { p.Tacet = timeline.All }, nil},
		{"everybody stays out of the last bar", false, func(p *timeline.Pass) {
			p.Bars[3].Tacet = timeline.All &^ timeline.Only(timeline.Drums)
		}, nil},
		{"a stop", false, func(p *timeline.Pass) { groovetest.Event(p, timeline.Stop, 3, 3*quarter, nil) }, nil},
		{"a stop before", true, func(p *timeline.Pass) { groovetest.Event(p, timeline.Stop, 2, 3*quarter, nil) }, nil},
		{"a push", false, func(p *timeline.Pass) { groovetest.Event(p, timeline.Push, 3, quarter*7/2, nil) }, nil},
		{"a hit", false, func(p *timeline.Pass) { groovetest.Event(p, timeline.Accent, 3, 3*quarter, nil) }, nil},
		{"the singer", false, func(p *timeline.Pass) {
			p.Sung = []timeline.SungNote{{Tick: p.Length - quarter, Length: quarter, Key: 64}}
		}, nil},
	} {
		for energy := 2; energy <= 5; energy++ {
			for take := 1; take <= takes; take++ {
				a := grooveSection("backbeat-eighths", "a", "C|F|G|C", 2)
				a.Tacet, a.Change = timeline.Only(timeline.Drums), row.change
				b := grooveSection("backbeat-eighths", "b", "C|F|G|C", energy)
				if row.next != nil {
					row.next(&b)
				}
				tl := takeOf(t, take, a, b)
				d, notes := notesOf(tl, 0)
				if (len(notes) > 0) != row.strokes || len(notes) > 2 {
					t.Errorf("%s into %d, take %d: %d strokes", row.name, energy, take, len(notes))
				}
				for _, n := range notes {
					if n.At < d.Pass.Length-quarter || n.Touch > feel.Soft {
						t.Errorf("%s into %d, take %d: a stroke at %d with touch %d", row.name, energy, take, n.At,
							n.Touch)
					}
				}
			}
		}
	}
}
