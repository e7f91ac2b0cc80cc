package audit

import (
	"iter"
	"slices"
	"sort"

	"plinth/groove"
	"plinth/groove/bassist"
	"plinth/groove/touch"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// withUS is the time within which two players' notes count as together: what
// timing may part them by.
const withUS = 60_000

// checkBass checks that the bassist plays one note at a time, has the chord's bass at
// every change of chord, and is there where the kick is.
func (pa *passAudit) checkBass() {
	notes := pa.part.Notes[timeline.Bass]
	for i := 1; i < len(notes); i++ {
		p, n := &notes[i-1], &notes[i]
		if p.Tick+p.Length > n.Tick && p.Key != n.Key {
			pa.found(timeline.Bass, n.Tick, "voice", "%s begins while %s still sounds", keyName(n.Key),
				keyName(p.Key))
		}
	}
	if pa.pass.Tacet.Has(timeline.Bass) {
		return
	}
	pa.checkRoots(notes)
	pa.checkLock(notes)
}

// checkRoots looks for the chord's bass at every change that the bassist plays: not in
// a stop, in a held beat, or in a bar of other players' hits.
func (pa *passAudit) checkRoots(notes []groove.Note) {
	for _, c := range pa.newBasses(timeline.Bass) {
		if !pa.plan.Cues.Holds.Has(c.Start) {
			pa.checkRoot(timeline.Bass, "bass", c, pa.nearest(notes, pa.plan.Swung(c.Start)))
		}
	}
}

// newBasses are the changes of chord at which a player has the bass to strike, by index: not
// in a stop, or in a bar of other players' hits.
func (pa *passAudit) newBasses(who timeline.Player) iter.Seq2[int, *cue.Change] {
	cues := pa.plan.Cues
	return func(yield func(int, *cue.Change) bool) {
		for i := range cues.Changes(who) {
			c := &cues.Changes(who)[i]
			if c.Chord.None || c.Same && !c.Pushed() || c.Start >= c.End || c.Start >= cues.End(who) ||
				cues.Silences(who).Has(c.Start) || cues.Alone[pa.plan.BarAt(c.Start)] {
				continue
			}
			if !yield(i, c) {
				return
			}
		}
	}
}

// checkRoot checks that a note, nil for none, has the bass of a chord that begins. by names
// what plays it.
func (pa *passAudit) checkRoot(who timeline.Player, by string, c *cue.Change, n *groove.Note) {
	switch {
	case n == nil:
		pa.found(who, c.Start, "bass", "the chord changes to %s and the %s does not", c.Chord, by)
	case int(n.Key)%12 != c.Chord.Bass.PC():
		pa.found(who, c.Start, "bass", "the %s takes %s to %s, whose bass is %s", by, keyName(n.Key), c.Chord,
			c.Chord.Bass)
	}
}

// nearest is the note that begins nearest to a tick, nil when none is near.
func (pa *passAudit) nearest(notes []groove.Note, tick int64) *groove.Note {
	at := pa.clock.Micros(tick)
	i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick >= tick })
	var best *groove.Note
	gap := int64(withUS)
	for j := max(0, i-1); j < min(i+1, len(notes)); j++ {
		if d := distance(pa.clock.Micros(notes[j].Tick), at); d < gap {
			best, gap = &notes[j], d
		}
	}
	return best
}

// checkLock counts the kick's strokes that meet a bass note, struck or held. Strokes
// where the chart has no chord do not count, nor those in a bar of written hits.
func (pa *passAudit) checkLock(notes []groove.Note) {
	p := pa.plan
	changes, alone := p.Cues.Changes(timeline.Bass), p.Cues.Alone
	met, all := 0, 0
	for _, k := range pa.part.Notes[timeline.Drums] {
		if pa.kitVoices[k.Key&127].Word != "kick" {
			continue
		}
		at := pa.part.Score.Parts[timeline.Drums].Notes[k.Meant].At // an early foot may be before the bar line
		if c := cue.ChangeAt(changes, at); c == nil || c.Chord.None || alone[p.BarAt(at)] ||
			at >= p.Cues.End(timeline.Bass) || p.Cues.Silences(timeline.Bass).Has(at) {
			continue
		}
		all++
		if pa.bassMeets(notes, k.Tick) {
			met++
		}
	}
	if met*100 < bassist.LockPerCent*all {
		pa.found(timeline.Bass, 0, "lock", "the bass is there for %d of the kick's %d strokes, less than %d in 100",
			met, all, bassist.LockPerCent)
	}
}

// bassMeets reports whether a note sounds at a tick or is struck about it.
func (pa *passAudit) bassMeets(notes []groove.Note, tick int64) bool {
	i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick > tick })
	return i > 0 && notes[i-1].Tick+notes[i-1].Length > tick || pa.nearest(notes, tick) != nil
}

// checkBorders checks what goes on from one pass into the next: a key of the piano
// struck again too soon.
func (a *audit) checkBorders() {
	for i := 1; i < len(a.passes); i++ {
		b, pa := a.passes[i-1], a.passes[i]
		last := map[uint8]int64{} // by key, in microseconds of the song
		for _, n := range b.part.Notes[timeline.Piano] {
			last[n.Key] = b.at(n.Tick)
		}
		for _, n := range pa.part.Notes[timeline.Piano] {
			us := pa.at(n.Tick)
			if us-pa.from > touch.AgainUS {
				break
			}
			if was, ok := last[n.Key]; ok && us-was < touch.AgainUS {
				pa.found(timeline.Piano, n.Tick, "repeat", "%s is struck again after %d ms", keyName(n.Key),
					(us-was)/1000)
			}
			delete(last, n.Key) // of one struck again here, the pass's own rules know
		}
	}
}

// checkEnergies compares the passes of a section that differ in energy: the one with
// more is to have no fewer attacks a bar. Only passes with the same bars, chords,
// feels and players, each with one energy throughout, are compared.
func (a *audit) checkEnergies() {
	for high, h := range a.passes {
		for low, l := range a.passes {
			if l.pass.EnergyFrom >= h.pass.EnergyFrom || !alike(l.pass, h.pass) {
				continue
			}
			if x, y := a.attacksPerBar(low), a.attacksPerBar(high); x > y {
				h.found(timeline.Drums, 0, "energy",
					"the band plays %s notes a bar at energy %d, and %s at energy %d",
					thousandths(y), h.pass.EnergyFrom, thousandths(x), l.pass.EnergyFrom)
			}
		}
	}
}

// attacksPerBar is the attacks a bar of a pass, in thousandths. A pianist without a bassist is
// counted by the key and not by the chord: with two hands, a chord broken into four
// single notes is not more than three full ones.
func (a *audit) attacksPerBar(i int) int {
	f, pa := &a.out.Passes[i], a.passes[i]
	if !pa.pass.Tacet.Has(timeline.Bass) {
		return f.Total()
	}
	return f.Total() - f.Attacks[timeline.Piano] + mean(len(pa.part.Notes[timeline.Piano]), f.Bars)
}

// alike reports whether two passes ask the same of the band but for the energy.
func alike(a, b *timeline.Pass) bool {
	return a.Section == b.Section && a.Feel == b.Feel && a.Tacet == b.Tacet && a.Length == b.Length &&
		isLevel(a) && isLevel(b) &&
		slices.EqualFunc(a.Bars, b.Bars, func(x, y timeline.Bar) bool {
			return x.Feel == y.Feel && x.Tacet == y.Tacet
		}) &&
		slices.EqualFunc(a.Events, b.Events, func(x, y timeline.Event) bool {
			return x.Kind == y.Kind && x.Tick == y.Tick
		}) &&
		slices.EqualFunc(a.Chords, b.Chords, func(x, y timeline.Span) bool { return x.Start == y.Start })
}

// isLevel reports whether a pass has one energy throughout.
func isLevel(p *timeline.Pass) bool {
	s := p.Sweeps()
	return len(s) == 1 && s[0].From == s[0].To
}
