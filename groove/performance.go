package groove

import (
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// Note is one note of a part as it is played. Tick is absolute in a Performance and
// relative to the pass in a PassPart; Length is in ticks, at least 1; Key and Velocity
// are MIDI numbers (velocity 1 to 127).
type Note struct {
	Tick     int64
	Length   int64
	Key      uint8
	Velocity uint8
	Pass     int16 // in a Performance, the index of its pass
	Meant    int32 // the note of the score that it plays: an index in its pass's part
}

// PassPart is what the band plays in one pass: notes relative to its start,
// sorted by Tick, then Key. A note may begin before 0 only when a push or an
// early hand brings it there; none ends after the pass. Score is what it means by
// them: most of its notes are played by one note, those that no hand has time for by
// none.
type PassPart struct {
	Notes [timeline.NumPlayers][]Note
	Score score.Pass
}

// Performance is the whole song played. Ticks are absolute.
type Performance struct {
	Parts  [timeline.NumPlayers][]Note
	Click  []Note // empty without a count-in
	Passes []PassPart
	Kit    string // the kit of the first pass that has drums
}
