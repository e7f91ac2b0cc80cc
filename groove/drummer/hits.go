package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// strikePushes strikes every push that the drummer takes part in, with kick and backbeat, or
// with kick and crash when it leads to energy 4 or 5, as hard as possible only into 5. A
// push inside a section does not open a section, so its crash is a little lighter. The
// strokes between a push and its target are taken away later, see plan.Allowed.
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
		if crashes.At(into) {
			if q.Target < d.Pass.Length {
				touch-- // Normal, or Soft
			}
			kick.Touch = d.withBrushes(kick.Touch)
			hand = newStroke(crashVoice, q.At, q.At+strokeTicks, d.withBrushes(touch))
			crashAt = append(crashAt, q.At)
		}
		kick.Art, hand.Art = score.Pushed, score.Pushed
		notes = append(notes, withCue(i, kick, hand)...)
	}
	return withoutCymbals(notes, crashAt...)
}

// strikeAccents strikes every accent that names the drummer, with kick and snare, or below
// energy 3 with kick and what marks the backbeat. The crash is added at weight 2 from energy
// 4 up, and at weight 3 always.
func (d *Drummer) strikeAccents(notes []score.Note) []score.Note {
	for i, q := range d.Cues.Each(cue.Accent, timeline.Drums) {
		energy := d.Energy(int(q.Bar))
		hit := []feel.Voice{kickVoice, snareVoice}
		if !snareDrum.At(energy) {
			hit[1] = d.backbeat(int(q.Bar))
		}
		if q.Weight >= 3 || q.Weight == 2 && crashes.At(energy) {
			hit = append(hit, crashVoice)
		}
		for _, v := range hit {
			n := newStroke(v, q.At, q.At+strokeTicks, feel.Strong)
			n.Cue, n.Art = i, score.Accent
			if q.Pushed() {
				n.Art |= score.Pushed
			}
			notes = append(notes, n)
		}
	}
	return notes
}
