package main

import (
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/load"
)

// What is measured as written is what is built, and at one energy throughout only that counts.
func TestPerform(t *testing.T) {
	text := `
section "a" {
  energy = [1, 4]
  chords = "| C | F | G | C |"
}
section "b" {
  energy = 5
  chords = "| F | C | F | C |"
}
`
	in := load.Read("test", []byte(text), noFiles{})
	if in.Timeline == nil {
		t.Fatal(in.Diags)
	}
	built := groove.Perform(in.Timeline, in.Feels)
	written := perform(in.Timeline, in.Feels, in.Timeline.Take, 0)
	for i, p := range written.passes {
		for who, notes := range p.notes {
			var want, got []int
			for _, n := range built.Passes[i].Notes[who] {
				want = append(want, int(n.Key)<<8|int(n.Velocity))
			}
			for _, n := range notes {
				got = append(got, int(n.key)<<8|int(n.velocity))
			}
			slices.Sort(want)
			slices.Sort(got)
			if len(got) == 0 || !slices.Equal(got, want) {
				t.Errorf("pass %d, player %d: %d notes, built are %d", i, who, len(got), len(want))
			}
		}
	}
	for _, p := range perform(in.Timeline, in.Feels, 1, 3).passes {
		if p.EnergyFrom != 3 || p.EnergyTo != 3 || p.After != nil && p.After.Energy != 3 {
			t.Errorf("%s at %d to %d", p.Section, p.EnergyFrom, p.EnergyTo)
		}
	}
	if p := in.Timeline.Passes[0]; p.EnergyFrom != 1 || p.After.Energy != 5 {
		t.Error("the song itself was changed")
	}
}

func TestRunRefuses(t *testing.T) {
	for name, err := range map[string]error{
		"no such player": run(nil, 1, 1, "flute", ""),
		"no such groove": run(nil, 1, 1, "bass", "none"),
		"no songs":       run(nil, 0, 1, "bass", ""),
		"no such file":   run([]string{"none.song.hcl"}, 1, 1, "bass", ""),
	} {
		if err == nil {
			t.Errorf("%s is not refused", name)
		}
	}
}
