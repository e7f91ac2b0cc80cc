package plan

import (
	"slices"

	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// withRide is a level with the ride that its feel has where its bass walks, softly, in a bar in which the
// song asks for a walking bass and the hands keep no time: drummers walk with the bass. At energy 1 it is
// only felt. Common practice, no single source.
func (p *Plan) withRide(bar int, lv *feel.Level) *feel.Level {
	if p.Song.BandAt(p.Pass, bar).Bass.Line != timeline.LineWalk || p.Pass.TacetAt(bar).Has(timeline.Bass) ||
		len(lv.Drums) == 0 || walks(lv) || slices.ContainsFunc(lv.Drums, func(r feel.Row) bool {
		return r.Voice.Limb == feel.Hand && !r.Voice.Backbeat()
	}) {
		return lv
	}
	if out := p.ride[lv]; out != nil {
		return out
	}
	levels := p.bars[bar].feel.Levels
	for i := range levels {
		at := slices.IndexFunc(levels[i].Drums, func(r feel.Row) bool { return r.Voice.Word == "ride" })
		if at < 0 || !walks(&levels[i]) {
			continue
		}
		out := *lv
		out.Drums = append(slices.Clone(lv.Drums), softRide(levels[i].Drums[at], lv))
		if p.ride == nil {
			p.ride = map[*feel.Level]*feel.Level{}
		}
		p.ride[lv] = &out
		return &out
	}
	return lv
}

// walks reports whether the bass of a level walks of itself.
func walks(lv *feel.Level) bool {
	return slices.ContainsFunc(lv.Bass, func(s feel.BassStep) bool { return s.Degree == 'w' })
}

// softRide is a ride's row as it is played in a softer level.
func softRide(row feel.Row, in *feel.Level) feel.Row {
	most := feel.Soft
	if in.Energy == 1 {
		most = feel.Ghost
	}
	out := feel.Row{Voice: row.Voice}
	for i := range len(in.Drums[0].Steps) {
		s := row.Steps[i%len(row.Steps)]
		s.Touch = min(s.Touch, most)
		out.Steps = append(out.Steps, s)
	}
	return out
}
