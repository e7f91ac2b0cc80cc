package groove

import (
	"slices"

	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// drums is the drummer's part of a pass, on the grid: time, fills, then what the
// events and the form ask for, then what two hands and two feet can play of it.
//
// The result holds until the next pass is played on the same bench.
func (p *plan) drums() []gridNote {
	if p.pass.Tacet.Has(timeline.Drums) {
		return nil
	}
	fills := p.drumFills()
	strokes := p.playFills(fills)
	notes := append(inFills(p.time(fills), fills), strokes...)
	notes = p.drumFinalHit(p.drumEnding(p.opening(notes)))
	notes = p.drumAccents(p.drumPushes(notes))
	p.bench.strokes = notes
	return p.limbs(p.kept(timeline.Drums, notes))
}

// graces are the strokes just before a flam or a drag.
func graces(s feel.Stroke, v feel.Voice, tick int64) []gridNote {
	ms := []int(nil)
	switch {
	case s.Drag:
		ms = dragMS
	case s.Flam:
		ms = flamMS
	}
	var out []gridNote
	for _, shift := range ms {
		g := stroke(v, tick, tick+strokeTicks/4, feel.Ghost)
		g.ShiftMS = int16(shift)
		out = append(out, g)
	}
	return out
}

// The voices that events and the form ask for, where the level has no row of
// them: General MIDI percussion keys.
var (
	kickVoice  = feel.Voice{Word: "kick", Key: 36, Limb: feel.RightFoot}
	snareVoice = feel.Voice{Word: "snare", Key: 38, Limb: feel.Hand}
	crashVoice = feel.Voice{Word: "crash", Key: 49, Limb: feel.Hand}
	stickVoice = feel.Voice{Word: "cross_stick", Key: 37, Limb: feel.Hand}
)

// snareEnergy is the energy from which a stick strikes the snare drum.
const snareEnergy = 3

// backbeat is the voice a bar's level marks the backbeat with: a snare or, at the
// lower energies, a cross-stick or a brush. A level that marks none has a snare
// from snareEnergy up and a cross-stick under it.
func (p *plan) backbeat(bar int) feel.Voice {
	best := snareVoice
	if p.energy(bar) < snareEnergy {
		best = stickVoice
	}
	found := false
	for _, r := range p.level(bar).Drums {
		if r.Voice.Word == "snare" {
			return r.Voice
		}
		if r.Voice.Backbeat() && !found {
			best, found = r.Voice, true
		}
	}
	return best
}

// plays reports whether the drummer keeps time in a bar at all.
func (p *plan) plays(bar int) bool { return len(p.level(bar).Drums) > 0 }

// crashEnergy is the energy from which a crash opens a section.
const crashEnergy = 4

// brushes reports whether the drummer has brushes in his hands: the song's kit, or
// the feel's where the song file names none.
func (p *plan) brushes() bool {
	if k := p.song.Drums.Kit; k != "" {
		return k == "brushes"
	}
	return p.feel.Kit == "brushes"
}

// withBrushes is how hard a drummer with brushes strikes where one with sticks would
// strike so: a brush on the crash is a wash and no blow, and the kick goes with it.
func (p *plan) withBrushes(t feel.Touch) feel.Touch {
	if p.brushes() {
		return min(t, feel.Soft)
	}
	return t
}

// opening puts a crash and a kick on the first beat of a section that comes in at
// energy 4 or 5, with all his weight where the band rises to 5; not when it steps
// down into the section, or its first chord was already struck before the bar line.
func (p *plan) opening(notes []gridNote) []gridNote {
	q := p.cues.Opening
	if q == nil || !q.By.Has(timeline.Drums) || p.pass.EnergyFrom < crashEnergy || !p.plays(0) {
		return notes
	}
	touch := feel.Normal
	if q.Weight > 0 && p.pass.EnergyFrom > crashEnergy {
		touch = feel.Strong
	}
	notes = withoutCymbals(notes, 0)
	return append(notes,
		stroke(kickVoice, 0, strokeTicks, p.withBrushes(feel.Normal)),
		stroke(crashVoice, 0, strokeTicks, p.withBrushes(touch)))
}

// withoutCymbals takes away the time-keeping strokes at ticks, which are in order:
// the hand that plays them is on the crash.
func withoutCymbals(notes []gridNote, ticks ...int64) []gridNote {
	if len(ticks) == 0 {
		return notes
	}
	out := notes[:0]
	for i := range notes {
		n := &notes[i]
		if k := kindOf(n.Key); n.Limb == feel.Hand && (k == kindHat || k == kindOpen || k == kindRide) {
			if _, there := slices.BinarySearch(ticks, n.Tick); there {
				continue
			}
		}
		out = append(out, *n)
	}
	return out
}

// drumEnding leaves of the song's last bar what is struck on its first beat and rings:
// a crash from energy 4 up, and never the tick of a closed hat.
func (p *plan) drumEnding(notes []gridNote) []gridNote {
	bar := p.ending()
	if bar < 0 || !p.plays(bar) {
		return notes
	}
	start := p.pass.Bars[bar].Start
	out := notes[:0]
	for _, n := range notes {
		if n.Tick < start || n.Tick == start && kindOf(n.Key) != kindHat {
			out = append(out, n)
		}
	}
	out = append(out, stroke(kickVoice, start, start+strokeTicks, p.withBrushes(feel.Normal)))
	if p.energy(bar) >= crashEnergy {
		out = withoutCymbals(out, start)
		out = append(out, stroke(crashVoice, start, start+strokeTicks, p.withBrushes(feel.Normal)))
	}
	return out
}

// drumFinalHit strikes the song's last hit before a stop: kick and backbeat, no cymbal that
// would ring on, and nothing after it.
func (p *plan) drumFinalHit(notes []gridNote) []gridNote {
	at := p.finalHit()
	if at < 0 || !p.plays(p.barAt(at)) {
		return notes
	}
	touch := feel.Strong
	if p.brushes() {
		touch = feel.Normal
	}
	notes = slices.DeleteFunc(notes, func(n gridNote) bool { return n.Tick > at })
	return append(withoutCymbals(notes, at),
		stroke(kickVoice, at, at+strokeTicks, touch),
		stroke(p.backbeat(p.barAt(at)), at, at+strokeTicks, touch))
}

// kept is what the events leave of a player's notes: nothing in a stop, under a
// push or in the rest of a held beat, and nothing but the written hits in a bar
// that is theirs alone.
func (p *plan) kept(who timeline.Player, notes []gridNote) []gridNote {
	pushes, end := p.cues.Pushes(who), p.cues.End(who)
	events := len(p.cues.Stops)+len(pushes)+len(p.cues.Holds) > 0 || slices.Contains(p.cues.Alone, true)
	if !events && end == p.pass.Length && (len(notes) == 0 || latestOf(notes) < end) {
		byTick(notes)
		return notes // most passes
	}
	out := notes[:0]
	for i := range notes {
		n := &notes[i]
		if p.cues.Stops.Has(n.Tick) {
			continue
		}
		if _, ok := pushes.Over(n.Tick); ok {
			continue
		}
		if p.cues.Holds.Has(n.Tick) && n.Accent == 0 && !n.Pushed {
			continue
		}
		if p.cues.Alone[p.barAt(n.Tick)] && n.Accent == 0 && !n.Pushed {
			continue
		}
		if n.Tick > end || n.Tick >= p.pass.Length {
			continue
		}
		if n.Tick == end && (who != timeline.Drums || !n.Pushed) {
			continue // a push out of the pass: the drummer marks it here
		}
		out = append(out, *n)
	}
	byTick(out)
	return out
}

// latestOf is the tick of the latest of some notes.
func latestOf(notes []gridNote) int64 {
	last := notes[0].Tick
	for i := range notes {
		last = max(last, notes[i].Tick)
	}
	return last
}
