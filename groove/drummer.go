package groove

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// drums is the drummer's part of a pass, on the grid: time, fills, then what the
// events and the form ask for, then what two hands and two feet can play of it.
//
// The result holds until the next pass is played in the same scratch.
func (p *plan) drums() []score.Note {
	if p.pass.Tacet.Has(timeline.Drums) {
		return nil
	}
	fills := p.drumFills()
	strokes := p.playFills(fills)
	notes := append(inFills(p.time(fills), fills), strokes...)
	notes = p.drumFinalHit(p.drumEnding(p.drumOpening(notes)))
	notes = p.drumAccents(p.drumPushes(notes))
	p.scratch.strokes = notes
	return p.limbs(p.kept(timeline.Drums, notes))
}

// graces are the strokes just before a flam or a drag.
func graces(s feel.Stroke, v feel.Voice, tick int64) []score.Note {
	ms := []int(nil)
	switch {
	case s.Drag:
		ms = dragMS
	case s.Flam:
		ms = flamMS
	}
	var out []score.Note
	for _, shift := range ms {
		g := stroke(v, tick, tick+strokeTicks/4, feel.Ghost)
		g.Roll, g.Art = int16(shift), score.Grace
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

// backbeat is the voice a bar's level marks the backbeat with: a snare or, at the
// lower energies, a cross-stick or a brush. A level that marks none has a snare where the
// energy has one, and a cross-stick under it.
func (p *plan) backbeat(bar int) feel.Voice {
	best := snareVoice
	if !snareDrum.at(p.energy(bar)) {
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

// opening is the cue of a section that comes in with force, nil where a player has none.
func (p *plan) opening(who timeline.Player) *cue.Cue {
	i := p.cues.Opening
	if i < 0 || !forceful.at(p.pass.EnergyFrom) || !p.cues.List[i].By.Has(who) {
		return nil
	}
	return &p.cues.List[i]
}

// drumOpening puts a crash and a kick on the first beat of a section that comes in at
// energy 4 or 5, with all his weight where the band rises to 5; not when it steps
// down into the section, or its first chord was already struck before the bar line.
func (p *plan) drumOpening(notes []score.Note) []score.Note {
	q := p.opening(timeline.Drums)
	if q == nil || !crashes.at(p.pass.EnergyFrom) || !p.plays(0) {
		return notes
	}
	touch := feel.Normal
	if q.Rises && allHisWeight.at(p.pass.EnergyFrom) {
		touch = feel.Strong
	}
	notes = withoutCymbals(notes, 0)
	return append(notes, answering(p.cues.Opening,
		stroke(kickVoice, 0, strokeTicks, p.withBrushes(feel.Normal)),
		stroke(crashVoice, 0, strokeTicks, p.withBrushes(touch)))...)
}

// withoutCymbals takes away the time-keeping strokes at ticks, which are in order:
// the hand that plays them is on the crash.
func withoutCymbals(notes []score.Note, ticks ...int64) []score.Note {
	if len(ticks) == 0 {
		return notes
	}
	out := notes[:0]
	for i := range notes {
		n := &notes[i]
		if k := kindOf(n.Key); n.Voice.Limb() == feel.Hand && (k == kindHat || k == kindOpen || k == kindRide) {
			if _, there := slices.BinarySearch(ticks, n.At); there {
				continue
			}
		}
		out = append(out, *n)
	}
	return out
}

// drumEnding leaves of the song's last bar what is struck on its first beat and rings:
// a crash from energy 4 up, and never the tick of a closed hat.
func (p *plan) drumEnding(notes []score.Note) []score.Note {
	bar := p.ending()
	if bar < 0 || !p.plays(bar) {
		return notes
	}
	start := p.pass.Bars[bar].Start
	out := notes[:0]
	for _, n := range notes {
		if n.At < start || n.At == start && kindOf(n.Key) != kindHat {
			out = append(out, n)
		}
	}
	last := []score.Note{stroke(kickVoice, start, start+strokeTicks, p.withBrushes(feel.Normal))}
	if crashes.at(p.energy(bar)) {
		out = withoutCymbals(out, start)
		last = append(last, stroke(crashVoice, start, start+strokeTicks, p.withBrushes(feel.Normal)))
	}
	return append(out, answering(p.cues.Ending, last...)...)
}

// drumFinalHit strikes the song's last hit before a stop: kick and backbeat, no cymbal that
// would ring on, and nothing after it.
func (p *plan) drumFinalHit(notes []score.Note) []score.Note {
	at := p.finalHit()
	if at < 0 || !p.plays(p.barAt(at)) {
		return notes
	}
	touch := feel.Strong
	if p.brushes() {
		touch = feel.Normal
	}
	notes = slices.DeleteFunc(notes, func(n score.Note) bool { return n.At > at })
	return append(withoutCymbals(notes, at), answering(p.cues.FinalHit,
		stroke(kickVoice, at, at+strokeTicks, touch),
		stroke(p.backbeat(p.barAt(at)), at, at+strokeTicks, touch))...)
}

// answering lets strokes answer a cue.
func answering(cue int32, strokes ...score.Note) []score.Note {
	for i := range strokes {
		strokes[i].Cue = cue
	}
	return strokes
}

// kept is what the events leave of a player's notes: nothing in a stop, under a
// push or in the rest of a held beat, and nothing but the written hits in a bar
// that is theirs alone.
func (p *plan) kept(who timeline.Player, notes []score.Note) []score.Note {
	silences, pushes, end := p.cues.Silences(who), p.cues.Pushes(who), p.cues.End(who)
	events := len(silences)+len(pushes)+len(p.cues.Holds) > 0 || slices.Contains(p.cues.Alone, true)
	if !events && end == p.pass.Length && (len(notes) == 0 || latestOf(notes) < end) {
		byTick(notes)
		return notes // most passes
	}
	out := notes[:0]
	for i := range notes {
		n := &notes[i]
		if silences.Has(n.At) {
			continue
		}
		if _, ok := pushes.Over(n.At); ok {
			continue
		}
		if p.cues.Holds.Has(n.At) && !n.Art.Has(score.Accent) && !n.Art.Has(score.Pushed) {
			continue
		}
		if p.cues.Alone[p.barAt(n.At)] && !n.Art.Has(score.Accent) && !n.Art.Has(score.Pushed) {
			continue
		}
		if n.At > end || n.At >= p.pass.Length {
			continue
		}
		if n.At == end && (who != timeline.Drums || !n.Art.Has(score.Pushed)) {
			continue // a push out of the pass: the drummer marks it here
		}
		out = append(out, *n)
	}
	byTick(out)
	return out
}

// latestOf is the tick of the latest of some notes.
func latestOf(notes []score.Note) int64 {
	last := notes[0].At
	for i := range notes {
		last = max(last, notes[i].At)
	}
	return last
}
