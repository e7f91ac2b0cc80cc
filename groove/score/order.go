package score

import "plinth/groove/nearsort"

// ByTick puts notes in order of time; those on one tick keep theirs.
func ByTick(notes []Note) {
	nearsort.By(notes, func(n *Note) int64 { return n.At })
}

// ByTickAndKey puts notes in order of time and, on one tick, of pitch.
func ByTickAndKey(notes []Note) {
	nearsort.By(notes, func(n *Note) int64 { return n.At<<8 | int64(n.Key) })
}
