package drummer

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// isJoint reports whether a bar ends a phrase of eight bars inside the section, where from
// energy 3 up the drummer says so; no pushed chord, no stop and no written hit or fill may be
// in it, and the drummer must play in the next bar.
func (b *barStrokes) isJoint() bool {
	first, size := b.Phrase(b.bar)
	if size != phraseBars || b.bar != first+size-1 || b.bar == len(b.Pass.Bars)-1 || !snareDrum.At(b.Energy(b.bar)) ||
		b.Pass.TacetAt(b.bar+1).Has(timeline.Drums) {
		return false
	}
	start, end := b.Pass.Bars[b.bar].Start, b.BarEnd(b.bar)
	list := b.Cues.List
	near := sort.Search(len(list), func(i int) bool { return list[i].At >= start-b.Pass.Bars[b.bar-1].Length })
	for _, q := range list[near:] {
		if q.At >= end {
			break
		}
		if q.Span < 0 && q.Kind != cue.Signal && q.At >= start || q.Pushed() && q.Target >= start {
			return false
		}
	}
	return true
}

// jointFigures is how many figures there are for a joint.
const jointFigures = 3

// playJoint marks the end of a phrase on the last off-beat, less than a fill: a small open hat,
// a soft kick, or both, and a kick that leads to the backbeat. The backbeat on the last beat
// stays as it is, and after the off-beat there is nothing, as that is where the singer breathes.
func (b *barStrokes) playJoint() {
	last := len(b.BeatStarts(b.bar)) - 1
	from, end := b.beat(last)
	off := b.pickup(last)
	opens := b.find(off, func(v feel.Voice) bool { return v.Key == openVoice.Key }) >= 0
	figure := (b.SectionChance("drum joint").At(int64(b.bar)).Below(jointFigures) + b.Pass.Ordinal) % jointFigures
	if k := b.find(from, b.isTime); k >= 0 && b.find(from, feel.Voice.Backbeat) < 0 {
		b.drop(k) // no backbeat is there: the hands let go
		figure = jointFigures - 1
		if k := b.find(b.pickup(max(0, last-1)), b.isTime); k >= 0 {
			b.drop(k)
		}
	}
	for i := off; i < end; i++ {
		b.clear(i)
	}
	for i := off - 1; i > 0 && b.place(i) > 0; i-- { // nor between the beat and the off-beat
		b.clear(i)
	}
	// Where the hat opens on every off-beat, it does not.
	if (figure != 1 || !b.hasKick()) && !opens {
		b.put(off, openVoice, feel.Soft)
	}
	if last > 0 {
		b.put(b.pickup(last-1), kickVoice, b.kickTouch())
	}
	if figure != 0 {
		b.put(off, kickVoice, b.kickTouch())
	}
}

// clear takes away all strokes at a step but those of the foot on the hat.
func (b *barStrokes) clear(step int) {
	b.notes = slices.DeleteFunc(b.notes, func(n score.Note) bool {
		return n.At == b.steps[step].Tick && n.Voice.Limb() != feel.LeftFoot
	})
}

// endsOpen reports whether the last half beat of the bar is left empty: before a fall.
func (b *barStrokes) endsOpen() bool {
	return b.bar == len(b.Pass.Bars)-1 && b.LeadsTo(b.bar) < b.Energy(b.bar)
}

// leaveOpen leaves the last half beat of the pass empty.
func (b *barStrokes) leaveOpen() {
	last := len(b.BeatStarts(b.bar)) - 1
	if b.bar < len(b.Pass.Bars)-1 {
		return
	}
	for i := b.pickup(last); i < len(b.steps); i++ {
		if b.place(i) > 0 {
			b.clear(i)
		}
	}
}

// kickTouch is how hard a kick of a figure is: where the kick is only felt in the bar, it is
// no harder there.
func (b *barStrokes) kickTouch() feel.Touch {
	if b.hasKick() {
		return feel.Soft
	}
	return feel.Ghost
}

// put adds a stroke unless the voice has one there.
func (b *barStrokes) put(step int, v feel.Voice, t feel.Touch) {
	if b.find(step, func(x feel.Voice) bool { return x.Key == v.Key }) < 0 {
		b.try(func() { b.add(step, v, t) })
	}
}
