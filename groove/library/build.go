package library

import (
	"fmt"
	"slices"
	"sort"

	"github.com/hashicorp/hcl/v2"

	"plinth/groove/feel"
)

// build makes a level out of its rows. Check is false for a level that repeats
// another, whose mistakes have been reported there.
func (d *decoder) build(f *feel.Feel, l *rawLevel, energy int, check bool) feel.Level {
	out := feel.Level{Energy: energy, Bars: 1, Voices: l.voices, Centre: l.centre}
	if out.Voices == 0 {
		out.Voices = 3
	}
	answer := map[string]tab{}
	for w, t := range l.rows {
		answer[w] = t
	}
	if l.answer != nil {
		for w, t := range l.answer.rows {
			answer[w] = t
		}
		for w := range l.answer.without {
			if w == "bass" || w == "comp" {
				answer[w] = tab{} // laid out below as rests
			} else {
				delete(answer, w)
			}
		}
	}
	if !d.anyMeter {
		for _, rows := range []map[string]tab{l.rows, answer} {
			for _, t := range rows {
				out.Bars = max(out.Bars, len(t.steps)/f.Grid)
			}
		}
	}
	steps := out.Bars * f.Grid
	out.Drums, out.Bass, out.Comp = drumRows(l.rows, steps), bassRow(l.rows, steps), compRow(l.rows, steps)
	if check {
		d.checkRows(l, l.rows, out.Drums, energy)
	}
	if l.answer == nil {
		return out
	}
	a := &feel.Level{Energy: energy, Bars: out.Bars, Voices: out.Voices, Centre: out.Centre}
	changed := func(w string) bool {
		_, written := l.answer.rows[w]
		return written || l.answer.without[w]
	}
	for _, w := range voiceWords() {
		if changed(w) {
			a.Drums = drumRows(answer, steps)
			if a.Drums == nil {
				a.Drums = []feel.Row{}
			}
			break
		}
	}
	if changed("bass") {
		a.Bass = bassRow(answer, steps)
	}
	if changed("comp") {
		a.Comp = compRow(answer, steps)
	}
	if check {
		d.checkRows(l.answer, answer, a.Drums, energy)
	}
	out.Answer = a
	return out
}

// checkRows reports what one drummer cannot play, at the stroke that is one too
// many; what a level takes over from another is reported where it is written, once.
func (d *decoder) checkRows(l *rawLevel, rows map[string]tab, drums []feel.Row, energy int) {
	for i := 0; len(drums) > 0 && i < len(drums[0].Steps); i++ {
		why := feel.Clash(drums, i)
		if why == "" {
			continue
		}
		key := why
		for _, r := range clashing(drums, i, why) {
			if t := rows[r.Voice.Word]; t.expr != nil {
				key += fmt.Sprint(" ", t.expr.Range().Start.Byte)
			}
		}
		if !d.clashes[key] {
			d.rep.Errorf(d.lastAt(l, rows, drums, i, why), "One drummer cannot play this", "Step %d of level %d: %s. Take one of them out.", i+1, energy, why)
		}
		if d.clashes == nil {
			d.clashes = map[string]bool{}
		}
		d.clashes[key] = true
		break // the same two rows mostly meet again in every beat
	}
}

// clashing are the rows without which the clash at step i would be none, or another.
func clashing(drums []feel.Row, i int, why string) []feel.Row {
	var out []feel.Row
	for j, r := range drums {
		others := slices.Concat(drums[:j], drums[j+1:])
		if r.Steps[i].Touch != feel.Rest && feel.Clash(others, i) != why {
			out = append(out, r)
		}
	}
	return out
}

// lastAt is the place of the lowest row that has a part in a clash at step i, of
// those that the level itself writes where it can be; otherwise the level's head.
func (d *decoder) lastAt(l *rawLevel, rows map[string]tab, drums []feel.Row, i int, why string) hcl.Range {
	at := l.block.DefRange()
	for _, r := range clashing(drums, i, why) {
		t := rows[r.Voice.Word]
		own := t.expr != nil && t.expr.Range().Start.Byte > l.block.Range().Start.Byte && t.expr.Range().End.Byte <= l.block.CloseBraceRange.End.Byte
		if own {
			at = d.place(t, i%len(t.steps))
		}
	}
	return at
}

// drumRows lays out the rows of the kit, top of the kit first.
func drumRows(rows map[string]tab, steps int) []feel.Row {
	var out []feel.Row
	for w, t := range rows {
		v, drum := feel.VoiceNamed(w)
		if !drum {
			continue
		}
		r := feel.Row{Voice: v, Steps: make([]feel.Stroke, steps)}
		sounds := false
		for i := range r.Steps {
			r.Steps[i] = stroke(t.steps[i%len(t.steps)])
			sounds = sounds || r.Steps[i].Touch != feel.Rest
		}
		if sounds {
			out = append(out, r)
		}
	}
	sort.Slice(out, func(i, j int) bool {
		return feel.VoiceOrder(out[i].Voice.Word) < feel.VoiceOrder(out[j].Voice.Word)
	})
	return out
}

func stroke(c byte) feel.Stroke {
	switch c {
	case 'x':
		return feel.Stroke{Touch: feel.Normal}
	case 'X':
		return feel.Stroke{Touch: feel.Strong}
	case 's':
		return feel.Stroke{Touch: feel.Soft}
	case 'g':
		return feel.Stroke{Touch: feel.Ghost}
	case '~':
		return feel.Stroke{Touch: feel.Sound}
	case 'f':
		return feel.Stroke{Touch: feel.Normal, Flam: true}
	case 'd':
		return feel.Stroke{Touch: feel.Normal, Drag: true}
	}
	return feel.Stroke{}
}

func bassRow(rows map[string]tab, steps int) []feel.BassStep {
	out := make([]feel.BassStep, steps)
	t := rows["bass"]
	for i := 0; len(t.steps) > 0 && i < steps; i++ {
		switch c := t.steps[i%len(t.steps)]; c {
		case '-':
		case '=':
			out[i].Touch = feel.Sound
		case 'g':
			out[i].Touch = feel.Ghost
		default:
			out[i] = feel.BassStep{Touch: feel.Normal, Degree: c}
		}
	}
	return out
}

func compRow(rows map[string]tab, steps int) []feel.CompStep {
	out := make([]feel.CompStep, steps)
	t := rows["comp"]
	for i := 0; len(t.steps) > 0 && i < steps; i++ {
		switch c := t.steps[i%len(t.steps)]; c {
		case '-':
		case '=':
			out[i].Touch = feel.Sound
		case 'x':
			out[i] = feel.CompStep{Touch: feel.Normal, Part: 'c'}
		case 'X':
			out[i] = feel.CompStep{Touch: feel.Strong, Part: 'c'}
		case 's':
			out[i] = feel.CompStep{Touch: feel.Soft, Part: 'c'}
		default:
			out[i] = feel.CompStep{Touch: feel.Normal, Part: c}
		}
	}
	return out
}
