package bassist

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// firstFrom is the index of the first note that is struck at a tick or later.
func (b *Bassist) firstFrom(tick int64) int {
	return sort.Search(len(b.notes), func(i int) bool { return b.notes[i].tick >= tick })
}

// strikeChanges puts the chord's bass on every change, or on the push where the change comes
// early. The row's notes between a push and its target are left out, and the pushed note is
// tied over in their place. A chord that begins in a stop has its bass when the stop is over.
func (b *Bassist) strikeChanges() {
	pushes := b.Cues.Pushes(timeline.Bass)
	tied := map[int64]int64{} // start of a push: the end of the note it replaces
	b.notes = slices.DeleteFunc(b.notes, func(n bassNote) bool {
		w, over := pushes.Over(n.tick)
		if over {
			tied[w.From] = max(tied[w.From], n.end)
		}
		return over || n.tick >= b.end
	})
	// A walking bass goes on where the chord stays, but a section begins on the bass note.
	if c := &b.changes[0]; c.Same && !c.Pushed() && len(b.notes) > 0 && b.notes[0].tick == c.Start &&
		b.notes[0].degree == 'w' {
		b.notes[0].degree = '1'
	}
	l := b.edit()
	for k := range b.changes {
		c := &b.changes[k]
		if c.Same && !c.Pushed() {
			continue
		}
		if over := b.afterStop(c.Start); over > c.Start {
			if over < min(c.End, b.end) {
				l.goTo(b, over)
				n := l.noteAt(over, c.End)
				n.degree, n.touch = '1', max(n.touch, feel.Normal)
			}
			continue
		}
		l.goTo(b, c.Start)
		if !c.Pushed() && b.OffBeat(c.Start) {
			l.makeRoom(c.Start)
		}
		n := l.noteAt(c.Start, c.End)
		n.degree, n.pushed, n.cue = '1', c.Pushed(), c.Cue
		n.touch = max(n.touch, feel.Normal)
		if c.Pushed() {
			n.end = min(max(n.end, tied[c.Start], c.Nominal+quarter/2), l.next(c.Start))
		}
	}
	b.settle(l)
}

// strikeEntries has the bassist come in on the bar line, with the chord's bass, after bars that the
// bassist has kept out of.
func (b *Bassist) strikeEntries() {
	l := b.edit()
	for _, at := range b.Cues.Entries(timeline.Bass) {
		c := cue.ChangeAt(b.changes, at)
		if at >= b.end || c.Chord.None || b.Cues.Alone[b.BarAt(at)] {
			continue
		}
		l.goTo(b, at)
		n := l.noteAt(at, c.End)
		n.degree, n.touch = '1', max(n.touch, feel.Normal)
	}
	b.settle(l)
}

// afterStop is the end of the stop that a tick falls into, and the tick itself where it falls
// into none.
func (b *Bassist) afterStop(tick int64) int64 {
	silences := b.Cues.Silences(timeline.Bass)
	i := sort.Search(len(silences), func(i int) bool { return silences[i].End > tick })
	if i < len(silences) && silences[i].Start <= tick {
		return silences[i].End
	}
	return tick
}

// strikeAccents plays the accents on the chord's bass. Where nothing else is played a hit is
// half a beat long, unless it is pushed.
func (b *Bassist) strikeAccents() {
	l := b.edit()
	for k, q := range b.Cues.Each(cue.Accent, timeline.Bass) {
		hit := q.At + b.Pass.Bars[b.BarAt(q.At)].Meter.PlayedBeat()/2
		l.goTo(b, q.At)
		n := l.noteAt(q.At, hit)
		n.degree, n.touch = '1', feel.Strong
		if int(q.Weight) > n.accent {
			n.accent, n.cue, n.short = int(q.Weight), k, q.Short
		}
		if b.Cues.Alone[q.Bar] && !q.Early && q.At >= 0 {
			n.end = min(n.end, hit)
		}
	}
	b.settle(l)
}

// strikeFinalHit strikes the song's last hit and holds it to the stop.
func (b *Bassist) strikeFinalHit() {
	last := b.FinalHit()
	for i := range b.notes {
		if n := &b.notes[i]; n.tick == last {
			n.touch, n.end, n.cue = feel.Strong, b.end, b.Cues.FinalHit
			b.notes = b.notes[:i+1]
			return
		}
	}
}

// obeyEvents takes away the notes that the events forbid: in a stop, in a bar that has only
// written hits, in the rest of a held beat and under N.C.
func (b *Bassist) obeyEvents() {
	silences, holds, alone := b.Cues.Silences(timeline.Bass), b.Cues.Holds, b.Cues.Alone
	var none cue.Stretches // where the chords stop
	for i := range b.changes {
		if c := &b.changes[i]; c.Chord.None {
			none = append(none, cue.Stretch{Start: c.Start, End: c.End})
		}
	}
	kept := b.notes[:0]
	for i := range b.notes {
		n := b.notes[i]
		c := cue.ChangeAt(b.changes, n.tick)
		if silences.Has(n.tick) || c == nil || c.Chord.None || n.tick < c.Start ||
			(holds.Has(n.tick) || alone[b.BarAt(n.tick)]) && n.accent == 0 && !n.pushed {
			continue
		}
		n.end = silences.Next(n.tick, none.Next(n.tick, min(n.end, b.end)))
		kept = append(kept, n)
	}
	b.notes = kept
	for i := range b.notes {
		n := &b.notes[i]
		for bar := b.BarAt(n.tick) + 1; bar < len(b.Pass.Bars) && b.Pass.Bars[bar].Start < n.end; bar++ {
			start := b.Pass.Bars[bar].Start
			if alone[bar] && (!n.pushed || cue.ChangeAt(b.changes, n.tick).Nominal != start) { // else it is tied over
				n.end = start
			}
		}
		// A note that sounds when a held beat begins is held with it.
		h := sort.Search(len(holds), func(i int) bool { return holds[i].Start >= n.tick })
		for ; h < len(holds) && holds[h].Start <= n.end; h++ {
			n.end = max(n.end, min(holds[h].End, silences.Next(n.tick, b.end)))
		}
		if i+1 < len(b.notes) {
			n.end = min(n.end, b.notes[i+1].tick)
		}
	}
}

// breathe lets a section's last bar breathe: its last long note ends a sixteenth before the
// section does.
func (b *Bassist) breathe() {
	last := len(b.Pass.Bars) - 1
	if len(b.notes) == 0 || b.Pass.After == nil || !breathes.At(b.Energy(last)) {
		return
	}
	n := &b.notes[len(b.notes)-1]
	if n.end == b.Pass.Length && n.end-n.tick > quarter {
		n.end -= quarter / 4
		n.breath = quarter / 4
	}
}

// findChords finds the chord of every note. The first note under a new chord is its
// bass, whatever the row says.
func (b *Bassist) findChords() {
	at, fresh := -1, false
	for i := range b.notes {
		n := &b.notes[i]
		for at+1 < len(b.changes) && b.changes[at+1].Start <= n.tick {
			at++
			fresh = fresh || !b.changes[at].Same
		}
		n.change = max(at, 0)
		if fresh && n.degree != 'g' {
			n.degree, n.first, fresh = '1', true, false
		}
	}
}
