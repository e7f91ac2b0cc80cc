package bed

import "plinth/songspec/timeline"

// struckOver reports a note of bass or piano that belongs to a push over the border: the
// next pass plays it.
func (a *agreement) struckOver(who timeline.Player, n heardNote, q *ruledPush) bool {
	return q.over && who != timeline.Drums && q.struck.Has(who) && a.asksFor(who, n, []int64{q.from})
}

// softerThanNext reports a note of a push over the border that is no accent. The next
// pass plays it as loud as its own first bar, and knows of no accent before it in the bar.
func (a *agreement) softerThanNext(who timeline.Player, n heardNote) bool {
	for i := range a.pushes {
		if a.struckOver(who, n, &a.pushes[i]) {
			a.count("skipped: a push into a louder pass")
			return true
		}
	}
	return false
}
