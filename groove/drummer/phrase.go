package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
)

// A section has a few ways to play its bar, and deals them out over its phrases: the bar as
// the groove has it, which begins each half of a phrase, and two others that are a kick or a
// ghost stroke away from it. The ways are the section's, so that what comes again is known
// again; each pass deals them out differently. Common practice, no single source.

// ways is how many ways a section has to play a bar, the one that is written included.
const ways = 3

// phraseBars is the length of the phrases that end with a joint.
const phraseBars = 8

// shapeBar changes the time of a bar by its place in the phrase and in the section. notes are
// the strokes of the bar. It does nothing where the song file has the tempo move, or comes to
// rest.
func (d *Drummer) shapeBar(bar int, steps []plan.Step, notes []score.Note) []score.Note {
	if len(notes) == 0 || bar == d.Ending() || d.Cues.Rits.Over(d.Pass.Bars[bar].Start, d.BarEnd(bar)) {
		return notes
	}
	b, ok := d.strokesOf(bar, steps, notes)
	if !ok {
		return notes
	}
	if before := d.Pass.Before; bar == 0 && before != nil && before.Energy > d.Energy(bar) {
		b.closeHats() // after a climax the band holds back
	}
	switch to := d.LeadsTo(bar); {
	case b.isJoint():
		b.playJoint()
	case to > d.Energy(bar):
		b.thicken(to)
	case to < d.Energy(bar):
		b.thinOut(to)
	case b.isSparse():
		b.pickUp()
	default:
		b.vary(b.way())
	}
	score.ByTick(b.notes)
	return b.notes
}

// way is the way in which a bar is played, 0 as it is written. Passes of a section are told
// apart by it: from one to the next every bar inside the halves of a phrase is played in
// another way, and after three passes every other bar.
func (b *barStrokes) way() int {
	first, _ := b.Phrase(b.bar)
	i := b.bar - first
	if i == 0 || b.bar == len(b.Pass.Bars)-1 {
		return 0
	}
	pass := b.Pass.Ordinal
	if i%2 == 0 {
		pass += pass / ways
	}
	return (b.SectionChance("drum bar").At(int64(i)).Below(ways) + pass) % ways
}

// vary plays a bar in one of the section's ways. Both have as many strokes as the bar that is
// written, where that can be, or a few more where the energy is high: a kick more is a stroke
// of the time less.
func (b *barStrokes) vary(way int) {
	if way == 0 {
		return
	}
	c := b.SectionChance("drum bar").At(-int64(way), int64(b.Energy(b.bar)))
	before := len(b.notes)
	want := before + busier.At(b.Energy(b.bar))
	var changed bool
	if way == 1 {
		changed = b.addKick(c.At(1))
		if len(b.notes)-len(b.loose()) < want { // there is a stroke to leave out for it
			changed = b.addGhost(c.At(0)) || changed
		}
	} else {
		changed = b.dropKick(c.At(1))
	}
	for n := len(b.notes); n > want && b.skip(c.At(2, int64(n))); n-- {
	}
	for n := len(b.notes); n < want && (b.fillIn(c.At(3, int64(n))) || b.addKick(c.At(3, int64(n)))); n++ {
	}
	moved := int64(max(0, before/manyStrokes-busier.At(b.Energy(b.bar))))
	if !changed {
		moved = max(moved, 1)
	}
	for i := range moved {
		from, to := pick(b.loose(), c.At(4, i)), pick(b.gaps(), c.At(5, i))
		if to >= 0 && from >= 0 {
			b.add(to, b.time, feel.Ghost)
		}
		if from >= 0 && (to >= 0 || before >= busyBar) {
			b.drop(b.find(from, b.isTime))
		}
	}
}

// manyStrokes is how many strokes of a bar there are to each stroke of the time that stands
// elsewhere in another way to play it.
const manyStrokes = 6

// isSparse reports whether one voice alone keeps the time, a stroke a beat or fewer.
func (b *barStrokes) isSparse() bool {
	for i := range b.notes {
		if b.notes[i].Key != b.notes[0].Key {
			return false
		}
	}
	return len(b.notes) <= len(b.BeatStarts(b.bar))
}

// pickUp adds a soft stroke before the next bar, or before its second half, to two bars of
// each phrase where the drummer hardly plays. A stroke that is there already is left out.
func (b *barStrokes) pickUp() {
	first, _ := b.Phrase(b.bar)
	i, turn := b.bar-first, b.Song.Take+b.Pass.Ordinal
	beats := len(b.BeatStarts(b.bar))
	if i%4 != 1+turn%2 {
		return
	}
	k := beats - 1
	if turn/2%2 == 1 {
		k = (beats - 1) / 2
	}
	step, v := b.pickup(k), b.notes[0].Voice.Instrument()
	if at := b.find(step, func(x feel.Voice) bool { return x.Key == v.Key }); at >= 0 {
		b.drop(at) // it is struck on every off-beat
		return
	}
	b.add(step, v, feel.Ghost)
}

// busyBar is how many strokes make a bar that can do with one less.
const busyBar = 16

// pick is one of some steps, -1 if there are none.
func pick(steps []int, c plan.Chance) int {
	if len(steps) == 0 {
		return -1
	}
	return steps[c.Below(len(steps))]
}

// words are the steps of the bar at which the feel has strokes of some kind at this energy, or
// at one that is not further away than so many steps.
func (b *barStrokes) words(away int, is func(r *feel.Row, s feel.Stroke) bool) []int {
	var out []int
	energy := b.Energy(b.bar)
	for i, st := range b.steps {
		found := false
		for e := max(1, energy-away); e <= min(5, energy+away); e++ {
			lv := &b.Feel.Levels[e-1]
			found = found || hasWord(lv.Drums, st.Index%b.Feel.Grid, b.Feel.Grid, is) ||
				lv.Answer != nil && hasWord(lv.Answer.Drums, st.Index%b.Feel.Grid, b.Feel.Grid, is)
		}
		if found {
			out = append(out, i)
		}
	}
	return out
}

// hasWord reports whether rows have a stroke of some kind at a step of any of their bars.
func hasWord(rows []feel.Row, step, grid int, is func(r *feel.Row, s feel.Stroke) bool) bool {
	for i := range rows {
		for at := step; at < len(rows[i].Steps); at += grid {
			if is(&rows[i], rows[i].Steps[at]) {
				return true
			}
		}
	}
	return false
}

// addKick adds a soft kick where the feel has one at another energy, or else just before a
// beat that has one.
func (b *barStrokes) addKick(c plan.Chance) bool {
	if !b.hasKick() {
		return false
	}
	kick := func(r *feel.Row, s feel.Stroke) bool { return isKick(r.Voice) && s.Touch > feel.Ghost }
	var at []int
	for _, i := range b.words(1, kick) {
		if b.find(i, isKick) < 0 {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		for k := range b.BeatStarts(b.bar) {
			if i := b.pickup(k); b.find(i, isKick) < 0 {
				at = append(at, i)
			}
		}
	}
	return b.addOne(at, kickVoice, feel.Soft, c)
}

// addOne adds a stroke at one of some steps.
func (b *barStrokes) addOne(at []int, v feel.Voice, t feel.Touch, c plan.Chance) bool {
	for first := c.Below(max(1, len(at))); len(at) > 0; first = 0 {
		i := at[first]
		if b.try(func() { b.add(i, v, t) }) {
			return true
		}
		at = append(at[:first:first], at[first+1:]...)
	}
	return false
}

// hasKick reports whether the kick speaks in the bar, and is not only felt.
func (b *barStrokes) hasKick() bool {
	for i := range b.notes {
		if n := &b.notes[i]; isKick(n.Voice.Instrument()) && n.Touch > feel.Ghost {
			return true
		}
	}
	return false
}

// dropKick leaves out a kick that is soft or off the beat, never the first of the bar.
func (b *barStrokes) dropKick(c plan.Chance) bool {
	var at []int
	for i := range b.steps {
		if k := b.find(i, isKick); k >= 0 && i > 0 && (b.notes[k].Touch <= feel.Soft || b.place(i) > 0) {
			at = append(at, i)
		}
	}
	return b.dropOne(at, isKick, c)
}

// dropOne leaves out the stroke of a voice at one of some steps.
func (b *barStrokes) dropOne(at []int, is func(v feel.Voice) bool, c plan.Chance) bool {
	i := pick(at, c)
	return i >= 0 && b.try(func() { b.drop(b.find(i, is)) })
}

// addGhost adds a ghost stroke of the snare where the feel has one at another energy. A level
// that has ghosts of its own has enough of them.
func (b *barStrokes) addGhost(c plan.Chance) bool {
	ghost := func(r *feel.Row, s feel.Stroke) bool { return isSnare(r.Voice) && s.Touch == feel.Ghost }
	if b.backbeat(b.bar) != snareVoice || len(b.words(0, ghost)) > 0 {
		return false
	}
	var at []int
	for _, i := range b.words(2, ghost) {
		if b.find(i, isSnare) < 0 && b.handsAt(i) < 2 {
			at = append(at, i)
		}
	}
	return b.addOne(at, snareVoice, feel.Ghost, c)
}

// handsAt is how many hands strike at a step.
func (b *barStrokes) handsAt(step int) int {
	n := 0
	for i := range b.notes {
		if b.notes[i].At == b.steps[step].Tick && b.notes[i].Voice.Limb() == feel.Hand {
			n++
		}
	}
	return n
}

// loose are the steps at which the time has a stroke that is not missed: a soft one between
// beats, or any there but the strongest where the whole band plays; where it has none, as when
// the off-beats lead, a soft one on a beat.
func (b *barStrokes) loose() []int {
	most := feel.Soft
	if crashes.At(b.Energy(b.bar)) && !b.time.Backbeat() {
		most = feel.Normal
	}
	var between, beats []int
	for i := range b.steps {
		k := b.find(i, b.isTime)
		switch {
		case k < 0:
		case b.place(i) > 0 && b.notes[k].Touch <= most:
			between = append(between, i)
		case i > 0 && b.place(i) == 0 && b.notes[k].Touch <= feel.Soft && b.time.Word == "hat" && b.handsAt(i) == 1:
			beats = append(beats, i)
		}
	}
	if len(between) == 0 && b.find(0, isKick) >= 0 {
		return beats
	}
	return between
}

// gaps are the steps between beats at which no hand strikes: off-beats and what leads into a
// beat, or where all of those are struck, the others.
func (b *barStrokes) gaps() []int {
	var lead, other []int
	for i := range b.steps {
		switch {
		case b.time.Word == "" || b.place(i) == 0 || b.handsAt(i) > 0:
		case b.place(i) == 1, i+1 == len(b.steps), b.place(i+1) == 0:
			lead = append(lead, i)
		default:
			other = append(other, i)
		}
	}
	if len(lead) == 0 {
		return other
	}
	return lead
}

// skip leaves out a stroke of the time between beats.
func (b *barStrokes) skip(c plan.Chance) bool { return b.dropOne(b.loose(), b.isTime, c) }

// fillIn adds a ghost stroke of the time between beats, where it has none.
func (b *barStrokes) fillIn(c plan.Chance) bool { return b.addOne(b.gaps(), b.time, feel.Ghost, c) }
