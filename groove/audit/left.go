package audit

import (
	"slices"
	"sort"

	"plinth/groove"
	"plinth/groove/pianist"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// leftHandHasBass reports whether the pianist has the bass in the bar of a tick: the bassist keeps
// out of it, and the pianist does not.
func (pa *passAudit) leftHandHasBass(tick int64) bool {
	tacet := pa.pass.TacetAt(pa.plan.BarAt(tick))
	return tacet.Has(timeline.Bass) && !tacet.Has(timeline.Piano)
}

// anyLeftHand reports whether the pianist has the bass in any bar of the pass.
func (pa *passAudit) anyLeftHand() bool {
	return slices.ContainsFunc(pa.pass.Bars, func(b timeline.Bar) bool { return pa.leftHandHasBass(b.Start) })
}

// bassOf are the notes that are heard as the bass: the bassist's, and the left hand's where it has
// the bass.
func (pa *passAudit) bassOf() []groove.Note {
	out := pa.part.Notes[timeline.Bass]
	if !pa.anyLeftHand() {
		return out
	}
	out = slices.Clone(out)
	for _, n := range bassLine(pa.part.Notes[timeline.Piano]) {
		if pa.leftHandHasBass(n.Tick) {
			out = append(out, n)
		}
	}
	touch.SortNotes(out)
	return out
}

// checkLeftHand checks that a pianist without a bassist has the chord's bass at every change:
// not in a stop, in a bar of other players' hits, or where the next section leaves no
// time for it. The lowest note is what is heard as the bass, whichever hand has it.
func (pa *passAudit) checkLeftHand() {
	if !pa.anyLeftHand() {
		return
	}
	p := pa.plan
	notes := pa.part.Notes[timeline.Piano]
	changes := p.Cues.Changes(timeline.Piano)
	last := touch.LastStroke(p, timeline.Piano)
	for i, c := range pa.newBasses(timeline.Piano) {
		at := p.Swung(c.Start)
		if at > last || !pa.leftHandHasBass(c.Nominal) {
			continue
		}
		if c.Same && i > 0 && pa.clock.Micros(at)-pa.clock.Micros(p.Swung(changes[i-1].Start)) < touch.AgainUS {
			continue // pushed so soon after its own stroke that it is struck once
		}
		// Alone, as part of a roll, or once with a hit that comes too soon after (the pianist's withinKeySpeed).
		pc := c.Chord.Bass.PC()
		n := pa.lowest(notes, at, withUS, withUS)
		windows := [][2]int64{{chordUS, withUS}, {withUS, touch.AgainUS + withUS}}
		if bar := p.BarAt(c.Start); bar == p.Ending() { // the roll takes half a beat at most
			half := pa.clock.Micros(at) - pa.clock.Micros(at-pa.pass.Bars[bar].Meter.PlayedBeat()/2)
			windows[0][0] = min(pianist.LastRollUS, half) + withUS
		}
		for _, w := range windows {
			if n == nil || int(n.Key)%12 != pc {
				if m := pa.lowest(notes, at, w[0], w[1]); n == nil || int(m.Key)%12 == pc {
					n = m
				}
			}
		}
		pa.checkRoot(timeline.Piano, "left hand", c, n)
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
		ringing = ringingAfter(ringing, n.Tick)
		under := func(r groove.Note) bool { return r.Key <= n.Key }
		if int(n.Key) <= pianist.LeftHighest && !slices.ContainsFunc(ringing, under) {
			out = append(out, n)
		}
		ringing = append(ringing, n)
	}
	return out
}

// ringingAfter are the notes of a list that sound beyond a tick, in its own space.
func ringingAfter(notes []groove.Note, tick int64) []groove.Note {
	return slices.DeleteFunc(notes, func(n groove.Note) bool { return n.Tick+n.Length <= tick })
}
