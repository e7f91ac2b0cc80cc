package drummer

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// Kit is the kit of the song: the kit that it asks for, or else the kit of the first pass
// that has drums.
func Kit(tl *timeline.Timeline, set *feel.Set) string {
	if tl.Drums.Kit != "" {
		return tl.Drums.Kit
	}
	for i := range tl.Passes {
		pass := &tl.Passes[i]
		for bar := range pass.Bars {
			f := set.Feels[pass.FeelAt(bar)]
			if f != nil && !pass.TacetAt(bar).Has(timeline.Drums) && len(f.Levels[pass.EnergyAt(bar)-1].Drums) > 0 {
				return f.Kit
			}
		}
	}
	return "standard"
}

// sticksUS is how long the hands need to put sticks down and take brushes up, in microseconds. They
// have it in whole beats, and never more than half of the bar. Common practice, no single source.
const sticksUS = 1_000_000

// changeSticks takes away the strokes of the hands in the beats before brushes are taken up or put
// down; the feet go on, and what the song file asks for stays.
func (d *Drummer) changeSticks(notes []score.Note) []score.Note {
	for bar := range d.Pass.Bars {
		if !d.ChangesSticks(bar) {
			continue
		}
		from, to := d.sticksChange(bar)
		notes = slices.DeleteFunc(notes, func(n score.Note) bool {
			return n.At >= from && n.At < to && n.Cue < 0 && n.Voice.Limb() == feel.Hand
		})
		for i := range notes {
			if n := &notes[i]; n.At < from && n.End() > from {
				n.Hold(from) // the sweep of a brush
			}
		}
	}
	return notes
}

// sticksChange is when the hands change sticks at the end of a bar: up to the bar line, or to the
// push over it.
func (d *Drummer) sticksChange(bar int) (from, to int64) {
	to = d.BarEnd(bar)
	if push, ok := d.Cues.Pushes(timeline.Drums).Over(to); ok {
		to = push.From
	}
	b, beats, c := &d.Pass.Bars[bar], d.BeatStarts(bar), d.Clock()
	for i := len(beats) - 1; i >= len(beats)/2; i-- {
		if from = b.Start + beats[i]; c.Micros(to)-c.Micros(from) >= sticksUS {
			break
		}
	}
	return min(from, to), to
}
