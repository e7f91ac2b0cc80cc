package audit

import (
	"sort"

	"plinth/groove"
	"plinth/groove/pianist"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// checkLeftHand checks that a pianist without a bassist has the chord's bass at every change:
// not in a stop, in a bar of other players' hits, or where the next section leaves no
// time for it. The lowest note is what is heard as the bass, whichever hand has it.
func (pa *passAudit) checkLeftHand() {
	if !pa.pass.Tacet.Has(timeline.Bass) || pa.pass.Tacet.Has(timeline.Piano) {
		return
	}
	p := pa.plan
	notes := pa.part.Notes[timeline.Piano]
	changes := p.Cues.Changes(timeline.Piano)
	last := touch.LastStroke(p, timeline.Piano)
	for i := range changes {
		c := &changes[i]
		if c.Chord.None || c.Same && !c.Pushed() || c.Start >= c.End || c.Start >= p.Cues.End(timeline.Piano) ||
			p.Cues.Silences(timeline.Piano).Has(c.Start) {
			continue
		}
		if p.Cues.Alone[p.BarAt(c.Start)] || p.Swung(c.Start) > last {
			continue
		}
		if c.Same && i > 0 &&
			pa.clock.Micros(p.Swung(c.Start))-pa.clock.Micros(p.Swung(changes[i-1].Start)) < touch.AgainUS {
			continue // pushed so soon after its own stroke that it is struck once
		}
		// Alone, as part of a roll, or once with a hit that comes too soon after (the pianist's withinKeySpeed).
		pc, at := c.Chord.Bass.PC(), p.Swung(c.Start)
		n := pa.lowest(notes, at, withUS, withUS)
		for _, w := range [][2]int64{{chordUS, withUS}, {withUS, touch.AgainUS + withUS}} {
			if n == nil || int(n.Key)%12 != pc {
				if m := pa.lowest(notes, at, w[0], w[1]); n == nil || int(m.Key)%12 == pc {
					n = m
				}
			}
		}
		switch {
		case n == nil:
			pa.found(timeline.Piano, c.Start, ruleBass, "the chord changes to %s and the left hand does not", c.Chord)
		case int(n.Key)%12 != pc:
			pa.found(timeline.Piano, c.Start, ruleBass, "the left hand takes %s to %s, whose bass is %s",
				keyName(int(n.Key)), c.Chord, c.Chord.Bass)
		}
	}
}

// lowest is the lowest of the notes that begin less than some microseconds before or
// after a tick; nil when none does.
func (pa *passAudit) lowest(notes []groove.Note, tick, before, after int64) *groove.Note {
	early, late := pa.clock.Shift(tick, -before), pa.clock.Shift(tick, after)
	var best *groove.Note
	i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick > early })
	for ; i < len(notes) && notes[i].Tick < late; i++ {
		if best == nil || notes[i].Key < best.Key {
			best = &notes[i]
		}
	}
	return best
}

// bassLine are the notes of a pianist without a bassist that are heard as the bass:
// in the left hand's register and the lowest that sounds.
func bassLine(notes []groove.Note) []groove.Note {
	var out, ringing []groove.Note
	for _, n := range notes {
		low := int(n.Key) <= pianist.LeftHighest
		kept := ringing[:0]
		for _, r := range ringing {
			if r.Tick+r.Length > n.Tick {
				kept = append(kept, r)
				low = low && r.Key > n.Key
			}
		}
		ringing = append(kept, n)
		if low {
			out = append(out, n)
		}
	}
	return out
}
