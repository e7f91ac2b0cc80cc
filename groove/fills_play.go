package groove

import (
	"sort"

	"plinth/groove/feel"
)

// playFills writes the fills out. A fill ends at the bar line, so that a span
// shorter than the fill takes its tail; a longer one begins with that tail again.
// Turn 1 leaves out the first stroke of the hands, so that the fill enters late;
// turn 2 the last but one, so that it waits before it arrives.
func (p *plan) playFills(fills []drumFill) []gridNote {
	var out []gridNote
	for _, f := range fills {
		if f.fill == nil {
			out = append(out, p.plainFill(f)...)
			continue
		}
		out = append(out, turned(p.fillStrokes(f), f.turn)...)
	}
	return out
}

func (p *plan) fillStrokes(f drumFill) []gridNote {
	bar := p.pass.Bars[p.barAt(f.Start)]
	size := fillStep(f.fill, bar.Meter)
	total := int64(f.fill.Beats * f.fill.Grid)
	// A fill cut short by a stop is still measured from the bar line.
	line := bar.Start + bar.Length
	var out []gridNote
	for _, r := range f.fill.Rows {
		for back := int64(1); line-back*size >= f.Start; back++ {
			at := line - back*size
			i := total - 1 - (back-1)%total
			if at >= f.End || i >= int64(len(r.Steps)) {
				continue
			}
			s := r.Steps[i]
			if s.Touch == feel.Rest || s.Touch == feel.Sound {
				continue
			}
			for _, g := range graces(s, r.Voice, at) {
				g.Fill = true
				out = append(out, g)
			}
			n := stroke(r.Voice, at, at+min(size, strokeTicks), s.Touch)
			n.Fill = true
			out = append(out, n)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Tick < out[j].Tick })
	return out
}

// turned leaves out a stroke of the hands, as playFills says; a fill of fewer than
// three such strokes is played as it is written.
func turned(notes []gridNote, turn int) []gridNote {
	var at []int64 // ticks where a hand strikes
	for _, n := range notes {
		if n.Limb == feel.Hand && n.ShiftMS == 0 && (len(at) == 0 || at[len(at)-1] != n.Tick) {
			at = append(at, n.Tick)
		}
	}
	if turn == 0 || len(at) < 3 {
		return notes
	}
	gone := at[0]
	if turn == 2 {
		gone = at[len(at)-2]
	}
	out := notes[:0]
	for _, n := range notes {
		if n.Tick != gone || n.Limb != feel.Hand {
			out = append(out, n)
		}
	}
	return out
}

// plainFill is what a drummer plays where the song file asks for a fill and the
// feel has none of its own: eighths on the snare.
func (p *plan) plainFill(f drumFill) []gridNote {
	var out []gridNote
	for at := f.Start; at < f.End; at += quarter / 2 {
		n := stroke(snareVoice, at, min(f.End, at+strokeTicks), feel.Normal)
		n.Fill = true
		out = append(out, n)
	}
	return out
}
