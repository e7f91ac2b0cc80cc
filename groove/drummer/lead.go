package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/score"
)

// A bar before the border takes so much of the step in strokes to the next energy, in per
// cent: more of it upwards, as a fill is in its way.
const upPerCent, downPerCent = 30, 20

// leadStrokes is how many strokes a bar that leads to an energy has more, or fewer, than its
// own: a share of the difference between the levels, one at least.
func (b *barStrokes) leadStrokes(to, perCent int) int {
	own, next := strokesABar(b.level), strokesABar(&b.FeelIn(b.bar).Levels[to-1])
	return max(1, (max(own-next, next-own)*perCent+50)/100)
}

// strokesABar is how many strokes a level has in a bar.
func strokesABar(lv *feel.Level) int {
	n := 0
	for _, r := range lv.Drums {
		for _, s := range r.Steps {
			if s.Touch > feel.Sound {
				n++
			}
		}
	}
	return n / max(1, lv.Bars)
}

// thicken leads up to an energy: a kick that picks up the next bar, the hat opens before it,
// and what else the time has room for.
func (b *barStrokes) thicken(to int) {
	c := b.SectionChance("drum lead").At(int64(b.bar))
	more := len(b.notes) + b.leadStrokes(to, upPerCent)
	last := b.pickup(len(b.BeatStarts(b.bar)) - 1)
	if b.hasKick() {
		b.put(last, kickVoice, feel.Soft)
	}
	if b.time.Word == "hat" && snareDrum.At(to) {
		if k := b.find(last, b.isTime); k >= 0 {
			b.drop(k)
		}
		b.put(last, openVoice, feel.Soft)
	}
	for i := int64(0); len(b.notes) < more; i++ {
		if !b.fillIn(c.At(i)) && !b.addKick(c.At(i)) {
			return
		}
	}
}

// thinOut leads down to an energy: no open hat, no ghosts, fewer strokes between the beats,
// and in the last bar the hat in place of the ride where the next energy has a hat.
func (b *barStrokes) thinOut(to int) {
	c := b.SectionChance("drum lead").At(int64(b.bar))
	fewer := len(b.notes) - b.leadStrokes(to, downPerCent)
	b.closeHats()
	if b.endsOpen() {
		b.leaveOpen()
	}
	for i := range b.steps {
		if k := b.find(i, isSnare); k >= 0 && b.notes[k].Touch == feel.Ghost && len(b.notes) > fewer {
			b.drop(k)
		}
	}
	for i := int64(0); len(b.notes) > fewer; i++ {
		if !b.skip(c.At(i)) && !b.dropKick(c.At(i)) {
			break
		}
	}
	if b.bar == len(b.Pass.Bars)-1 && b.time.Word == "ride" && b.Texture(&b.FeelIn(b.bar).Levels[to-1]) == "hat" {
		b.revoice(kindRide, hatVoice)
	}
}

// closeHats plays the strokes of the open hat on the closed one.
func (b *barStrokes) closeHats() { b.revoice(kindOpen, hatVoice) }

// revoice plays the strokes of a kind of instruments on another.
func (b *barStrokes) revoice(from kind, to feel.Voice) {
	for i := range b.notes {
		if n := &b.notes[i]; kindOf(n.Key) == from {
			n.Key, n.Voice = to.Key, score.Kit(to)
		}
	}
}
