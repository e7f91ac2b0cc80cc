package bassist

import (
	"slices"

	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// LockPerCent is the share of kick strokes at which a bass note must sound, struck or held.
const LockPerCent = 80

// lockAim is what the bassist aims at: on the grid some strokes are met that are missed when both
// stray.
const lockAim = LockPerCent + 8

// lockToKicks makes the bass sound at the strokes of the kick. Where it sounds at too few of
// them, the note before a bare stroke is held until just after the stroke, as far as stops,
// the next note and the end of the part allow. It goes through the strokes in order of time
// and stops when there are enough.
func (b *Bassist) lockToKicks(kicks []int64) {
	met, all := 0, 0
	var bare []int64
	for _, k := range kicks {
		if !b.maySound(k) {
			continue
		}
		all++
		if i := b.firstFrom(k+1) - 1; i >= 0 && b.notes[i].end > k {
			met++
		} else {
			bare = append(bare, k)
		}
	}
	for _, k := range bare {
		if met*100 >= lockAim*all {
			return
		}
		i := b.firstFrom(k+1) - 1
		if i < 0 || !b.canHoldTo(i, k) {
			continue
		}
		end := k + quarter/4
		if i+1 < len(b.notes) {
			end = min(end, b.notes[i+1].tick)
		}
		end = b.Cues.Silences(timeline.Bass).Next(b.notes[i].tick, end)
		b.notes[i].end, b.notes[i].breath = min(end, b.end), 0
		met++
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

// canHoldTo reports whether a note can be held to a tick: the chord is still the same,
// and no stop and no bar of written hits lies between.
func (b *Bassist) canHoldTo(i int, tick int64) bool {
	n := &b.notes[i]
	if n.degree == 'g' {
		return false
	}
	c := cue.ChangeAt(b.changes, tick)
	if c == nil || c.Chord != b.changes[n.change].Chord {
		return false
	}
	return b.Cues.Silences(timeline.Bass).Next(n.tick, tick+1) > tick &&
		!slices.Contains(b.Cues.Alone[b.BarAt(n.tick):b.BarAt(tick)+1], true)
}
