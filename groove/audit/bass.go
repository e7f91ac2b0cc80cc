package audit

import (
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
			pa.found(timeline.Bass, n.Tick, ruleVoice, "%s begins while %s still sounds", keyName(int(n.Key)),
				keyName(int(p.Key)))
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
	p := pa.plan
	changes := p.Cues.Changes(timeline.Bass)
	for i := range changes {
		c := &changes[i]
		if c.Chord.None || c.Same && !c.Pushed() || c.Start >= c.End || c.Start >= p.Cues.End(timeline.Bass) {
			continue
		}
		if p.Cues.Silences(timeline.Bass).Has(c.Start) || p.Cues.Holds.Has(c.Start) || p.Cues.Alone[p.BarAt(c.Start)] {
			continue
		}
		pc := c.Chord.Bass.PC()
		n := pa.nearest(notes, p.Swung(c.Start))
		switch {
		case n == nil:
			pa.found(timeline.Bass, c.Start, ruleBass, "the chord changes to %s and the bass does not", c.Chord)
		case int(n.Key)%12 != pc:
			pa.found(timeline.Bass, c.Start, ruleBass, "the bass takes %s to %s, whose bass is %s", keyName(int(n.Key)),
				c.Chord, c.Chord.Bass)
		}
	}
}

// nearest is the note that begins nearest to a tick, nil when none is near.
func (pa *passAudit) nearest(notes []groove.Note, tick int64) *groove.Note {
	at := pa.clock.Micros(tick)
	i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick >= tick })
	var best *groove.Note
	gap := int64(withUS)
	for _, j := range []int{i - 1, i} {
		if j < 0 || j >= len(notes) {
			continue
		}
		if d := absTicks(pa.clock.Micros(notes[j].Tick) - at); d < gap {
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
		if c := cue.ChangeAt(changes, k.Tick); c == nil || c.Chord.None || alone[p.BarAt(k.Tick)] ||
			k.Tick >= p.Cues.End(timeline.Bass) || p.Cues.Silences(timeline.Bass).Has(k.Tick) {
			continue
		}
		all++
		if pa.bassMeets(notes, k.Tick) {
			met++
		}
	}
	if met*100 < bassist.LockPerCent*all {
		pa.found(timeline.Bass, 0, ruleLock, "the bass is there for %d of the kick's %d strokes, less than %d in 100",
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
		var last [128]int64 // microseconds of the song + 1
		for _, n := range b.part.Notes[timeline.Piano] {
			last[n.Key&127] = b.at(n.Tick) + 1
		}
		seen := [128]bool{}
		for _, n := range pa.part.Notes[timeline.Piano] {
			us := pa.at(n.Tick)
			if us-pa.from > touch.AgainUS {
				break
			}
			if was := last[n.Key&127]; was > 0 && us-was+1 < touch.AgainUS && !seen[n.Key&127] {
				pa.found(timeline.Piano, n.Tick, ruleRepeat, "%s is struck again after %d ms", keyName(int(n.Key)),
					(us-was+1)/1000)
			}
			seen[n.Key&127] = true
		}
	}
}

// checkEnergies compares the passes of a section that differ in energy: the one with
// more is to have no fewer attacks a bar. Only passes with the same bars, chords,
// feel and players, each with one energy throughout, are compared.
func (a *audit) checkEnergies() {
	for i, pa := range a.passes {
		for j, other := range a.passes[:i] {
			low, high := j, i
			if other.pass.EnergyFrom > pa.pass.EnergyFrom {
				low, high = i, j
			}
			l, h := a.passes[low], a.passes[high]
			if l.pass.EnergyFrom == h.pass.EnergyFrom || !alike(l.pass, h.pass) {
				continue
			}
			x, y := a.attacksPerBar(low), a.attacksPerBar(high)
			if x > y {
				h.found(timeline.Drums, 0, ruleEnergy,
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
	if a.Section != b.Section || a.Feel != b.Feel || a.Tacet != b.Tacet || a.Length != b.Length ||
		a.EnergyFrom != a.EnergyTo || b.EnergyFrom != b.EnergyTo || len(a.Events) != len(b.Events) ||
		len(a.Chords) != len(b.Chords) {
		return false
	}
	for i := range a.Events {
		if a.Events[i].Kind != b.Events[i].Kind || a.Events[i].Tick != b.Events[i].Tick {
			return false
		}
	}
	for i := range a.Chords {
		if a.Chords[i].Start != b.Chords[i].Start {
			return false
		}
	}
	return true
}
