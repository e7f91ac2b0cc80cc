package drummer

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/score"
)

// playFills writes out the strokes of the fills and sets where each begins. A fill ends at
// the bar line: a span that is shorter takes the end of the fill, and a span that is longer
// repeats the end of the fill in front of it.
func (d *Drummer) playFills(fills []drumFill) []score.Note {
	var out []score.Note
	for i := range fills {
		f := &fills[i]
		var notes []score.Note
		if f.fill == nil {
			notes = d.plainFill(*f)
		} else {
			notes = varied(d.fillStrokes(*f), f.varied)
		}
		f.firstStroke, f.firstOfHands = f.End, f.End
		for j := range notes {
			n := &notes[j]
			n.Group, n.Cue = f.group, f.cue
			f.firstStroke = min(f.firstStroke, n.At)
			if n.Voice.Limb() == feel.Hand {
				f.firstOfHands, f.lastOfHands = min(f.firstOfHands, n.At), max(f.lastOfHands, n.At)
			}
		}
		d.groups = append(d.groups, f.asGroup(d))
		out = append(out, notes...)
	}
	return out
}

// asGroup is the fill as a group of the score: a tuplet where its steps divide the beat
// in another way than the meter does.
func (f *drumFill) asGroup(d *Drummer) score.Group {
	g := score.Group{Kind: score.Fill, At: f.firstStroke, End: f.End, Name: "eighths"}
	if f.fill == nil {
		return g
	}
	g.Name = f.fill.Name
	m := d.Pass.Bars[d.BarAt(f.Start)].Meter
	if grid := f.fill.Grid; !m.Compound() && grid > 1 && grid%3 == 0 {
		g.Num, g.Den = uint8(grid), uint8(grid/3*2)
	}
	return g
}

func (d *Drummer) fillStrokes(f drumFill) []score.Note {
	size := fillStep(f.fill, d.Pass.Bars[d.BarAt(f.Start)].Meter)
	total := int64(f.fill.Beats * f.fill.Grid)
	// A fill cut short by a stop is still measured from where it would lead.
	line := d.onGrid(f.line, f.fill)
	var out []score.Note
	for _, r := range f.fill.Rows {
		for back := int64(1); line-back*size >= f.Start; back++ {
			at := line - back*size
			i := total - 1 - (back-1)%total
			if at >= f.End || i >= int64(len(r.Steps)) || r.Steps[i].Touch <= feel.Sound {
				continue
			}
			out = append(out, graceStrokes(r.Steps[i], r.Voice, at)...)
			out = append(out, newStroke(r.Voice, at, at+min(size, strokeTicks), r.Steps[i].Touch))
		}
	}
	score.ByTick(out)
	return d.begun(f, out)
}

// begun is a fill that the song asks for with a stroke where it begins, also where only the end of it is
// played: the first stroke of its hands comes there as well.
func (d *Drummer) begun(f drumFill, notes []score.Note) []score.Note {
	first := slices.IndexFunc(notes, func(n score.Note) bool { return n.Voice.Limb() == feel.Hand && n.Roll == 0 })
	begin := f.Start
	if begin > d.Pass.Bars[d.BarAt(begin)].Start {
		begin = d.onGrid(begin, f.fill)
	}
	whole := beatOf(f.fill, d.Pass.Bars[d.BarAt(f.Start)].Meter) * int64(f.fill.Beats)
	if !f.asked || first < 0 || notes[first].At <= begin || f.line-f.Start >= whole {
		return notes
	}
	n := notes[first]
	n.At, n.Touch = begin, max(n.Touch, feel.Soft)
	n.Hold(begin + strokeTicks)
	notes = append(notes, n)
	score.ByTick(notes)
	return notes
}

// onGrid is a tick on the grid of a fill. In triplets the "and" of a beat, where a push may
// stand, is on the last third.
func (d *Drummer) onGrid(tick int64, f *feel.Fill) int64 {
	bar := d.BarAt(tick - 1)
	start := d.Pass.Bars[bar].Start
	size := fillStep(f, d.Pass.Bars[bar].Meter)
	return start + (tick-start+size-1)/size*size
}

// varied is a fill played in another way, so that a vocabulary of a few fills lasts for a
// song. The first way puts a kick under the first stroke of the hands that is more than a
// ghost, the second way under the last; where the fill has a kick there, it is taken away. The
// first way makes a flam of a fill with a single stroke. A fill of the kick alone has a soft
// snare over its first or its last stroke.
func varied(notes []score.Note, how int) []score.Note {
	first, loud, last := -1, -1, -1
	for i, n := range notes {
		if n.Voice.Limb() == feel.Hand && n.Roll == 0 {
			if first < 0 {
				first = i
			}
			if loud < 0 && n.Touch > feel.Ghost {
				loud = i
			}
			last = i
		}
	}
	switch {
	case how == 0 || len(notes) == 0:
		return notes
	case first < 0:
		over := notes[(how-1)*(len(notes)-1)]
		return append(notes, newStroke(snareVoice, over.At, over.At+strokeTicks, feel.Soft))
	case how == 1 && notes[first].At == notes[last].At && isDrum(notes[first].Key):
		n := notes[first]
		return append(graceStrokes(feel.Stroke{Flam: true}, n.Voice.Instrument(), n.At), notes...)
	case how == 2 && notes[first].At == notes[last].At && !isDrum(notes[first].Key):
		notes[first].Touch = feel.Soft + feel.Ghost - min(notes[first].Touch, feel.Soft)
		return notes
	case how == 1:
		if loud >= 0 && loud < last {
			first = loud
		}
		return kickUnder(notes, notes[first])
	}
	return kickUnder(notes, notes[last])
}

// isDrum reports whether a key is a drum's, which a flam suits, and no cymbal's.
func isDrum(key uint8) bool {
	k := kindOf(key)
	return k == kindSnare || k == kindStick || k == kindTom
}

// kickUnder adds a kick under a stroke of a fill, not harder than the stroke. Where there is
// a kick already, it is taken away.
func kickUnder(notes []score.Note, under score.Note) []score.Note {
	all := len(notes)
	notes = slices.DeleteFunc(notes, func(n score.Note) bool {
		return n.At == under.At && n.Voice.Limb() == feel.RightFoot
	})
	if len(notes) == all {
		notes = append(notes, newStroke(kickVoice, under.At, under.At+strokeTicks, min(under.Touch, feel.Normal)))
	}
	return notes
}

// plainFill is what a drummer plays where the song file asks for a fill and the
// feel has none of its own: eighths on the snare.
func (d *Drummer) plainFill(f drumFill) []score.Note {
	var out []score.Note
	for at := f.Start; at < f.End; at += quarter / 2 {
		out = append(out, newStroke(snareVoice, at, min(f.End, at+strokeTicks), feel.Normal))
	}
	return out
}
