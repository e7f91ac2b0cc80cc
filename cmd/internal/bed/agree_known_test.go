package bed

import (
	"slices"
	"strings"

	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// What is known to break the rules, each as narrow as it can be said. Where one of them is
// mended, its function goes, and the check with it holds everywhere.

// struckOver reports a note of bass or piano that belongs to a push over the border: the
// next pass plays it.
func (a *agreement) struckOver(who timeline.Player, n heardNote, q *ruledPush) bool {
	return q.over && who != timeline.Drums && q.struck.Has(who) && a.asksFor(who, n, []int64{q.from})
}

// knownInStop reports a note that is known to sound in a stop.
func (a *agreement) knownInStop(who timeline.Player, n heardNote, from, to int64) bool {
	return a.ringsThrough(who, n, from) || a.aheadOfLine(who, n, to) || a.afterShort(who, n, from, to)
}

// twiceOver reports a bar line to which a player is led by a push over the border, and on
// which a push of his begins. Something is struck on it, and no fence keeps an early hand
// or a roll behind the line.
func (r *rules) twiceOver(who timeline.Player, line int64) bool {
	q := r.over(who, line)
	return q != nil && q.over && q.to == line && r.begins(who, line) != nil
}

// strikesTwice reports a song that cannot be written, since a drum is struck ahead of
// such a line while it sounds from the pass before.
func (r *rules) strikesTwice(err error) bool {
	if r.tl == nil || r.tl.Looseness == 0 || !strings.Contains(err.Error(), "is struck while it sounds") {
		return false
	}
	return slices.ContainsFunc(r.tl.Passes, func(p timeline.Pass) bool { return r.twiceOver(timeline.Drums, p.Start) })
}

// aheadOfLine reports a note that is struck ahead of such a line, into a stop that ends
// there.
func (a *agreement) aheadOfLine(who timeline.Player, n heardNote, line int64) bool {
	is := line < a.tl.End && a.twiceOver(who, line) && a.asksFor(who, n, []int64{line})
	if is {
		a.count("known: ahead of the line")
	}
	return is
}

// afterShort reports a note of the bass that goes on into a stop no longer than an eighth
// of a quarter, as far as the next note behind the stop strays late.
func (a *agreement) afterShort(who timeline.Player, n heardNote, from, to int64) bool {
	is := who == timeline.Bass && a.tl.Looseness > 0 && to-from <= 120 && n.start < from && n.end < to
	if is {
		a.count("known: into a short stop")
	}
	return is
}

// ringsThrough reports a note that a push over the border brings in front of a stop which
// begins at a tick. The next pass plays it, knows of no stop in the pass before, and lets
// it ring.
func (a *agreement) ringsThrough(who timeline.Player, n heardNote, stop int64) bool {
	for i := range a.pushes {
		if q := &a.pushes[i]; q.from < stop && stop < q.to && a.struckOver(who, n, q) {
			a.count("known: rings through a stop")
			return true
		}
	}
	return false
}

// softerThanNext reports a note of a push over the border that is no accent. The next
// pass plays it as loud as its own first bar, and knows of no accent before it in the bar.
func (a *agreement) softerThanNext(who timeline.Player, n heardNote) bool {
	for i := range a.pushes {
		if a.struckOver(who, n, &a.pushes[i]) {
			a.count("known: softer than the next pass's push")
			return true
		}
	}
	return false
}

// softBefore reports an accent on a push over the border out of a pass of one bar whose
// energy moves: the bar is played at the first figure, and the next pass is told the last.
func (a *agreement) softBefore(who timeline.Player, tick int64) bool {
	q := a.begins(who, tick)
	if q == nil || !q.over || who == timeline.Drums {
		return false
	}
	p := &a.tl.Passes[q.pass]
	is := len(p.Bars) == 1 && p.EnergyFrom != p.EnergyTo
	if is {
		a.count("known: energy of one bar")
	}
	return is
}

// lostInSwing reports an accent of the bass half-way in a beat, or up to its last triplet,
// where the tab swings in triplets. Its row has the off-beat on that triplet; both are
// played in one place, and the later one, which is no accent, is kept.
func (a *agreement) lostInSwing(who timeline.Player, tick int64) bool {
	p := &a.tl.Passes[a.tl.PassAt(tick)]
	f := a.res.Feels.Feels[p.Feel]
	if who != timeline.Bass || f.Swing.Mode == "" || !inTriplets(f) {
		return false
	}
	at := (tick - p.Start - p.Bars[p.BarAt(tick-p.Start)].Start) % 960
	is := 480 <= at && at < 640
	if is {
		a.count("known: lost in swing")
	}
	return is
}

// swungApart reports a place in a swung pass where a push leads over the border, and the
// next pass has another tempo or the last bar no whole pairs of long and short. The drummer
// swings it by his own pass; the others by the next one's tempo and back from its bar line.
func (a *agreement) swungApart(tick int64) bool {
	for _, q := range a.pushes {
		p := &a.tl.Passes[q.pass]
		pair := a.pair(p)
		if !q.over || q.from != tick || pair == 0 {
			continue
		}
		if a.tl.Passes[q.pass+1].BPM != p.BPM || p.Bars[len(p.Bars)-1].Length%pair != 0 {
			a.count("known: swung apart")
			return true
		}
	}
	return false
}

// inTriplets reports a groove whose steps are triplets of eighths.
func inTriplets(f *feel.Feel) bool {
	return len(f.Meters) > 0 && f.Meters[0].BarTicks()/int64(f.Grid) == 320
}

// takenOver reports a block that a section takes over from another and that does nothing in
// one of the two only: it is told as if it did nothing anywhere.
func (a *agreement) takenOver(copies map[string]*blockFate) bool {
	for _, f := range copies {
		if f.met && !f.acts && len(copies) > 1 {
			a.count("known: taken over")
			return true
		}
	}
	return false
}
