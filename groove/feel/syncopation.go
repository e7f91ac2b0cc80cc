package feel

import "plinth/songspec/meter"

// LHL is the syncopation of one bar after Longuet-Higgins and Lee, counted per
// note and limited to the bar: for each onset, take the strongest silent step
// before the next onset (or before the bar's end); where its weight is higher
// than the onset's, add the difference. 0 is no syncopation; the
// busiest timelines of 4/4 in sixteenths reach about 6.
//
// Weights are 0 for the bar's first step and negative for the rest (see
// Weights). The two slices have the same length.
func LHL(onsets []bool, weights []int) int {
	sum := 0
	for i, on := range onsets {
		if !on {
			continue
		}
		best, silent := 0, false
		for j := i + 1; j < len(onsets) && !onsets[j]; j++ {
			if !silent || weights[j] > best {
				best, silent = weights[j], true
			}
		}
		if silent && best > weights[i] {
			sum += best - weights[i]
		}
	}
	return sum
}

// Weights are the metric weights of the steps of a bar: 0 for the first, and
// one less for each level of the meter further down. In 4/4 at 16 steps they
// are the published 0 -4 -3 -4 -2 -4 -3 -4 -1 -4 -3 -4 -2 -4 -3 -4. The levels
// are bar, half bar (where there are 4 beats), beat, then the eighths of a
// compound or grouped beat, then halves, or thirds where halves miss the grid.
// Grid must divide the bar into whole ticks.
func Weights(m meter.Meter, grid int) []int {
	w := make([]int, grid)
	for i := range w {
		w[i] = 1 // not yet given
	}
	step := m.BarTicks() / int64(grid)
	next := 0
	give := func(ticks []int64) {
		level := next
		for _, t := range ticks {
			if i := t / step; t%step == 0 && i < int64(grid) && w[i] == 1 {
				w[i], next = level, level-1
			}
		}
	}
	beats := m.Beats()
	give([]int64{0})
	if len(beats) == 4 {
		give([]int64{beats[2]})
	}
	give(beats)
	points := beats
	if m.Compound() || uneven(m) {
		points = multiples(m.UnitTicks(), m.BarTicks())
		give(points)
	}
	// What is left lies inside the smallest units: halve them, and take thirds
	// when halving no longer falls on the grid.
	for unit := m.BarTicks() / int64(len(points)); unit > step; {
		switch {
		case unit%(2*step) == 0:
			unit /= 2
		case unit%(3*step) == 0:
			unit /= 3
		default:
			unit = step
		}
		give(multiples(unit, m.BarTicks()))
	}
	return w
}

// uneven reports whether the meter's beats differ in length.
func uneven(m meter.Meter) bool {
	beats := append(m.Beats(), m.BarTicks())
	for i := 2; i < len(beats); i++ {
		if beats[i]-beats[i-1] != beats[1] {
			return true
		}
	}
	return false
}

func multiples(unit, end int64) []int64 {
	var out []int64
	for t := int64(0); t < end; t += unit {
		out = append(out, t)
	}
	return out
}

// KitSyncopation is the LHL syncopation of the kick and the snare together in
// the busiest bar of a level, its answer included. Ghost strokes are left out.
func (f *Feel) KitSyncopation(lv *Level) int {
	m, grid := f.Layout()
	weights := Weights(m, grid)
	worst := 0
	for _, l := range []*Level{lv, lv.Answer} {
		if l == nil {
			continue
		}
		for bar := 0; bar < lv.Bars; bar++ {
			on := make([]bool, grid)
			for _, r := range l.Drums {
				if r.Voice.Word != "kick" && !r.Voice.Backbeat() {
					continue
				}
				for i := range on {
					on[i] = on[i] || r.Steps[f.Index(bar, i)].Touch >= Soft
				}
			}
			worst = max(worst, LHL(on, weights))
		}
	}
	return worst
}

// Layout is the meter and the number of steps a bar that the feel can be
// measured in: its own, and for a feel of any meter a bar of 4/4 in quarters.
func (f *Feel) Layout() (meter.Meter, int) {
	if len(f.Meters) == 0 {
		return meter.Common, 4
	}
	return f.Meters[0], f.Grid
}

// Index is the place in a level's rows of step i of a bar of the pattern, both
// counted from 0, in the bar that Layout describes.
func (f *Feel) Index(bar, i int) int {
	if len(f.Meters) == 0 {
		return min(i, 1)
	}
	return bar*f.Grid + i
}
