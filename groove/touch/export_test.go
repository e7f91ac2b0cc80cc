package touch

import (
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// What the tests of this package see of it besides what all do.

const (
	MaxDelayUS    = maxDelayUS
	NormalCeiling = normalCeiling
)

func (t *Playing) Delay(tick, pairUS int64) int64 { return t.delay(tick, pairUS) }

func (t *Playing) Dynamics(who timeline.Player, player Player, notes []score.Note) []uint8 {
	t.who, t.player = who, player
	return t.dynamics(notes)
}

// Level is what the energy adds for a player at the beginning of a bar.
func (t *Playing) Level(who timeline.Player, player Player, bar int) int {
	t.who, t.player = who, player
	t.prepareLevels()
	return int(t.levels.bars[bar].from / fine)
}
