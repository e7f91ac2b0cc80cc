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

// Lift is what the energy of a bar adds for a player of one instrument.
func (t *Playing) Lift(player Player, bar int) int {
	return t.energyLift(player.Instrument(&score.Note{}).lift(), bar)
}
