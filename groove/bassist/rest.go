package bassist

import (
	"slices"

	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// isLast reports whether a bar is the last of the song.
func (b *Bassist) isLast(bar int) bool { return b.Pass.After == nil && bar == len(b.Pass.Bars)-1 }

// settles reports whether a bar is one of the song's last two, in which the line comes to rest.
func (b *Bassist) settles(bar int) bool { return b.Pass.After == nil && bar >= len(b.Pass.Bars)-2 }

// asked reports whether a note is struck in any case: it is a chord's first, or answers a cue.
func (n *bassNote) asked() bool { return n.first || n.pushed || n.accent > 0 || n.cue >= 0 }

// drop takes away the notes of which it is so, asked in order; each is held over by the note before
// it in its bar.
func (b *Bassist) drop(is func(i int) bool) {
	kept := b.notes[:0]
	for i := range b.notes {
		gone := is(i)
		n := b.notes[i]
		if !gone {
			kept = append(kept, n)
			continue
		}
		if k := len(kept); k > 0 && b.BarAt(kept[k-1].tick) == b.BarAt(n.tick) {
			last := &kept[k-1]
			last.end = max(last.end, b.Cues.Silences(timeline.Bass).Next(last.tick, n.end))
		}
	}
	b.notes = kept
}

// comeToRest has the song's last bar and the one before it stay on the chord's bass: nothing leads
// away from the last chord, and before it the bass holds, in halves where it has been walking.
func (b *Bassist) comeToRest() {
	from := len(b.Pass.Bars) - 1
	if from > 0 && b.Ending() == from {
		from--
	}
	if b.Pass.After != nil {
		return
	}
	rests := func(n *bassNote) bool { return b.BarAt(n.tick) >= from && !n.asked() }
	b.drop(func(i int) bool {
		n := &b.notes[i]
		bar := b.BarAt(n.tick)
		return rests(n) && n.tick != b.Pass.Bars[bar].Start && (isApproach(n.degree) || n.degree == 'g' ||
			n.degree == 'w' && n.tick != b.middle(bar))
	})
	for i := range b.notes {
		if n := &b.notes[i]; rests(n) {
			n.degree = '1'
		}
	}
}

// holdToStops has the last note before a stop be the chord's bass, on a beat or with the kick, and
// holds it to the stop.
func (b *Bassist) holdToStops(kicks []int64) {
	silences := b.Cues.Silences(timeline.Bass)
	stopOf := func(n *bassNote) int64 { // the stop that begins in its bar or as that ends
		at := silences.Next(n.tick, never)
		if at > b.BarEnd(b.BarAt(n.tick)) {
			return never
		}
		return at
	}
	for again := true; again; {
		again = false
		b.drop(func(i int) bool {
			n := &b.notes[i]
			at := stopOf(n)
			last := at < never && (i+1 == len(b.notes) || b.notes[i+1].tick >= at)
			bar := b.BarAt(n.tick)
			loose := last && i > 0 && !n.asked() && b.BarAt(b.notes[i-1].tick) == bar &&
				(b.MetricPlace(bar, n.tick) > 0 || n.degree == 'g') && !slices.Contains(kicks, n.tick)
			again = again || loose
			return loose
		})
	}
	for i := range b.notes {
		n := &b.notes[i]
		if at := stopOf(n); at < never && (i+1 == len(b.notes) || b.notes[i+1].tick >= at) && n.degree != 'g' {
			n.degree = '1'
			if b.Cues.Alone[b.BarAt(n.tick)] || b.Cues.Holds.Has(n.tick) {
				continue
			}
			n.end, n.breath = at, 0
		}
	}
}

// hangPushes lets a pushed note hang: nothing but the kick strikes it again within the beat that it
// anticipates, and nothing leads to it.
func (b *Bassist) hangPushes(kicks []int64) {
	until, from := int64(-1), int64(0)
	b.drop(func(i int) bool {
		n := &b.notes[i]
		if n.pushed {
			c := cue.ChangeAt(b.changes, n.tick)
			from, until = n.tick, c.Nominal+b.Pass.Bars[b.BarAt(c.Nominal)].Meter.PlayedBeat()
			return false
		}
		return n.tick > from && n.tick < until && n.accent == 0 && n.cue < 0 && !b.changesAt(n.tick) &&
			!slices.Contains(kicks, n.tick)
	})
	for i := range b.notes {
		n := &b.notes[i]
		if n.pushed && i > 0 {
			if c := cue.ChangeAt(b.changes, n.tick); i+1 < len(b.notes) {
				n.end = max(n.end, min(b.notes[i+1].tick, c.Nominal+quarter/2,
					b.Cues.Silences(timeline.Bass).Next(n.tick, b.end)))
			}
			if o := &b.notes[i-1]; n.tick-o.tick <= quarter && !o.asked() && o.degree != 'g' && o.degree != 'w' {
				o.degree = '1'
			}
		}
	}
}

// tieOver ties a chord's bass that comes off the beat over the next beat: the row does not strike it again
// there. Written hits and further chords do.
func (b *Bassist) tieOver() {
	kept := b.notes[:0]
	for _, n := range b.notes {
		c := b.TiedOver(timeline.Bass, b.changes, n.tick)
		if k := len(kept) - 1; c != nil && k >= 0 && kept[k].tick == c.Start && n.accent == 0 && !n.pushed &&
			n.cue < 0 {
			kept[k].end, kept[k].breath = max(kept[k].end, n.end), n.breath
			continue
		}
		kept = append(kept, n)
	}
	b.notes = kept
	for i := range b.notes {
		n := &b.notes[i]
		c := b.TiedOver(timeline.Bass, b.changes, n.tick+1)
		if c == nil || c.Start != n.tick || i+1 == len(b.notes) {
			continue
		}
		over := n.tick + b.Pass.Bars[b.BarAt(n.tick)].Meter.PlayedBeat()
		if !b.Cues.Alone[b.BarAt(over)] {
			n.end = max(n.end, b.Cues.Silences(timeline.Bass).Next(n.tick, min(b.notes[i+1].tick, over, b.end)))
		}
	}
}

// leaveToTheKick leaves the sixteenths off the beat to the kick in a quiet ballad: where it does not
// strike them the bass does not either.
func (b *Bassist) leaveToTheKick(kicks []int64) {
	b.drop(func(i int) bool {
		n := &b.notes[i]
		bar := b.BarAt(n.tick)
		calm := b.styles[bar].ballad && !b.SwingIn(bar).Triplets && b.Energy(bar) <= quiet
		return calm && (n.tick-b.Pass.Bars[bar].Start)%(quarter/2) != 0 && !n.asked() &&
			!slices.Contains(kicks, n.tick)
	})
}
