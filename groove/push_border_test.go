package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/songspec/timeline"
)

// An accent of a chord that is pushed into the next section is heard where the push is,
// from every player named, over anything else in that bar; so it is within a section.
// It may be written on the push or on the beat that the push anticipates. Design of the
// band: an accent sounds in every player named, and an accent where a pushed chord would
// have come moves to the push.
func TestAccentOnAPushOverTheBorder(t *testing.T) {
	const bar, eighth = groovetest.Bar44, groovetest.Eighth
	const at = 4*bar - eighth
	push := func(p *timeline.Pass) {
		groovetest.Event(p, timeline.Push, 3, bar-eighth, func(e *timeline.Event) { e.Target = 4 * bar })
	}
	places := []struct {
		name          string
		verse, chorus func(p *timeline.Pass)
	}{
		{name: "on the push", verse: func(p *timeline.Pass) {
			push(p)
			groovetest.Event(p, timeline.Accent, 3, bar-eighth, nil)
		}},
		{name: "on the beat it anticipates", verse: push, chorus: func(p *timeline.Pass) {
			groovetest.Event(p, timeline.Accent, 0, 0, nil)
		}},
	}
	for _, place := range places {
		for _, energy := range [][2]int{{1, 1}, {2, 2}, {2, 4}, {3, 5}, {5, 5}, {5, 2}, {4, 1}} {
			for _, looseness := range []int{0, 400} {
				t.Run(fmt.Sprint(place.name, energy, looseness), func(t *testing.T) {
					tl := groovetest.Song(t, groovetest.Section{Name: "verse", Chords: "C|Am|F|G", Energy: energy[0],
						NoFills: true, Change: place.verse},
						groovetest.Section{Name: "chorus", Chords: "F|G|C|C|C", Energy: energy[1],
							Change: place.chorus})
					tl.Looseness = looseness
					before := fmt.Sprintf("%+v", tl.Passes)
					for who, notes := range groove.Perform(tl, groovetest.Set(nil)).Parts {
						hit, other := 0, 0
						for _, n := range groovetest.Within(notes, 3*bar-eighth/2, 4*bar+eighth/4) {
							switch d := n.Tick - at; {
							case d > -eighth/2 && d < eighth/2:
								hit = max(hit, int(n.Velocity))
							case d < 0 && n.Tick >= 3*bar-eighth/4:
								other = max(other, int(n.Velocity))
							case n.Tick >= 4*bar-eighth/4:
								t.Errorf("%s: the beat is struck again at %d", timeline.Player(who), n.Tick-4*bar)
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
