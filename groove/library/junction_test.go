package library

import (
	"testing"

	"plinth/groove/feel"
)

// arrivalMicros is what must lie between two strokes of one hand where a fill
// runs into the next bar: ten strokes a second, and a tenth more so that a player
// who is not a machine still makes it.
const arrivalMicros = 110_000

// TestFillsArrive: after any fill of its family, at its highest tempo, two hands
// are in time for the groove's next bar at the fill's energies and one above; from
// energy 4 with a crash on 1, in place of hat or ride where one of them plays.
func TestFillsArrive(t *testing.T) {
	for _, name := range Names() {
		f := Builtin().Feels[name]
		for _, fi := range LoadFills(f.Fills) {
			for e := fi.MinEnergy; e <= min(5, fi.MaxEnergy+1); e++ {
				if gap, at := arrival(f, &f.Levels[e-1], &fi); gap < arrivalMicros {
					t.Errorf("%s at energy %d, after %q: step %d comes %d ms after the hand's last stroke", name, e,
						fi.Name, at, gap/1000)
				}
			}
		}
	}
}

// arrival plays a fill and then the first half bar of a level, giving each stroke
// to the hand that has rested longer. It returns the shortest rest in microseconds
// from the bar line on, and the step where that is.
func arrival(f *feel.Feel, lv *feel.Level, fi *feel.Fill) (gap, at int) {
	_, grid := f.Layout()
	step, fillStep := stepMicros(f), 60_000_000/(f.TempoHigh*int(f.QuartersAsOne()))/fi.Grid
	last := [2]int{-1 << 40, -1 << 40}
	strike := func(now int) int {
		h := 0
		if last[1] < last[0] {
			h = 1
		}
		rest := now - last[h]
		last[h] = now
		return rest
	}
	n := fi.Beats * fi.Grid
	for i := 0; i < n; i++ {
		for k := handsAt(fi.Rows, i); k > 0; k-- {
			strike((i - n) * fillStep)
		}
	}
	gap = 1 << 40
	for i := 0; i < max(1, grid/2) && i < len(lv.Bass); i++ {
		k := handsAt(lv.Drums, i)
		if i == 0 && lv.Energy >= 4 && !cymbalAt(lv.Drums, 0) {
			k++
		}
		for ; k > 0; k-- {
			if rest := strike(i * step); rest < gap {
				gap, at = rest, i
			}
		}
	}
	return gap, at
}

// handsAt is how many strokes the hands have at a step.
func handsAt(rows []feel.Row, i int) int {
	n := 0
	for _, r := range rows {
		s := r.Steps[i]
		if r.Voice.Limb != feel.Hand || s.Touch <= feel.Sound {
			continue
		}
		n++
		if s.Flam || s.Drag {
			n++
		}
	}
	return n
}

// cymbalAt reports whether hat or ride plays at a step.
func cymbalAt(rows []feel.Row, i int) bool {
	for _, r := range rows {
		if w := r.Voice.Word; (w == "hat" || w == "ride") && r.Steps[i].Touch > feel.Sound {
			return true
		}
	}
	return false
}
