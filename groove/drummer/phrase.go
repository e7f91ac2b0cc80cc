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
// the strokes of the bar. It does nothing in a rit, or where the song comes to rest.
func (d *Drummer) shapeBar(bar int, steps []plan.Step, notes []score.Note) []score.Note {
	if len(notes) == 0 || bar == d.Ending() || d.Cues.Rits.Over(d.Pass.Bars[bar].Start, d.BarEnd(bar)) {
		return notes
	}
	b, ok := d.strokesOf(bar, steps, notes)
	if !ok {
		return notes
	}
	if before := d.Pass.Before; bar == 0 && before != nil && before.Energy > d.Energy(bar) || d.Falls(bar) {
		b.closeHats() // after a climax the band holds back
	}
	if s := d.SweepAt(bar); bar == len(d.Pass.Bars)-1 && s.From < s.To &&
		d.Texture(&d.FeelIn(bar).Levels[s.From-1]) == "hat" {
		b.revoice(kindRide, hatVoice) // the hand changes with the section, and not a bar before
	}
	switch to := d.LeadsTo(bar); {
	case b.isJoint():
		b.playJoint()
	case to > d.Energy(bar) && !d.Cues.Caesuras().Has(d.BarEnd(bar)-1):
		b.thicken(to)
	case to < d.Energy(bar) && bar == len(d.Pass.Bars)-1:
		b.thinOut(to)
	case b.isSparse():
		b.pickUp()
	default:
		b.vary(b.way(), b.settle())
	}
	if b.Pass.After == nil {
		b.leaveOpen()
	}
	score.ByTick(b.notes)
	return b.notes
}

// settle makes the bar that is written the section's own in this take: in most takes one
// stroke of the time stands elsewhere, or where it runs without a gap there is a kick in its place;
// a hat in eighths rests after a backbeat, and the kick has a stroke more; a snare that runs lets go
// of two ghosts. It does so in every bar alike, as a drummer settles on a figure for the day. moved
// is how many strokes of the time stand elsewhere.
func (b *barStrokes) settle() (moved int64) {
	c := b.SectionChance("drum home").At(int64(b.Energy(b.bar)))
	if c.Below(6) == 0 || len(b.notes) < fullBar {
		return 0
	}
	if b.isSteady() {
		if b.addKick(c.At(3)) {
			b.restAfterBackbeat(c.At(4))
		}
		return 0
	}
	from, to := pick(b.loose(), c.At(1)), pick(b.gaps(), c.At(2))
	switch {
	case from >= 0 && to >= 0:
		b.add(to, b.time, feel.Ghost)
		b.drop(b.find(from, b.isTime))
		return 1
	case isSnare(b.time):
		b.addKick(c.At(3))
		b.skip(c.At(4))
		b.skip(c.At(5))
	case crashes.At(b.Energy(b.bar)) && b.addKick(c.At(3)):
		b.skip(c.At(4))
	}
	return 0
}

// fullBar is how many strokes make a bar in which a stroke of the time can stand elsewhere.
const fullBar = 9

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
// of the time less. already is how many strokes of the time stand elsewhere: the time bears so
// many and no more.
func (b *barStrokes) vary(way int, already int64) {
	if way == 0 {
		return
	}
	c := b.SectionChance("drum bar").At(-int64(way), int64(b.Energy(b.bar)))
	before := len(b.notes)
	want := before
	if !b.isSteady() {
		want += busier.At(b.Energy(b.bar))
	}
	var changed bool
	if way == 1 {
		changed = b.addKick(c.At(1))
		if b.isSteady() || len(b.notes)-len(b.loose()) < want { // there is a stroke to leave out for it
			changed = b.addGhost(c.At(0)) || changed
		}
	} else {
		changed = b.dropKick(c.At(1))
		if b.isSteady() || before > busyBar { // or a snare that runs
			changed = b.addKick(c.At(6)) || changed
			b.skip(c.At(7))
		}
	}
	for n := len(b.notes); n > want && b.skip(c.At(2, int64(n))); n-- {
	}
	for n := len(b.notes); n < want && (b.fillIn(c.At(3, int64(n))) || b.fillInLow(c.At(3, int64(n)))); n++ {
	}
	if isSnare(b.time) { // it lets go of two ghosts
		b.skip(c.At(4, 0))
		b.skip(c.At(4, 1))
		return
	}
	moved := int64(max(0, before/manyStrokes-busier.At(b.Energy(b.bar))))
	if b.BrushesIn(b.bar) {
		moved++
	}
	if moved -= already; !changed {
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

// fillInLow adds a kick, as where the time has no gap. In swing the kick is felt and not heard.
func (b *barStrokes) fillInLow(c plan.Chance) bool { return !b.SwingIn(b.bar).Triplets && b.addKick(c) }

// manyStrokes is how many strokes of a bar there are to each stroke of the time that stands
// elsewhere in another way to play it.
const manyStrokes = 5

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
	if !v.Backbeat() { // a stick off the beat and alone would be heard as a slip
		b.add(step, v, feel.Ghost)
	}
}

// busyBar is how many strokes make a bar that can do with one less.
const busyBar = 16
