package groove

import (
	"fmt"
	"testing"

	"plinth/songspec/timeline"
)

// An accent of a chord that is pushed into the next section is heard where the push is,
// from every player named, over anything else in that bar; so it is within a section.
// It may be written on the push or on the beat that the push anticipates. Design of the
// band: an accent sounds in every player named, and an accent where a pushed chord would
// have come moves to the push.
func TestAccentOnAPushOverTheBorder(t *testing.T) {
	const at = 4*bar44 - eighth
	push := func(p *timeline.Pass) {
		event(p, timeline.Push, 3, bar44-eighth, func(e *timeline.Event) { e.Target = 4 * bar44 })
	}
	places := []struct {
		name          string
		verse, chorus func(p *timeline.Pass)
	}{
		{name: "on the push", verse: func(p *timeline.Pass) {
			push(p)
			event(p, timeline.Accent, 3, bar44-eighth, nil)
		}},
		{name: "on the beat it anticipates", verse: push, chorus: func(p *timeline.Pass) {
			event(p, timeline.Accent, 0, 0, nil)
		}},
	}
	for _, place := range places {
		for _, energy := range [][2]int{{1, 1}, {2, 2}, {2, 4}, {3, 5}, {5, 5}, {5, 2}, {4, 1}} {
			for _, looseness := range []int{0, 400} {
				t.Run(fmt.Sprint(place.name, energy, looseness), func(t *testing.T) {
					tl := song(t, section{name: "verse", chords: "C|Am|F|G", energy: energy[0], noFills: true, change: place.verse},
						section{name: "chorus", chords: "F|G|C|C|C", energy: energy[1], change: place.chorus})
					tl.Looseness = looseness
					before := fmt.Sprintf("%+v", tl.Passes)
					for who, notes := range Perform(tl, testSet(nil)).Parts {
						hit, other := 0, 0
						for _, n := range within(notes, 3*bar44-eighth/2, 4*bar44+eighth/4) {
							switch d := n.Tick - at; {
							case d > -eighth/2 && d < eighth/2:
								hit = max(hit, int(n.Velocity))
							case d < 0 && n.Tick >= 3*bar44-eighth/4:
								other = max(other, int(n.Velocity))
							case n.Tick >= 4*bar44-eighth/4:
								t.Errorf("%s: the beat is struck again at %d", timeline.Player(who), n.Tick-4*bar44)
							}
						}
						if hit <= other {
							t.Errorf("%s: the hit is %d, and %d stands in its bar", timeline.Player(who), hit, other)
						}
					}
					if fmt.Sprintf("%+v", tl.Passes) != before {
						t.Error("the song has been changed")
					}
				})
			}
		}
	}
}
