package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
)

// The changes of one stroke that a drummer makes to a bar of the time. Where they can stand is
// the groove's own: its rows say where it has kicks and ghosts, and where its time has room.

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
	energy, f := b.Energy(b.bar), b.FeelIn(b.bar)
	for i, st := range b.steps {
		found := false
		for e := max(1, energy-away); e <= min(5, energy+away); e++ {
			lv := &f.Levels[e-1]
			found = found || hasWord(lv.Drums, st.Index%f.Grid, f.Grid, is) ||
				lv.Answer != nil && hasWord(lv.Answer.Drums, st.Index%f.Grid, f.Grid, is)
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
		if b.find(i, isKick) < 0 && !b.isWritten(i) {
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

// isWritten reports whether the kick at a step is only as the row has it: between the eighths of a
// quiet ballad, where the bass strikes with it and not without it. So is the kick that it leads to.
func (b *barStrokes) isWritten(step int) bool {
	if b.FeelIn(b.bar).Fills != "ballad" || snareDrum.At(b.Energy(b.bar)) {
		return false
	}
	between := func(i int) bool { return (b.steps[i].Tick-b.Pass.Bars[b.bar].Start)%(quarter/2) != 0 }
	return between(step) || step > 0 && between(step-1) && b.find(step-1, isKick) >= 0
}

// dropKick leaves out a kick that is soft or off the beat, never the first of the bar.
func (b *barStrokes) dropKick(c plan.Chance) bool {
	var at []int
	for i := range b.steps {
		k := b.find(i, isKick)
		if k >= 0 && i > 0 && !b.isWritten(i) && (b.notes[k].Touch <= feel.Soft || b.place(i) > 0) {
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
// beats, or where there is none and the whole band plays any but the strongest.
func (b *barStrokes) loose() []int {
	if b.isSteady() && b.time.Word == "hat" {
		return nil
	}
	var soft, louder []int
	for i := range b.steps {
		k := b.find(i, b.isTime)
		switch {
		case k < 0, isSnare(b.time) && b.notes[k].Touch > feel.Ghost: // what a running snare is heard by
		case b.place(i) > 0 && b.notes[k].Touch <= feel.Soft:
			soft = append(soft, i)
		case b.place(i) > 0 && b.notes[k].Touch == feel.Normal:
			louder = append(louder, i)
		}
	}
	switch {
	case len(soft) > 0:
		return soft
	case crashes.At(b.Energy(b.bar)) && !b.time.Backbeat():
		return louder
	}
	return nil
}

// isSteady reports whether the time is the hat's or the ride's, in eighths or fewer: it runs as the
// row has it, and ways to play the bar are the kick's. A hat that runs in more than that, or under
// a running snare, can do without a stroke. Common practice, no single source.
func (b *barStrokes) isSteady() bool {
	strokes, marks, beats := 0, 0, len(b.BeatStarts(b.bar))
	for i := range b.notes {
		switch v := b.notes[i].Voice.Instrument(); {
		case b.isTime(v):
			strokes++
		case isSnare(v), v.Backbeat() && b.time.Word == "hat":
			marks++
		}
	}
	if strokes > 2*beats || marks >= beats || b.Pass.Bars[b.bar].Meter.Compound() {
		return false
	}
	return b.time.Word == "hat" || b.time.Word == "ride" && !b.SwingIn(b.bar).Triplets && marks >= 2
}

// restAfterBackbeat leaves out the stroke of the time on the off-beat of a beat with a backbeat.
func (b *barStrokes) restAfterBackbeat(c plan.Chance) bool {
	var at []int
	for k := range b.BeatStarts(b.bar) {
		from, _ := b.beat(k)
		if off := b.pickup(k); b.find(from, feel.Voice.Backbeat) >= 0 && b.find(off, b.isTime) >= 0 && off > from {
			at = append(at, off)
		}
	}
	return b.dropOne(at, b.isTime, c)
}

// gaps are the steps between beats at which no hand strikes: off-beats and what leads into a
// beat, or where all of those are struck, the others. In swing the middle of three is no place
// for the time.
func (b *barStrokes) gaps() []int {
	if b.isSteady() {
		return nil
	}
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
	if len(lead) == 0 && !b.SwingIn(b.bar).Triplets {
		return other
	}
	return lead
}

// skip leaves out a stroke of the time between beats.
func (b *barStrokes) skip(c plan.Chance) bool { return b.dropOne(b.loose(), b.isTime, c) }

// fillIn adds a ghost stroke of the time between beats, where it has none.
func (b *barStrokes) fillIn(c plan.Chance) bool { return b.addOne(b.gaps(), b.time, feel.Ghost, c) }
