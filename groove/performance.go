// Package groove lets a band perform a song: in go a timeline and the feels that it names,
// out come the notes of every player, as they mean them (score.Pass) and as they play them
// (Note). The same values give the same notes on every machine.
package groove

import (
	"plinth/groove/score"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// Note is one note of a part as it is played.
type Note = touch.Note

// PassPart is what the band plays in one pass: notes relative to its start,
// sorted by Tick, then Key. A note begins before 0 only when it is pushed or the hand is
// early; none ends after the pass. Score is what the band means by them: most notes of the
// score are played by one note, and those that no hand has time for by none.
type PassPart struct {
	Notes [][]Note // by player
	Score score.Pass
}

// Performance is the whole song played. Ticks are absolute.
type Performance struct {
	Parts  [][]Note // by player
	Click  []Note   // empty without a count-in
	Passes []PassPart
	Sounds [][]Sound // by player: what each plays on, the first from tick 0 on
}

// NewPerformance is a performance in which nobody plays.
func NewPerformance() *Performance {
	n := len(timeline.PlayerNames)
	return &Performance{Parts: make([][]Note, n), Sounds: make([][]Sound, n)}
}
