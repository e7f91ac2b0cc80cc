package audit

import (
	"cmp"
	"sort"

	"plinth/groove"
	"plinth/groove/voicing"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// checkOctaves finds where, at a change of chord, the top voice or, over a bassist, the lowest
// voice goes from one octave of the bass to the next in the same direction.
func (pa *passAudit) checkOctaves(notes, bass []groove.Note) {
	changes := pa.plan.Cues.Changes(timeline.Piano)
	tops := pa.tops(changes, notes)
	pa.checkVoiceOctaves("top", tops, bass)
	if pa.pass.Tacet.Has(timeline.Bass) {
		return
	}
	lows := pa.lows(changes)
	for i := range lows {
		// One voice, looked at already, or where the lowest is the bass.
		if lows[i] == tops[i] || pa.leftHandHasBass(changes[i].Nominal) {
			lows[i] = -1
		}
	}
	pa.checkVoiceOctaves("lowest", lows, bass)
}

// checkVoiceOctaves checks one voice, which has a key for each change: 0 where nothing sounds,
// -1 where it cannot be followed.
func (pa *passAudit) checkVoiceOctaves(name string, voice []int, bass []groove.Note) {
	changes := pa.plan.Cues.Changes(timeline.Piano)
	before := 0
	for i, key := range voice {
		if key == 0 {
			continue
		}
		from, to, moved := pa.bassMove(bass, changes[i].Start)
		if before > 0 && key > 0 && !changes[i].Same && moved && before%12 == from%12 && key%12 == to%12 &&
			voicing.SameWay(key-before, cmp.Compare(to, from)) {
			pa.found(timeline.Piano, changes[i].Start, "octaves",
				"the %s voice goes in octaves with the bass, %s to %s", name, keyName(before), keyName(key))
		}
		before = key
	}
}

// lows is the lowest voice of each change: 0 where nothing is struck, -1 where not all attacks
// are whole chords on it, as in a broken chord or where the upper half is struck alone. There
// nobody hears it go on to the next chord.
func (pa *passAudit) lows(changes []cue.Change) []int {
	out := make([]int, len(changes))
	at := 0
	for i := range changes {
		until := int64(1) << 60
		if i+1 < len(changes) {
			until = pa.clock.Shift(changes[i+1].Start, -withUS)
		}
		for ; at < len(pa.chords) && pa.chords[at].tick < until; at++ {
			keys := pa.chords[at].keys
			if out[i] == 0 {
				out[i] = keys[0]
			}
			if len(keys) < wholeChord || out[i] != keys[0] {
				out[i] = -1
			}
		}
		if i > 0 && changes[i].Same && out[i-1] != 0 && out[i] != out[i-1] {
			out[i] = -1
		}
	}
	return out
}

// tops is the top voice of each change, 0 where nothing sounds: the highest note
// that sounds while the chord lasts, so that a broken chord counts as the chord it
// is. The hands may be a little early, and what is just being let go is not counted.
func (pa *passAudit) tops(changes []cue.Change, notes []groove.Note) []int {
	out := make([]int, len(changes))
	var ringing []groove.Note
	at := 0
	for i := range changes {
		from, until := changes[i].Start, int64(1)<<60
		if changes[i].Pushed() {
			from += swungPush
		}
		from = pa.clock.Shift(from, withUS)
		if i+1 < len(changes) {
			until = pa.clock.Shift(changes[i+1].Start, -withUS)
		}
		ringing = ringingAfter(ringing, from)
		for _, n := range ringing {
			out[i] = max(out[i], int(n.Key))
		}
		for ; at < len(notes) && notes[at].Tick < until; at++ {
			ringing = append(ringing, notes[at])
			if i+1 == len(changes) || pa.chordOf(&notes[at]) < changes[i+1].Start {
				out[i] = max(out[i], int(notes[at].Key))
			}
		}
		// The chord goes on, and so does its top voice, unless it is struck whole and laid out otherwise.
		if i > 0 && changes[i].Same && out[i] > 0 && !pa.strikesWhole(from, until, out[i]) {
			out[i] = max(out[i], out[i-1])
		}
	}
	return out
}

// strikesWhole reports whether a whole chord sounds at an attack between two ticks, with a key on top.
func (pa *passAudit) strikesWhole(from, until int64, top int) bool {
	whole := min(wholeChord, pa.plan.Level(pa.plan.BarAt(from)).Voices)
	from -= meter.TicksPerQuarter / 4
	i := sort.Search(len(pa.chords), func(i int) bool { return pa.chords[i].tick >= from })
	for ; i < len(pa.chords) && pa.chords[i].tick < until; i++ {
		if keys := pa.chords[i].keys; len(keys) >= whole && keys[len(keys)-1] == top {
			return true
		}
	}
	return false
}

// chordOf is where the chord that a note of the piano is struck for begins: in some feels it is
// struck ahead of that. Without a score it is the note's own tick.
func (pa *passAudit) chordOf(n *groove.Note) int64 {
	if parts := pa.part.Score.Parts; len(parts) > 0 {
		if q := parts[timeline.Piano].Notes[n.Meant].Cue; q >= 0 {
			return pa.plan.Cues.List[q].At
		}
	}
	return n.Tick
}

// swungPush is how much later than written a push may come where the feel swings.
const swungPush = meter.TicksPerQuarter / 6

// bassMove is how the bass goes into what begins at a tick: from its note before to
// the one it strikes there.
func (pa *passAudit) bassMove(bass []groove.Note, tick int64) (from, to int, ok bool) {
	early := pa.clock.Shift(tick, -withUS)
	i := sort.Search(len(bass), func(i int) bool { return bass[i].Tick >= early })
	late := pa.clock.Shift(tick+swungPush, withUS)
	if i == 0 || i == len(bass) || bass[i].Tick > late {
		return 0, 0, false
	}
	from, to = int(bass[i-1].Key), int(bass[i].Key)
	return from, to, from != to
}
