package plan_test

import (
	"testing"

	"plinth/songspec/timeline"
)

func TestClock(t *testing.T) {
	c := timeline.NewClock([]timeline.Tempo{{Tick: 0, Micros: 500_000}, {Tick: 960, Micros: 1_000_000}})
	for _, row := range []struct {
		name     string
		tick, us int64
		want     int64
	}{
		{"20 ms at 120", 0, 20_000, 38},
		{"early, at the first tempo", 0, -20_000, -38},
		{"late, at the tempo from there on", 960, 20_000, 19},
		{"early, at the tempo that leads there", 960, -20_000, -38},
	} {
		if got := c.Ticks(row.tick, row.us); got != row.want {
			t.Errorf("%s: %d ticks, want %d", row.name, got, row.want)
		}
	}
	if got := c.Micros(1920); got != 1_500_000 {
		t.Errorf("two quarters take %d microseconds, want 1500000", got)
	}
}
