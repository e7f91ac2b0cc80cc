package bassist

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// songRow is the row of a bar in which the song asks for a line of its own, in two or walking,
// instead of the feel's. All else is played over it as over the feel's row.
type songRow struct {
	levels [5]feel.Level // by energy from 0, with the feel's drums
	steps  []plan.Step
}

// songStyle is the style of a line: both go from root to fifth of their own, and two keeps its
// places.
func songStyle(line string) style { return style{alternates: true, keepsRow: line == timeline.LineTwo} }

// songRowOf works out the row that the song asks for in a bar; nil where it asks for none.
func (b *Bassist) songRowOf(bar int) *songRow {
	line := b.Song.BandAt(b.Pass, bar).Bass.Line
	if line == "" {
		return nil
	}
	in := &b.Pass.Bars[bar]
	step := int64(quarter / 2)
	if b.SwingIn(bar).Triplets && in.Meter.Den <= 4 {
		step = quarter / 3
	}
	out := &songRow{}
	for i := int64(0); i*step < in.Length; i++ {
		out.steps = append(out.steps, plan.Step{Tick: in.Start + i*step, Index: int(i)})
	}
	strokes := b.strokesInTwo(bar)
	if line == timeline.LineWalk {
		strokes = walkingBeats(in.Meter, b.BeatStarts(bar))
	}
	for e := range out.levels {
		lv := &out.levels[e]
		lv.Energy, lv.Bars, lv.Drums = e+1, 1, b.FeelIn(bar).Levels[e].Drums
		for i := range out.steps {
			lv.Bass = append(lv.Bass, feel.BassStep{Touch: feel.Sound})
			if k := slices.Index(strokes, int64(i)*step); k >= 0 {
				lv.Bass[i] = feel.BassStep{Touch: feel.Normal, Degree: degreeOf(line, k)}
			}
		}
		out.addLast(line, e+1, strokes, b.BeatStarts(bar), step)
	}
	return out
}

// degreeOf is the degree of stroke k of a line.
func degreeOf(line string, k int) byte {
	switch {
	case line == timeline.LineWalk:
		return 'w'
	case k%2 == 1:
		return '5'
	}
	return '1'
}

// addLast gives a row its last stroke where the energy has more to say: in two from energy 4 up a
// note on the last beat that leads to the next chord, walking at energy 5 one off the beat that
// leans into the next bar.
func (r *songRow) addLast(line string, energy int, strokes, beats []int64, step int64) {
	row := r.levels[energy-1].Bass
	last := beats[len(beats)-1]
	switch {
	case line == timeline.LineWalk && leansIn.At(energy) && len(strokes) > 1:
		row[len(row)-1] = feel.BassStep{Touch: feel.Normal, Degree: 'w'}
	case line == timeline.LineTwo && leadsInTwo.At(energy) && len(beats) > 3 && !slices.Contains(strokes, last):
		row[last/step] = feel.BassStep{Touch: feel.Normal, Degree: 'a'}
	}
}

// walkingBeats are where a walking bass steps: on every beat, in halves on every quarter.
func walkingBeats(m meter.Meter, beats []int64) []int64 {
	if m.Den != 2 {
		return beats
	}
	var out []int64
	for at := int64(0); at < m.BarTicks(); at += quarter {
		out = append(out, at)
	}
	return out
}

// strokesInTwo are where a bass in two strikes in a bar: on 1 and in the middle, which in 5 is the
// fourth beat and in 7/8 the long one, and on every half where the halves are counted. Three beats
// have one stroke, and so has a bar of two among longer ones: there a half is a bar.
func (b *Bassist) strokesInTwo(bar int) []int64 {
	m, beats := b.Pass.Bars[bar].Meter, b.BeatStarts(bar)
	switch n := len(beats); {
	case m.Den == 2:
		return beats
	case n == 1, n == 3 && 3*beats[1] == m.BarTicks(), n == 2 && m.Den == 4 && m != b.Pass.Meter:
		return beats[:1]
	case n == 3:
		return []int64{0, beats[2]}
	default:
		return []int64{0, beats[(n+1)/2]}
	}
}

// rowLevel is the level whose row the bassist plays in a bar.
func (b *Bassist) rowLevel(bar int) *feel.Level {
	if r := b.songRows[bar]; r != nil {
		return &r.levels[b.Energy(bar)-1]
	}
	return b.Level(bar)
}

// rowLevelAt is the level that a bar would have at another energy.
func (b *Bassist) rowLevelAt(bar, energy int) *feel.Level {
	if r := b.songRows[bar]; r != nil {
		return &r.levels[energy-1]
	}
	return &b.FeelIn(bar).Levels[energy-1]
}

// rowSteps lays the row of a bar over it.
func (b *Bassist) rowSteps(bar int) []plan.Step {
	if r := b.songRows[bar]; r != nil {
		return r.steps
	}
	return b.Steps(bar, b.Level(bar))
}

// onlyBeats reports whether the row of a bar has only beats, as that of a feel for any meter.
func (b *Bassist) onlyBeats(bar int) bool {
	return b.songRows[bar] == nil && len(b.FeelIn(bar).Meters) == 0
}
