package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// strikePushes strikes every push that the drummer takes part in, with kick and backbeat, or
// with kick and crash when it leads to energy 4 or 5 and not down to it, as hard as possible
// only into 5. A push inside a section does not open a section, so its crash is a little
// lighter. The strokes between a push and its target are taken away later, see plan.Allowed.
func (d *Drummer) strikePushes(notes []score.Note) []score.Note {
	var crashAt []int64
	for i, q := range d.Cues.Each(cue.Chord, timeline.Drums) {
		bar := d.BarAt(q.At)
		if !d.keepsTime(bar) {
			continue
		}
		into := d.Energy(d.BarAt(q.Target))
		if q.Target >= d.Pass.Length {
			into = d.Energy(bar)
			if a := d.Pass.After; a != nil {
				into = a.Energy
			}
		}
		touch := feel.Normal
		if fullForce.At(into) {
			touch = feel.Strong
		}
		kick := newStroke(kickVoice, q.At, q.At+strokeTicks, touch)
		hand := newStroke(d.backbeat(bar), q.At, q.At+strokeTicks, touch)
		if crashes.At(into) && into >= d.Energy(bar) {
			if q.Target < d.Pass.Length {
				touch-- // Normal, or Soft
			}
			kick.Touch = d.withCrash(bar, kick.Touch)
			hand = newStroke(crashVoice, q.At, q.At+strokeTicks, d.withBrushes(bar, touch))
			crashAt = append(crashAt, q.At)
		}
		kick.Art, hand.Art = score.Pushed, score.Pushed
		notes = append(notes, withCue(i, kick, hand)...)
	}
	return d.withoutCymbals(notes, crashAt...)
}
