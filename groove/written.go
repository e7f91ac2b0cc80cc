package groove

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// written makes a part of the score of what a player means: each note gets its written
// length, the bar that owns it and its articulation. The score's notes are its own.
func (p *Plan) written(who timeline.Player, notes []score.Note) score.Part {
	switch {
	case len(notes) == 0:
		notes = nil
	case who != timeline.Bass: // his are no scratch's
		notes = slices.Clone(notes)
	}
	part := score.Part{Notes: notes, Groups: p.groups[who], Regions: p.textures(who)}
	for i := range part.Notes {
		n := &part.Notes[i]
		n.Bar = int16(p.BarAt(n.At))
		if n.Art.Has(score.Pushed) && n.Cue >= 0 { // it is the bar's that it takes early
			if n.Bar = int16(len(p.Pass.Bars)); p.Cues.List[n.Cue].Target < p.Pass.Length {
				n.Bar = int16(p.BarAt(p.Cues.List[n.Cue].Target))
			}
		}
		if n.Value == 0 {
			n.Value = n.Held
		}
	}
	if who == timeline.Drums {
		p.strokeValues(part.Notes)
	}
	return part
}

// strokeValues writes strokes as a drummer reads them: hands and feet apart, each stroke
// as long as it is to the next of the same, and no further than the beat. A grace stroke
// has no length of its own, and a brush sweeps as long as it does. Common practice, no
// single source. notes are in order.
func (p *Plan) strokeValues(notes []score.Note) {
	next := [2]int64{p.Pass.Length, p.Pass.Length} // of the hands, of the feet
	for end := len(notes); end > 0; {
		at, from := notes[end-1].At, end-1
		for from > 0 && notes[from-1].At == at {
			from--
		}
		beat := p.NextBeat(at)
		struck := [2]bool{}
		for i := from; i < end; i++ {
			n := &notes[i]
			stem := btoi(n.Voice.Limb() != feel.Hand)
			switch {
			case n.Roll != 0:
				n.Value = 0
				continue
			case n.Held <= strokeTicks:
				n.Value = int32(max(min(next[stem], beat)-at, 1))
			}
			struck[stem] = true
		}
		for stem := range next {
			if struck[stem] {
				next[stem] = at
			}
		}
		end = from
	}
}

// NextBeat is the felt beat after a tick, or the bar line.
func (p *Plan) NextBeat(tick int64) int64 {
	bar := p.BarAt(tick)
	start := p.Pass.Bars[bar].Start
	for _, at := range p.Beats(bar) {
		if start+at > tick {
			return start + at
		}
	}
	return p.BarEnd(bar)
}

// regions are what is said of the whole band: the phrases, and how it swings.
func (p *Plan) regions() []score.Region {
	var out []score.Region
	bars := p.Pass.Bars
	for from := 0; from < len(bars); {
		_, n := p.Phrase(from)
		out = append(out, score.Region{Kind: score.Phrase, From: bars[from].Start, To: p.BarEnd(from + n - 1),
			Index: int32(len(out)), Count: int32(n)})
		from += n
	}
	if s := p.Swing(); s.Pair > 0 {
		out = append(out, score.Region{Kind: score.Swing, To: p.Pass.Length, Name: p.Feel.Swing.Unit,
			Index: int32(s.Long * 1000 / (s.Pair - s.Long)), Count: 1000})
	}
	return out
}

// textures are what a part is made of, bar by bar, equal neighbours drawn together.
func (p *Plan) textures(who timeline.Player) []score.Region {
	if p.Pass.Tacet.Has(who) {
		return []score.Region{{Kind: score.Tacet, To: p.Pass.Length}}
	}
	var out []score.Region
	var before *feel.Level
	for bar := range p.Pass.Bars {
		lv, end := p.Level(bar), p.BarEnd(bar)
		if lv == before && len(out) > 0 {
			out[len(out)-1].To = end
			continue
		}
		before = lv
		name := texture(who, lv)
		if n := len(out); n > 0 && out[n-1].Name == name {
			out[n-1].To = end
			continue
		}
		out = append(out, score.Region{Kind: score.Texture, From: p.Pass.Bars[bar].Start, To: end, Name: name})
	}
	return out
}

// texture is what a level's rows are made of, in a word of the trade.
func texture(who timeline.Player, lv *feel.Level) string {
	switch who {
	case timeline.Drums:
		return timeVoice(lv)
	case timeline.Bass:
		attacks, walks := 0, false
		for _, s := range lv.Bass {
			if s.Touch > feel.Sound {
				attacks++
				walks = walks || s.Degree == 'w'
			}
		}
		return either(attacks, lv.Bars, walks, "walking", "line")
	}
	attacks, broken, name := 0, false, "blocks"
	for _, s := range lv.Comp {
		if s.Touch <= feel.Sound {
			continue
		}
		attacks++
		switch {
		case s.Part >= '1' && s.Part <= '5':
			broken = true
		case s.Part == 'l' || s.Part == 'u':
			name = "halves"
		}
	}
	return either(attacks, lv.Bars, broken, "broken", name)
}

// either names a row by how often it strikes and by whether it has something special.
func either(attacks, bars int, special bool, word, other string) string {
	switch {
	case attacks == 0:
		return "silent"
	case special:
		return word
	case attacks <= bars:
		return "held"
	}
	return other
}

// timeVoice is the instrument that keeps the time: the hand's with the most strokes, the
// backbeat left out.
func timeVoice(lv *feel.Level) string {
	best, most := "silent", 0
	for _, r := range lv.Drums {
		n := 0
		for _, s := range r.Steps {
			if s.Touch > feel.Sound {
				n++
			}
		}
		if r.Voice.Limb == feel.Hand && (!r.Voice.Backbeat() || best == "silent") && n > most {
			best, most = r.Voice.Word, n
		}
	}
	return best
}
