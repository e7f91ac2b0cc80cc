// Package touch plays what a player means: in go a part of the score and how the player's
// instruments answer to a hand, out come notes at the ticks and velocities at which they
// are played. Swing, lag, drift and dynamics are here, and what a file must hold to: no
// two notes of one pitch at once, none too short, none outside the pass. It is the only
// place where looseness counts, and it changes no note of the score.
package touch

import (
	"slices"

	"plinth/groove/nearsort"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// Note is one note of a part as it is played. Tick counts from the start of the song when a
// song is played and from the start of the pass when a pass is. Length is in ticks, at least
// 1. Key and Velocity are MIDI numbers (velocity 1 to 127).
type Note struct {
	Tick     int64
	Length   int64
	Key      uint8
	Velocity uint8
	Pass     int16 // in a song, the index of its pass
	Meant    int32 // the note of the score that it plays: an index in its pass's part
}

// SortNotes puts notes in the order of a part: by tick, then by key.
func SortNotes(notes []Note) {
	nearsort.By(notes, func(n *Note) int64 { return n.Tick<<8 | int64(n.Key) })
}

// Draft is a note on its way from the grid to the tick at which it is played.
type Draft struct {
	*score.Note
	index      int32 // of the note in the player's part of the score
	Start, End int64 // ticks of the pass
	velocity   uint8
}

// SortDrafts puts drafts in order of time; those on one tick keep their order.
func SortDrafts(notes []Draft) {
	nearsort.By(notes, func(n *Draft) int64 { return n.Start })
}

// Player is what touch has to know of a player.
type Player interface {
	// Instrument is what plays a note.
	Instrument(n *score.Note) *Instrument
	// Shapes are how notes stand out of their figure, one for each; nil where none does.
	Shapes(notes []score.Note) []Shape
	// Finish leaves what the player's hands can play. Drafts are in order of their start.
	Finish(t *Playing, drafts []Draft) []Draft
}

// Shape is how a note stands out of its figure, as in the swell of a fill.
type Shape struct {
	Swell int  // added to its velocity
	Most  int  // its greatest velocity; 0: the usual one
	Stays bool // what follows does not soften it beforehand
}

// Playing plays a pass: it knows where the feel and chance put its notes in time. What it
// works out for one player serves the next. Prepare makes it ready for a pass, as often as
// needed. It belongs to one goroutine.
type Playing struct {
	*plan.Plan
	who    timeline.Player // who plays now
	player Player
	fences fences

	loose int64 // per mille
	lanes [maxLanes]*lane
	band  bandDrift

	arches   []ramp  // of the phrases, by bar, in thousandths
	bandSway []int64 // at each bar line; nil at looseness 0
	softer   []ramp  // by a rit, by bar, in thousandths; empty where none softens
	levels   levels  // of the player who plays now
	heard    []heard // of the player who plays now, by bar
	chords   []int8  // of the pianist, by note, see prepareChords

	drafts []Draft // room for the next player's
}

// Prepare makes a pass ready to be played.
func (t *Playing) Prepare(p *plan.Plan) {
	t.Plan, t.loose, t.lanes = p, int64(p.Song.Looseness), [maxLanes]*lane{}
	t.prepareDrift()
	t.prepareArches()
	t.prepareRits()
	t.bandSway = nil
	if t.loose > 0 {
		t.bandSway = t.sway(t.Chance("sway"))
	}
}

// Play plays what a player means. notes are in order of time. The result is new and in order
// of tick and key.
func (t *Playing) Play(who timeline.Player, player Player, notes []score.Note) []Note {
	if len(notes) == 0 {
		return nil
	}
	t.who, t.player, t.fences = who, player, newFences(t.Plan, who)
	velocities := t.dynamics(notes)
	clock := t.Clock()
	out := slices.Grow(t.drafts[:0], len(notes))
	for i := range notes {
		n := &notes[i]
		us := t.stray(n)
		at := clock.Shift(t.Swung(n.At), us+int64(n.Roll)*1000)
		off := n.End()
		end := t.Swung(off)
		if off < t.Pass.Length {
			end = clock.Shift(end, t.drift(off))
		}
		low, high := t.fences.around(n)
		shortest := max(1, t.ShortestNote(n.At))
		at = min(max(at, low), high-shortest)
		end = min(max(end, at+shortest), high)
		if at < low {
			continue // there is no room for a note
		}
		out = append(out, Draft{Note: n, index: int32(i), Start: at, End: end, velocity: velocities[i]})
	}
	t.drafts = out
	SortDrafts(out)
	return t.endRepeatedNotes(player.Finish(t, out))
}

// endRepeatedNotes ends a note where the next of the same pitch begins, joins the two where
// the first would become too short, and sorts by tick and key.
func (t *Playing) endRepeatedNotes(notes []Draft) []Note {
	var last [128]int // index into out + 1
	out := make([]Note, 0, len(notes))
	for _, n := range notes {
		if j := last[n.Key] - 1; j >= 0 {
			before := &out[j]
			if before.Tick+before.Length > n.Start {
				before.Length = n.Start - before.Tick
			}
			if before.Length < t.ShortestNote(before.Tick) {
				// Both become one note: it starts with the first and has the greater velocity.
				before.Length = max(n.End-before.Tick, before.Length)
				before.Velocity = max(before.Velocity, n.velocity)
				continue
			}
		}
		last[n.Key] = len(out) + 1
		out = append(out, Note{Tick: n.Start, Length: n.End - n.Start, Meant: n.index, Key: n.Key,
			Velocity: n.velocity})
	}
	SortNotes(out)
	return out
}
