package drummer

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
)

// strokeTicks is the greatest length of a stroke: a drum is not held, so a sixteenth is
// enough to say where it is.
const strokeTicks = quarter / 4

// usualStrokes is how many strokes a bar has as a rule, for the room that is made for them.
const usualStrokes = 16

// keepTime plays the rows of the kit, bar by bar, from the level of each bar.
func (d *Drummer) keepTime(fills []drumFill) []score.Note {
	out := slices.Grow(d.strokes[:0], usualStrokes*len(d.Pass.Bars))
	for bar := range d.Pass.Bars {
		if d.Cues.Alone[bar] {
			continue
		}
		lv := d.Level(bar)
		steps := d.Steps(bar, lv)
		bare := d.ghostsEndAt(bar, fills)
		// Step by step and not row by row, so that the strokes come in order.
		rows := slices.Grow(d.rows[:0], len(lv.Drums))
		for r := range lv.Drums {
			rows = append(rows, kitRow{lv.Drums[r].Steps, lv.Drums[r].Voice,
				newStroke(lv.Drums[r].Voice, 0, 0, feel.Normal), -1})
		}
		d.rows = rows
		from := len(out)
		for i, st := range steps {
			end := d.BarEnd(bar)
			if i+1 < len(steps) {
				end = steps[i+1].Tick
			}
			for r := range rows {
				out = rows[r].strike(out, st, end, bare)
			}
		}
		out = append(out[:from], d.shapeBar(bar, steps, out[from:])...)
	}
	return out
}

// kitRow is a row of the kit on its way through a bar.
type kitRow struct {
	steps []feel.Stroke
	voice feel.Voice
	note  score.Note // what its strokes have in common
	sweep int        // the brush sweep that goes on, as an index into the notes, or -1
}

// strike appends the stroke that the row has at a step, if any. end is the tick of the next
// step, bare the tick from which ghost strokes are left out.
func (r *kitRow) strike(out []score.Note, st plan.Step, end, bare int64) []score.Note {
	if st.Index >= len(r.steps) {
		return out
	}
	s := r.steps[st.Index]
	switch {
	case s.Touch == feel.Sound:
		if r.sweep >= 0 {
			out[r.sweep].Hold(end)
		}
		return out
	case s.Touch == feel.Rest, s.Touch == feel.Ghost && st.Tick >= bare:
		r.sweep = -1
		return out
	}
	if s.Drag || s.Flam {
		out = append(out, graceStrokes(s, r.voice, st.Tick)...)
	}
	n := r.note
	n.At, n.Touch = st.Tick, s.Touch
	n.Hold(max(min(end, st.Tick+strokeTicks), st.Tick+1))
	r.sweep = len(out)
	return append(out, n)
}

// ghostsEndAt is the tick in a bar from which ghost strokes are left out. They are left out
// of the second half of a section's last bar when no fill closes it, so that the section
// breathes, and of a whole bar in a rit.
func (d *Drummer) ghostsEndAt(bar int, fills []drumFill) int64 {
	b := &d.Pass.Bars[bar]
	if d.Cues.Rits.Over(b.Start, d.BarEnd(bar)) {
		return b.Start
	}
	if bar == len(d.Pass.Bars)-1 && len(fills) == 0 {
		return b.Start + b.Length/2
	}
	return d.BarEnd(bar)
}

func newStroke(v feel.Voice, tick, end int64, t feel.Touch) score.Note {
	return score.Note{At: tick, Held: int32(max(end-tick, 1)), Cue: -1, Key: v.Key, Touch: t, Voice: score.Kit(v)}
}

// Grace strokes before a flam and a drag, in milliseconds ahead of the stroke:
// common practice, no single source.
var (
	flamMS = []int{-25}
	dragMS = []int{-58, -29}
)
