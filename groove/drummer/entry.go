package drummer

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// pickUpEntry is what the drummer strikes in a section that he keeps out of: nothing, or in
// its last beat a soft pickup of one or two strokes into the section in which he comes in. It
// needs a border that the song lets the band fill and lead over, and a last beat without a
// stop, a held beat, a hit, a push or the singer's own pickup, in which somebody plays: where
// everybody keeps out the bar is to be silent. Common practice, no single
// source.
func (d *Drummer) pickUpEntry() []score.Note {
	a, last := d.Pass.After, len(d.Pass.Bars)-1
	if a == nil || !d.Pass.Fills || !d.Pass.Lead || a.Tacet.Has(timeline.Drums) || last < 0 || d.Cues.Alone[last] ||
		d.Pass.TacetAt(last) == timeline.All {
		return nil
	}
	beats := d.BeatStarts(last)
	s := cue.Stretch{Start: d.Pass.Bars[last].Start + beats[len(beats)-1], End: d.Pass.Length}
	if d.Cues.Silences(timeline.Drums).Over(s.Start, s.End) || d.Cues.Holds.Over(s.Start, s.End) || d.singerEnters(s) ||
		slices.ContainsFunc(d.Cues.List, func(q cue.Cue) bool {
			return q.At >= s.Start && (q.Kind == cue.Accent || q.Kind == cue.Chord && q.Pushed())
		}) {
		return nil
	}
	drum, ok := entryDrum(&d.FeelIn(last).Levels[a.Energy-1])
	if !ok {
		return nil
	}
	off := d.beatBefore(d.Pass.Length)
	out := []score.Note{newStroke(drum, off, off+strokeTicks, d.withBrushes(last, feel.Soft))}
	if snareDrum.At(a.Energy) && d.Chance("drum entry").Below(2) == 0 {
		out = slices.Insert(out, 0, newStroke(drum, s.Start, s.Start+strokeTicks, feel.Ghost))
	}
	return out
}

// entryDrum is what the drummer picks up on at a level: the drum of its backbeat, or else the
// hat. The feel is this section's, as a pass knows no more of the next than its energy.
func entryDrum(lv *feel.Level) (feel.Voice, bool) {
	for _, is := range []func(v feel.Voice) bool{isSnare, feel.Voice.Backbeat, feel.Voice.HatFamily} {
		if i := slices.IndexFunc(lv.Drums, func(r feel.Row) bool { return is(r.Voice) }); i >= 0 {
			return lv.Drums[i].Voice, true
		}
	}
	return feel.Voice{}, false
}
