package drummer

import (
	"sort"

	"plinth/groove/feel"
)

// isJoint reports whether a bar ends a phrase of eight bars inside the section, where from
// energy 3 up the drummer says so; no pushed chord, no stop and no written hit or fill may be
// in it.
func (b *barStrokes) isJoint() bool {
	first, size := b.Phrase(b.bar)
	if size != phraseBars || b.bar != first+size-1 || b.bar == len(b.Pass.Bars)-1 || !snareDrum.At(b.Energy(b.bar)) {
		return false
	}
	start, end := b.Pass.Bars[b.bar].Start, b.BarEnd(b.bar)
	list := b.Cues.List
	near := sort.Search(len(list), func(i int) bool { return list[i].At >= start-b.Pass.Bars[b.bar-1].Length })
	for _, q := range list[near:] {
		if q.At >= end {
			break
		}
		if q.Span < 0 && q.At >= start || q.Pushed() && q.Target >= start {
			return false
		}
	}
	return true
}

// jointFigures is how many figures there are for a joint.
const jointFigures = 3

// playJoint marks the end of a phrase with a small figure on the last beat, less than a fill:
// an open hat over a kick, soft strokes of the snare, or the kick alone.
func (b *barStrokes) playJoint() {
	last := len(b.BeatStarts(b.bar)) - 1
	from, end := b.beat(last)
	off := b.pickup(last)
	for i := from; i < end; i++ { // the hands let go of the time, and the backbeat stays
		for _, is := range []func(v feel.Voice) bool{b.isTime, isSnare} {
			if k := b.find(i, is); k >= 0 && (i > from || !b.notes[k].Voice.Instrument().Backbeat()) {
				b.drop(k)
			}
		}
	}
	figure := (b.SectionChance("drum joint").At(int64(b.bar)).Below(jointFigures) + b.Pass.Ordinal) % jointFigures
	back, kick, open := b.backbeat(b.bar), b.kickTouch(), feel.Soft
	if crashes.At(b.Energy(b.bar)) {
		open = b.withBrushes(feel.Normal)
	}
	b.put(from, kickVoice, kick)
	switch figure {
	case 0:
		b.put(off, openVoice, open)
		b.put(off, kickVoice, kick)
	case 1:
		b.put(from, back, feel.Soft)
		b.put(off, back, feel.Soft)
		b.put(end-1, back, feel.Soft)
	default:
		b.put(off, lowTomVoice, feel.Soft)
		b.put(off, kickVoice, kick)
		b.put(end-1, back, b.lightTouch())
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

// lightTouch is how light a stroke of the backbeat's drum can be: a ghost where the feel has
// ghosts near this energy, which a ballad has not.
func (b *barStrokes) lightTouch() feel.Touch {
	ghost := func(r *feel.Row, s feel.Stroke) bool { return r.Voice.Backbeat() && s.Touch == feel.Ghost }
	if len(b.words(2, ghost)) > 0 {
		return feel.Ghost
	}
	return feel.Soft
}

// put adds a stroke unless the voice has one there.
func (b *barStrokes) put(step int, v feel.Voice, t feel.Touch) {
	if b.find(step, func(x feel.Voice) bool { return x.Key == v.Key }) < 0 {
		b.try(func() { b.add(step, v, t) })
	}
}
