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
	notes = slices.DeleteFunc(notes, func(n score.Note) bool {
		_, tied := pushes.Over(n.At)
		asked := n.Art.Has(score.Accent) || n.Art.Has(score.Pushed)
		switch {
		case silences.Has(n.At), tied, n.At > end, n.At >= p.Pass.Length:
			return true
		case !asked && (p.Cues.Holds.Has(n.At) || p.Cues.Alone[p.BarAt(n.At)]):
			return true
		}
		// A push out of the pass: players with chords strike it in the next pass.
		return n.At == end && (who.Chords() || !n.Art.Has(score.Pushed))
	})
	score.ByTick(notes)
	return notes
}
