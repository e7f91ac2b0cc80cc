package bassist

import (
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// LockPerCent is the share of kick strokes at which a bass note must sound, struck or held.
const LockPerCent = 80

// lockAim is what the bassist aims at: on the grid some strokes are met that are missed when both
// stray.
const lockAim = LockPerCent + 8

// lockToKicks makes the bass sound at the strokes of the kick. It goes through the strokes in
// order of time. Where it has sounded at too few of them so far, the note before a bare stroke is
// held until just after the stroke, as far as stops, the next note and the end of the bar allow:
// no bar knows the strokes of a later one, as those of the last bars depend on the next pass.
func (b *Bassist) lockToKicks(kicks []int64) {
	met, all := 0, 0
	for _, k := range kicks {
		if !b.maySound(k) {
			continue
		}
		all++
		i := b.firstFrom(k+1) - 1
		switch {
		case i >= 0 && b.notes[i].end > k:
			met++
		case i >= 0 && met*100 < lockAim*all && b.canHoldTo(i, k):
			end := min(k+quarter/4, b.BarEnd(b.BarAt(k)), b.end)
			if i+1 < len(b.notes) {
				end = min(end, b.notes[i+1].tick)
			}
			b.notes[i].end, b.notes[i].breath = b.Cues.Silences(timeline.Bass).Next(b.notes[i].tick, end), 0
			met++
		}
	}
}

// maySound reports whether the bass is allowed to sound at a tick.
func (b *Bassist) maySound(tick int64) bool {
	c := cue.ChangeAt(b.changes, tick)
	if c == nil || c.Chord.None || tick >= b.end || b.Cues.Alone[b.BarAt(tick)] {
		return false
	}
	return !b.Cues.Silences(timeline.Bass).Has(tick)
}

// canHoldTo reports whether a note can be held to a tick: it is in the same bar, the chord is
// still the same, and no stop and no bar of written hits lies between.
func (b *Bassist) canHoldTo(i int, tick int64) bool {
	n := &b.notes[i]
	bar := b.BarAt(tick)
	if n.degree == 'g' || n.short || b.BarAt(n.tick) != bar || b.Cues.Alone[bar] {
		return false
	}
	c := cue.ChangeAt(b.changes, tick)
	if c == nil || c.Chord != b.changes[n.change].Chord {
		return false
	}
	return b.Cues.Silences(timeline.Bass).Next(n.tick, tick+1) > tick
}
