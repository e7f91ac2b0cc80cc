package touch

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// levels is how loud a player is in each bar of the pass, beside what touch, place and phrase
// do.
type levels struct {
	bars []ramp              // by bar, added to what the touch says
	lead [plan.LeadBars]ramp // added to the last bars, the last one first
	out  int64               // what is added to a push into the next pass
	rows [5]int64            // by energy from 0: the mean level of the player's row in the feel
}

// leads reports whether the last bars of the pass lead to another energy.
func (t *Playing) leads() bool {
	last := len(t.Pass.Bars) - 1
	return last >= 0 && t.LeadsTo(last) != t.Energy(last)
}

// moves reports whether the energy moves inside the pass.
func (t *Playing) moves() bool { return len(t.Pass.Bars) > 1 && t.Pass.EnergyFrom != t.Pass.EnergyTo }

// prepareLevels works out the levels of the player who plays now. Where a section's energy
// moves, the level moves evenly. The rows change in steps, and what a row is louder than the
// one before in itself is taken out and given bit by bit. Where the next pass has another
// energy, the last bars lead to it.
func (t *Playing) prepareLevels() {
	l, n := &t.levels, len(t.Pass.Bars)
	lift := t.player.Instrument(&score.Note{}).lift()
	l.bars, l.lead = l.bars[:0], [plan.LeadBars]ramp{}
	if t.moves() || t.leads() {
		t.measureRows()
	}
	from, to := int64(t.Pass.EnergyFrom-1)*1000, int64(t.Pass.EnergyTo-1)*1000
	for bar := range n {
		if !t.moves() {
			v := int64(lift[t.Pass.EnergyFrom-1]) * fine
			l.bars = append(l.bars, ramp{v, v})
			continue
		}
		here := func(bar int) int64 { return t.levelAt(lift, from+(to-from)*int64(bar)/int64(n-1)) }
		row := l.rows[t.Energy(bar)-1]
		l.bars = append(l.bars, ramp{here(bar) - row, here(min(bar+1, n-1)) - row})
	}
	l.out = l.bars[n-1].to
	if a := t.Pass.After; a != nil && a.Energy > 0 {
		l.out = int64(lift.At(a.Energy)) * fine
	}
	if !t.leads() {
		return
	}
	last := n - 1
	jump := t.levelAt(lift, int64(t.LeadsTo(last)-1)*1000) - l.bars[last].to - l.rows[t.Energy(last)-1]
	shares := &leadUp
	if jump < 0 {
		shares = &leadDown
	}
	for i := range min(n, plan.LeadBars) {
		l.lead[i] = ramp{jump * shares[i+1] / 1000, jump * shares[i] / 1000}
	}
}

// How much of the way to the next pass's level the band has gone, in thousandths: at the
// border, one bar before it and two. In annotated recordings a band goes three fifths of the
// way up in the last two bars, and a third of the way down; a bed goes less far.
var (
	leadUp   = [plan.LeadBars + 1]int64{560, 440, 310}
	leadDown = [plan.LeadBars + 1]int64{480, 340, 200}
)

// lead is what leading to the next pass adds at a place in a bar.
func (t *Playing) lead(bar int, part, length int64) int64 {
	if i := len(t.Pass.Bars) - 1 - bar; i < plan.LeadBars {
		return t.levels.lead[i].at(part, length)
	}
	return 0
}

// levelAt is the level of the player at an energy in thousandths, counted from 0: that of the
// row, and what the energy adds.
func (t *Playing) levelAt(lift *plan.ByEnergy[int], energy int64) int64 {
	low := min(energy/1000, 3)
	level := func(i int64) int64 { return t.levels.rows[i] + int64(lift[i])*fine }
	return level(low) + (level(low+1)-level(low))*(energy-1000*low)/1000
}

// measureRows works out how loud the player's row is in itself at each energy: the mean over
// its strokes, in which a ghost counts half. Where a row is empty it has the level of its neighbour.
func (t *Playing) measureRows() {
	rows := &t.levels.rows
	*rows = [5]int64{}
	for i := range rows {
		lv := &t.Feel.Levels[i]
		sum, strokes := int64(0), int64(0)
		add := func(step int, touch feel.Touch, n score.Note) {
			weight := int64(2)
			switch touch {
			case feel.Rest, feel.Sound:
				return
			case feel.Ghost: // seldom noticed for itself
				weight = 1
			}
			in := t.player.Instrument(&n)
			sum += int64(in.Levels.Of(touch)*in.Places[t.stepPlace(step)]) * fine / 100 * weight
			strokes += weight
		}
		switch t.who {
		case timeline.Drums:
			for _, r := range lv.Drums {
				for step, s := range r.Steps {
					add(step, s.Touch, score.Note{Key: r.Voice.Key})
				}
			}
		case timeline.Bass:
			for step, s := range lv.Bass {
				add(step, s.Touch, score.Note{})
			}
		case timeline.Piano:
			for k := range lv.Comp {
				for step, s := range lv.Comp[k].Right {
					add(step, s.Touch, score.Note{})
				}
			}
		}
		if strokes > 0 {
			rows[i] = sum / strokes
		}
	}
	for i := len(rows) - 2; i >= 0; i-- {
		if rows[i] == 0 {
			rows[i] = rows[i+1]
		}
	}
	for i := 1; i < len(rows); i++ {
		if rows[i] == 0 {
			rows[i] = rows[i-1]
		}
	}
}

// stepPlace is the metric place of a step of the feel's tab.
func (t *Playing) stepPlace(step int) int {
	if len(t.Feel.Meters) == 0 || t.Feel.Grid == 0 {
		return 0
	}
	b := &t.Pass.Bars[0]
	at := int64(step%t.Feel.Grid) * t.Feel.Meters[0].BarTicks() / int64(t.Feel.Grid)
	return t.MetricPlace(0, b.Start+at%b.Length)
}
