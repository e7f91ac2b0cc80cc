package cue

import (
	"testing"

	"plinth/songspec/timeline"
)

// A pass opens where the band does not step down into it, for those who have not struck
// its first chord already; who begins another push on its first beat strikes there again.
// The drummer adds nothing to the written hits of a bar that is theirs.
func TestOpening(t *testing.T) {
	into := func(by timeline.Players) timeline.Event {
		return timeline.Event{Kind: timeline.Push, Tick: bar - eighth, End: bar - eighth, Target: bar, By: by}
	}
	again := timeline.Event{Kind: timeline.Push, Target: 2 * eighth, By: timeline.All}
	hits := timeline.Event{Kind: timeline.Accent, Tick: eighth, End: eighth, By: timeline.All, Weight: 2, Alone: true}
	for _, row := range []struct {
		name          string
		before, here  int // energies
		first, second []timeline.Event
		opens         bool
		by            timeline.Players
		weight        uint8
	}{
		{"as strong as what was before", 3, 3, nil, nil, true, timeline.All, 0},
		{"stronger", 3, 4, nil, nil, true, timeline.All, 1},
		{"less strong", 4, 3, nil, nil, false, 0, 0},
		{"pushed by everybody", 3, 4, []timeline.Event{into(timeline.All)}, nil, true, 0, 1},
		{"pushed by the pianist", 3, 4, []timeline.Event{into(piano)}, nil, true, drums | bass, 1},
		{"pushed by everybody, and again", 3, 4, []timeline.Event{into(timeline.All)}, []timeline.Event{again}, true,
			harmonics, 1},
		{"a bar of written hits", 3, 4, nil, []timeline.Event{hits}, true, harmonics, 1},
	} {
		passes := []timeline.Pass{passOf(1, row.first...), passOf(1, row.second...)}
		passes[0].EnergyFrom, passes[0].EnergyTo = row.before, row.before
		passes[1].EnergyFrom, passes[1].EnergyTo = row.here, row.here
		Join(passes)
		c := Of(&passes[1])
		if c.Opening < 0 || !row.opens {
			if (c.Opening >= 0) != row.opens {
				t.Errorf("%s: opens %v", row.name, !row.opens)
			}
			continue
		}
		if q := c.List[c.Opening]; q.By != row.by || q.Weight != row.weight {
			t.Errorf("%s: by %v with weight %d, want %v with %d", row.name, q.By.Names(), q.Weight, row.by.Names(),
				row.weight)
		}
	}
}
