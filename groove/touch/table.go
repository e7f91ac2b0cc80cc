package touch

// The figures of timing, each with its source. "Drummers"
// are the 4/4 performances of the Groove MIDI Dataset (Google Magenta, CC BY 4.0),
// measured against their click; F&S is Friberg & Sundström, Music Perception
// 19(3), 2002, and their report of 1997.

// bandDriftUS is the standard deviation, in microseconds at looseness 0.4, of the
// drift that the whole band shares.
const bandDriftUS = 7000

// The pianist's beats come later than the drummer's, and their off-beats fall together, so
// the piano's ratio is smaller (F&S 2002, abstract). What its ratio has over 1 is
// ownSwingPerMille of what the drummer's has over 1: in 34 hand-annotated trio
// tracks the medians were 1.7, 1.6, 1.4 and 1.2 where the drummers' were 2.4, 2.4,
// 1.7 and 1.5. The delay is at most maxDelayUS: Nelias et al. 2022 found 30 ms
// to add the most swing.
const (
	ownSwingPerMille = 550
	maxDelayUS       = 30_000
)

// refLooseness is the looseness, per mille, at which the figures hold.
const refLooseness = 400

// maxStrayUS is the farthest that a note may stray, and straySixteenths is the same in per cent
// of a sixteenth at the tempo there, so that notes keep their order.
const (
	maxStrayUS      = 50_000
	straySixteenths = 38
)

// shortestUS is the shortest note that is played, in microseconds.
const shortestUS = 10_000

// ShortestNote is the length in ticks of the shortest note that is played, from a tick on.
func (t *Playing) ShortestNote(tick int64) int64 { return t.Clock().Ticks(tick, shortestUS) }
