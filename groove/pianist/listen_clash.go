package pianist

import (
	"plinth/songspec/cue"
	"plinth/songspec/harmony"
)

// clashes reports whether a comp note is a semitone from a sung note in any octave: a minor
// second or ninth, or a major seventh.
func clashes(comp, sung int) bool {
	d := (comp - sung + 132) % 12
	return d == 1 || d == 11
}

// within is how long a sung note sounds in a chord, in ticks.
func (s *heardNote) within(ch *cue.Change) int64 { return min(s.end, ch.End) - max(s.Tick, ch.Start) }

// clashesIn reports whether a comp note that belongs to a chord clashes with a held sung note.
// A minor third may stay a major seventh under a ninth that lasts for half of its chord or
// more: without it only the root and the fifth would be heard, and nobody would hear a minor
// chord. With a sixth or a seventh enough is left of the chord, and what is shorter leaves the
// third its time.
func clashesIn(ch *cue.Change, comp int, s *heardNote) bool {
	if !s.held || !clashes(comp, int(s.Key)) {
		return false
	}
	under := comp < int(s.Key) && comp%12 == int(s.Key+1)%12
	return !under || comp%12 != bareThird(ch.Chord) || 2*s.within(ch) < ch.End-ch.Start
}

// bareThird is the pitch class of the minor third in a chord without a sixth or a seventh, -1
// in other chords.
func bareThird(c harmony.Chord) int {
	third := -1
	for i := range c.ToneCount() {
		switch t := c.Tone(i); {
		case t.Degree == 6 || t.Degree == 7:
			return -1
		case t.Degree == 3 && t.Semitones == 3:
			third = (c.Root.PC() + 3) % 12
		}
	}
	return third
}

// avoided is the set of pitch classes (bit = pitch class) that the voicing of a chord should
// leave out: they clash with held notes for half of the chord or more.
func (l *listener) avoided(ch *cue.Change) uint16 {
	var clash [12]int64
	third := bareThird(ch.Chord)
	for s := range l.sungIn(ch.Start, ch.End) {
		if !s.held {
			continue
		}
		ticks := s.within(ch)
		clash[(s.Key+11)%12] += ticks
		if above := int(s.Key+1) % 12; above != third {
			clash[above] += ticks
		}
	}
	var out uint16
	for pc, ticks := range clash {
		if ticks > 0 && 2*ticks >= ch.End-ch.Start {
			out |= 1 << pc
		}
	}
	return out
}
