package room

import (
	"testing"

	"plinth/songspec/timeline"
)

// Each player has one row, and each pitched one a hatch of his own in the picture.
func TestEveryPlayerHasARow(t *testing.T) {
	rows, hatches := map[string]int{}, map[string]bool{energyHatch.id: true}
	for _, p := range playerRows {
		rows[p.who.String()]++
		if !p.pitched {
			continue
		}
		if p.hatch.id == "" || p.outline == "" || hatches[p.hatch.id] {
			t.Errorf("%s is drawn with the hatch %q and the outline %q", p.who, p.hatch.id, p.outline)
		}
		hatches[p.hatch.id] = true
	}
	for _, name := range timeline.PlayerNames {
		if rows[name] != 1 {
			t.Errorf("%s has %d rows", name, rows[name])
		}
	}
	if len(playerRows) != len(timeline.PlayerNames) {
		t.Errorf("%d rows for %d players", len(playerRows), len(timeline.PlayerNames))
	}
}
