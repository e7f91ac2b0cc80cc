package library

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"

	"plinth/groove/feel"
)

// build makes a level out of its rows. Check is false for a level that repeats
// another, whose mistakes have been reported there.
func (d *decoder) build(f *feel.Feel, l *rawLevel, energy int, check bool) feel.Level {
	out := feel.Level{Energy: energy, Bars: 1, Voices: cmp.Or(l.voices, 3), Centre: l.centre}
	answer := maps.Clone(l.rows)
	if l.answer != nil {
		maps.Copy(answer, l.answer.rows)
		for w := range l.answer.without {
			if w == "bass" || w == "comp" {
				answer[w] = tab{} // laid out below as rests
			} else {
				delete(answer, w)
			}
		}
	}
	if !d.anyMeter {
		for _, t := range slices.AppendSeq(slices.Collect(maps.Values(l.rows)), maps.Values(answer)) {
			out.Bars = max(out.Bars, len(t.steps)/f.Grid) // one of several figures is a bar
		}
	}
	steps := out.Bars * f.Grid
	out.Drums, out.Bass, out.Comp = drumRows(l.rows, steps), bassRow(l.rows, steps), figures(l.rows["comp"], steps)
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
	if slices.ContainsFunc(voiceWords(), changed) {
		a.Drums = append([]feel.Row{}, drumRows(answer, steps)...) // not nil, as nil is no change
	}
	if changed("bass") {
		a.Bass = bassRow(answer, steps)
	}
	if changed("comp") {
		a.Comp = figures(answer["comp"], steps)
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
			d.rep.Errorf(d.lastAt(l, rows, drums, i, why), "One drummer cannot play this",
				"Step %d of level %d: %s. Take one of them out.", i+1, energy, why)
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
		own := t.expr != nil && t.expr.Range().Start.Byte > l.block.Range().Start.Byte &&
			t.expr.Range().End.Byte <= l.block.CloseBraceRange.End.Byte
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
	slices.SortFunc(out, func(a, b feel.Row) int {
		return feel.VoiceOrder(a.Voice.Word) - feel.VoiceOrder(b.Voice.Word)
	})
	return out
}

// touches are the signs of the touches of a step, from silence up; of a drum "~" is held.
const touches = "-=gsxX"

// touch is the touch of a sign; ok is false for one that says something else.
func touch(sign byte) (t feel.Touch, ok bool) {
	i := strings.IndexByte(touches, sign)
	return feel.Touch(max(i, 0)), i >= 0
}

func stroke(c byte) feel.Stroke {
	switch c {
	case '~':
		return feel.Stroke{Touch: feel.Sound}
	case 'f':
		return feel.Stroke{Touch: feel.Normal, Flam: true}
	case 'd':
		return feel.Stroke{Touch: feel.Normal, Drag: true}
	}
	t, _ := touch(c)
	return feel.Stroke{Touch: t}
}

func bassRow(rows map[string]tab, steps int) []feel.BassStep {
	out := make([]feel.BassStep, steps)
	t := rows["bass"].steps
	for i := 0; len(t) > 0 && i < steps; i++ {
		c := t[i%len(t)]
		if plain, ok := touch(c); ok {
			out[i].Touch = plain
		} else {
			out[i] = feel.BassStep{Touch: feel.Normal, Degree: c}
		}
	}
	return out
}

// figures lays out the comp: its only figure over all steps of the level, or several of a bar
// each.
func figures(t tab, steps int) []feel.Figure {
	if len(t.figures) < 2 {
		out := feel.Figure{Right: compRow(t.steps, steps)}
		if len(t.figures) == 1 && len(t.figures[0].left.steps) > 0 {
			out.Left = compRow(t.figures[0].left.steps, steps)
		}
		return []feel.Figure{out}
	}
	var out []feel.Figure
	for _, h := range t.figures {
		f := feel.Figure{Right: compRow(h.right.steps, len(h.right.steps))}
		if n := len(h.left.steps); n > 0 {
			f.Left = compRow(h.left.steps, n)
		}
		out = append(out, f)
	}
	return out
}

func compRow(t []byte, steps int) []feel.CompStep {
	out := make([]feel.CompStep, steps)
	for i := 0; len(t) > 0 && i < steps; i++ {
		c := t[i%len(t)]
		switch plain, ok := touch(c); {
		case !ok:
			out[i] = feel.CompStep{Touch: feel.Normal, Part: c}
		case plain > feel.Sound:
			out[i] = feel.CompStep{Touch: plain, Part: 'c'}
		default:
			out[i].Touch = plain
		}
	}
	return out
}
