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
	bars []ramp     // by bar, added to what the touch says
	lead []ramp     // by bar, added where the band leads to another energy
	out  int64      // what is added to a push into the next pass
	rows [5]int64   // by energy from 0: the mean level of the player's row in a feel
	of   *feel.Feel // that feel; nil: none has been measured
}

// leads reports whether a bar leads to another energy.
func (t *Playing) leads(bar int) bool { return t.LeadsTo(bar) != t.Energy(bar) }

// moves reports whether the energy moves in a bar, or has moved evenly up to it.
func (t *Playing) moves(bar int) bool {
	s := t.SweepAt(bar)
	moves := func(bar int) bool { e := t.Pass.EnergyIn(bar); return e.From != e.To }
	return moves(bar) || bar > s.First && moves(bar-1)
}

// prepareLevels works out the levels of the player who plays now. Where the energy moves, the
// level moves evenly. The rows change in steps, and what a row is louder than the one before in
// itself is taken out and given bit by bit. Where what follows has another energy, the last
// bars lead to it.
func (t *Playing) prepareLevels() {
	l, n := &t.levels, len(t.Pass.Bars)
	lift := t.player.Instrument(&score.Note{}).lift()
	l.bars, l.lead, l.of = l.bars[:0], l.lead[:0], nil
	for bar := range n {
		if !t.moves(bar) {
			v := int64(lift.At(t.Energy(bar))) * fine
			l.bars = append(l.bars, ramp{v, v})
			continue
		}
		t.measureRows(bar)
		e, row := t.Pass.EnergyIn(bar), l.rows[t.Energy(bar)-1]
		l.bars = append(l.bars, ramp{t.levelAt(lift, e.From) - row, t.levelAt(lift, e.To) - row})
	}
	l.out = l.bars[n-1].to
	if a := t.Pass.After; a != nil && a.Energy > 0 {
		l.out = int64(lift.At(a.Energy)) * fine
	}
	for range n {
		l.lead = append(l.lead, ramp{})
	}
	for bar := range n {
		if t.leads(bar) && bar == t.SweepAt(bar).End-1 {
			t.leadFrom(lift, bar)
		}
	}
}

// leadFrom has the last bars of a sweep, up to a bar, lead to what follows.
func (t *Playing) leadFrom(lift *plan.ByEnergy[int], last int) {
	l := &t.levels
	t.measureRows(last)
	jump := t.levelAt(lift, 1000*t.LeadsTo(last)) - l.bars[last].to - l.rows[t.Energy(last)-1]
	shares := &leadUp
	if jump < 0 {
		shares = &leadDown
	}
	for i := range min(last-t.SweepAt(last).First+1, plan.LeadBars) {
		l.lead[last-i] = ramp{jump * shares[i+1] / 1000, jump * shares[i] / 1000}
	}
}

// How much of the way to the next pass's level the band has gone, in thousandths: at the
// border, one bar before it and two. In annotated recordings a band goes three fifths of the
// way up in the last two bars, and a third of the way down; a bed goes less far.
var (
	leadUp   = [plan.LeadBars + 1]int64{560, 440, 310}
	leadDown = [plan.LeadBars + 1]int64{480, 340, 200}
)

// levelAt is the level of the player at an energy in thousandths: that of the row, and what
// the energy adds.
func (t *Playing) levelAt(lift *plan.ByEnergy[int], thousandths int) int64 {
	energy := int64(thousandths) - 1000
	low := min(energy/1000, 3)
	level := func(i int64) int64 { return t.levels.rows[i] + int64(lift[i])*fine }
	return level(low) + (level(low+1)-level(low))*(energy-1000*low)/1000
}

// measureRows works out how loud the player's row is in itself at each energy, in the feel of a
// bar: the mean over its strokes, in which a ghost counts half. Where a row is empty it has the
// level of its neighbour.
func (t *Playing) measureRows(bar int) {
	f, rows := t.FeelIn(bar), &t.levels.rows
	if f == t.levels.of {
		return
	}
	t.levels.of, *rows = f, [5]int64{}
	for bar = 0; t.FeelIn(bar) != f; bar++ { // the first bar that has it: a later one may be in another meter
	}
	for i := range rows {
		lv := &f.Levels[i]
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
			sum += int64(in.Levels.Of(touch)*in.Places[t.stepPlace(bar, step)]) * fine / 100 * weight
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

// stepPlace is the metric place of a step of the tab that a bar's feel has.
func (t *Playing) stepPlace(bar, step int) int {
	f := t.FeelIn(bar)
	if len(f.Meters) == 0 || f.Grid == 0 {
		return 0
	}
	b := &t.Pass.Bars[bar]
	at := int64(step%f.Grid) * f.Meters[0].BarTicks() / int64(f.Grid)
	return t.MetricPlace(bar, b.Start+at%b.Length)
}
