package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// Finish leaves what two hands and two feet can play.
func (d *Drummer) Finish(t *touch.Playing, drafts []touch.Draft) []touch.Draft {
	drafts = d.restFootAfterEntry(t, t.LeaveTimeAtBorder(drafts, nil))
	return withinHandSpeed(t, makeRoomForHits(t, drafts))
}

// restFootAfterEntry takes away the kicks that come too soon after a push that took the pass's
// first chord ahead of the bar line: the push was this pass's first kick. What is written on
// the bar line the hands strike alone.
func (d *Drummer) restFootAfterEntry(t *touch.Playing, notes []touch.Draft) []touch.Draft {
	e := d.Pass.Entry
	if e == nil || d.Pass.Before == nil || !e.By.Has(timeline.Drums) {
		return notes
	}
	from := entryMicros(d.Pass.Before, d.Swung(e.Tick)) + limbGapUS + strayUS
	c := t.Clock()
	return score.Without(notes, func(i int) bool {
		return notes[i].Voice.Limb() == feel.RightFoot && c.Micros(notes[i].Start) < from
	})
}

// strayUS is how far two strokes may stray towards one another, in microseconds.
const strayUS = 15_000

// entryMicros is when a push was struck, in microseconds from the bar line that it leads to, so
// it is negative.
func entryMicros(before *timeline.Neighbour, tick int64) int64 {
	return tick * 60_000_000 * 1000 / (int64(max(1, before.BPM)) * before.Meter.TempoTicks())
}

// makeRoomForHits takes away the strokes of the time that come so shortly before a hit, as
// they are played, that the hit would have to wait for a limb: it is struck whole. Around a
// hit on the hat the hat does nothing else.
func makeRoomForHits(t *touch.Playing, notes []touch.Draft) []touch.Draft {
	c := t.Clock()
	us := make([]int64, len(notes))
	for i := range notes {
		us[i] = c.Micros(notes[i].Start)
	}
	gone := map[int]bool{}
	for i := range notes {
		if !isHit(notes[i].Note) {
			continue
		}
		for _, step := range [2]int{-1, 1} {
			for j := i + step; isNear(us, i, j); j += step {
				if sameHat(notes[i].Note, notes[j].Note) && !isHit(notes[j].Note) {
					gone[j] = true
				}
			}
		}
		limbs := 1
		if notes[i].Voice.Limb() == feel.Hand {
			limbs = 2
		}
		var near []int // the strokes of its limb that it comes too soon after, latest first
		for j := i - 1; j >= 0 && us[i]-us[j] < touch.AgainUS; j-- {
			if notes[j].Roll == 0 && !gone[j] && notes[j].Voice.Limb() == notes[i].Voice.Limb() {
				near = append(near, j)
			}
		}
		for over := len(near) + 1 - limbs; over > 0 && len(near) > 0; near = near[:len(near)-1] {
			if j := near[len(near)-1]; !isHit(notes[j].Note) {
				gone[j] = true
				over--
			}
		}
	}
	return score.Without(notes, func(i int) bool { return gone[i] })
}

// isHit reports whether a stroke answers an accent or a push.
func isHit(n *score.Note) bool { return n.Art.Has(score.Accent) || n.Art.Has(score.Pushed) }

// withinHandSpeed keeps the strokes, as they are played, within the speed of two hands and
// two feet. A stroke that timing brought too close is delayed as far as needed, or left out
// when the delay would carry it over a fence. A grace stroke counts as part of the stroke
// that it leads to: the two of a drag are the rebound of one hand.
func withinHandSpeed(t *touch.Playing, notes []touch.Draft) []touch.Draft {
	c, last := t.Clock(), touch.LastStroke(t.Plan, timeline.Drums)
	const never = -1 << 62
	recent := [3][2]int64{{never, never}, {never, never}, {never, never}} // each limb's latest two strokes, in order
	out := notes[:0]
	for _, n := range notes {
		if n.Roll != 0 {
			out = append(out, n)
			continue
		}
		struck := &recent[n.Voice.Limb()]
		before := struck[1]
		if n.Voice.Limb() == feel.Hand { // there are two hands
			before = struck[0]
		}
		us := c.Micros(n.Start)
		if wait := before + touch.AgainUS - us; wait > 0 {
			late := c.Shift(n.Start, wait)
			for c.Micros(late) < us+wait {
				late++ // ticks are coarser than microseconds
			}
			high := t.Latest(n.Note)
			if n.Start <= last {
				high = min(high, last+2)
			}
			if late+1 >= high {
				continue
			}
			n.End = min(max(n.End+late-n.Start, late+1), high)
			n.Start = late
		}
		us = c.Micros(n.Start)
		*struck = [2]int64{max(struck[0], min(struck[1], us)), max(struck[1], us)}
		out = append(out, n)
	}
	touch.SortDrafts(out)
	return out
}
