package groove

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/score"
)

// strokeTicks is how long a stroke is written at most: a drum is not held, so a
// sixteenth says where it is and no more.
const strokeTicks = quarter / 4

// time is the kit's rows bar by bar, by the energy in force in each.
func (p *Plan) time(fills []drumFill) []score.Note {
	out := p.scratch.strokes[:0]
	for bar := range p.Pass.Bars {
		if p.Cues.Alone[bar] {
			continue
		}
		lv := p.Level(bar)
		steps := p.Steps(bar, lv)
		bare := p.bareFrom(bar, fills)
		// Step by step and not row by row, so that the strokes come in order.
		rows := slices.Grow(p.scratch.rows[:0], len(lv.Drums))
		for r := range lv.Drums {
			rows = append(rows, kitRow{lv.Drums[r].Steps, lv.Drums[r].Voice, stroke(lv.Drums[r].Voice, 0, 0, feel.Normal), -1})
		}
		p.scratch.rows = rows
		for i, st := range steps {
			end := p.BarEnd(bar)
			if i+1 < len(steps) {
				end = steps[i+1].Tick
			}
			for r := range rows {
				out = rows[r].strike(out, st, end, bare)
			}
		}
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

// strike appends what the row has at a step, if anything. end is where the next
// step is, bare where ghost strokes are left out from.
func (r *kitRow) strike(out []score.Note, st Step, end, bare int64) []score.Note {
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
		out = append(out, graces(s, r.voice, st.Tick)...)
	}
	n := r.note
	n.At, n.Touch = st.Tick, s.Touch
	n.Hold(max(min(end, st.Tick+strokeTicks), st.Tick+1))
	r.sweep = len(out)
	return append(out, n)
}

// bareFrom is the tick in a bar from which ghost strokes are left out: the second
// half of a section's last bar when no fill closes it, so that the section
// breathes, and all of a bar whose tempo moves.
func (p *Plan) bareFrom(bar int, fills []drumFill) int64 {
	b := &p.Pass.Bars[bar]
	if p.Cues.Rits.Over(b.Start, p.BarEnd(bar)) {
		return b.Start
	}
	if bar == len(p.Pass.Bars)-1 && len(fills) == 0 {
		return b.Start + b.Length/2
	}
	return p.BarEnd(bar)
}

func stroke(v feel.Voice, tick, end int64, t feel.Touch) score.Note {
	return score.Note{At: tick, Held: int32(max(end-tick, 1)), Cue: -1, Key: v.Key, Touch: t, Voice: score.Kit(v)}
}
