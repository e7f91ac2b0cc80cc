package groove

import (
	"slices"

	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// writtenPart turns what a player means into a part of the score: each note gets the bar
// that owns it, and a written length where the player has given none. The part has its own
// copy of the notes.
func writtenPart(p *plan.Plan, part score.Part) score.Part {
	if part.Notes = slices.Clone(part.Notes); len(part.Notes) == 0 {
		part.Notes = nil
	}
	for i := range part.Notes {
		n := &part.Notes[i]
		n.Bar = int16(p.BarAt(n.At))
		if n.Art.Has(score.Pushed) && n.Cue >= 0 { // it belongs to the bar that it comes early for
			if n.Bar = int16(len(p.Pass.Bars)); p.Cues.List[n.Cue].Target < p.Pass.Length {
				n.Bar = int16(p.BarAt(p.Cues.List[n.Cue].Target))
			}
		}
		if n.Value == 0 && !n.Art.Has(score.Grace) {
			n.Value = n.Held
		}
	}
	return part
}

// regions are the regions of the whole band: the phrases, and how it swings.
func regions(p *plan.Plan) []score.Region {
	var out []score.Region
	bars := p.Pass.Bars
	for from := 0; from < len(bars); {
		_, n := p.Phrase(from)
		out = append(out, score.Region{Kind: score.Phrase, From: bars[from].Start, To: p.BarEnd(from + n - 1),
			Index: int32(len(out)), Count: int32(n)})
		from += n
	}
	for bar := 0; bar < len(bars); {
		from, s, unit := bars[bar].Start, p.SwingIn(bar), p.FeelIn(bar).Swing.Unit
		for bar < len(bars) && p.SwingIn(bar) == s && p.FeelIn(bar).Swing.Unit == unit {
			bar++
		}
		if s.Pair > 0 {
			out = append(out, score.Region{Kind: score.Swing, From: from, To: p.BarEnd(bar - 1), Name: unit,
				Index: int32(s.Long * 1000 / (s.Pair - s.Long)), Count: 1000})
		}
	}
	return out
}

// textures are the regions of one player: the texture of each bar, with equal neighbours
// joined. Who keeps out has notes only in a pickup into the next pass.
func textures(p *plan.Plan, s seat, notes []score.Note) []score.Region {
	if p.Pass.Tacet.Has(s.who) {
		end := p.Pass.Length
		if len(notes) > 0 {
			end = notes[0].At
		}
		return []score.Region{{Kind: score.Tacet, To: end}}
	}
	var out []score.Region
	name := ""
	for bar := range p.Pass.Bars {
		r := score.Region{Kind: score.Tacet, From: p.Pass.Bars[bar].Start, To: p.BarEnd(bar)}
		if bar == 0 || p.Level(bar) != p.Level(bar-1) || s.who == timeline.Bass {
			name = s.TextureIn(bar)
		}
		if !p.Pass.TacetAt(bar).Has(s.who) {
			r.Kind, r.Name = score.Texture, name
		}
		if n := len(out); n > 0 && out[n-1].Kind == r.Kind && out[n-1].Name == r.Name {
			out[n-1].To = r.To
			continue
		}
		out = append(out, r)
	}
	return out
}
