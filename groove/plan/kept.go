package plan

import (
	"slices"

	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// Allowed are the notes of a player that the events allow: none in a stop, none between a
// push and its beat, none in the rest of a held beat, and nothing but the written hits in a
// bar that has only those.
func (p *Plan) Allowed(who timeline.Player, notes []score.Note) []score.Note {
	silences, pushes, end := p.Cues.Silences(who), p.Cues.Pushes(who), p.Cues.End(who)
	events := len(silences)+len(pushes)+len(p.Cues.Holds) > 0 || slices.Contains(p.Cues.Alone, true)
	if !events && end == p.Pass.Length && (len(notes) == 0 || latestOf(notes) < end) {
		score.ByTick(notes)
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
		if p.Cues.Holds.Has(n.At) && !n.Art.Has(score.Accent) && !n.Art.Has(score.Pushed) {
			continue
		}
		if p.Cues.Alone[p.BarAt(n.At)] && !n.Art.Has(score.Accent) && !n.Art.Has(score.Pushed) {
			continue
		}
		if n.At > end || n.At >= p.Pass.Length {
			continue
		}
		if n.At == end && (who.Chords() || !n.Art.Has(score.Pushed)) {
			continue // a push out of the pass: players with chords strike it in the next pass
		}
		out = append(out, *n)
	}
	score.ByTick(out)
	return out
}

// latestOf is the tick of the note that starts last.
func latestOf(notes []score.Note) int64 {
	last := notes[0].At
	for i := range notes {
		last = max(last, notes[i].At)
	}
	return last
}
