package touch

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
)

// GhostCeiling is the greatest velocity of a ghost stroke: drummers' strokes under 45 count
// as ghosts (Groove MIDI Dataset).
const GhostCeiling = 44

const (
	normalCeiling = 114 // nothing but an accent is louder
	accentOver    = 4   // an accent of weight 1 is this much louder than all else in its bar
	accentStep    = 5   // each further weight adds this
)

// JustOver is the greatest velocity of a note that may be hardly louder than a level.
func JustOver(level int) int { return min(level+accentOver, normalCeiling) }

// dynamics returns the velocity of every note of a player, 1 to 127. It is the instrument's
// level for the touch, changed by the energy, by the place in the bar and a little by chance.
// A fill swells. An accent is louder than anything else in its bar.
func (t *Playing) dynamics(notes []score.Note) []uint8 {
	out := make([]uint8, len(notes))
	loudest := make([]int, len(t.Pass.Bars)) // by bar, accents left out
	shapes := t.player.Shapes(notes)
	for i := range notes {
		n := &notes[i]
		if n.Art.Has(score.Accent) {
			continue
		}
		v, most := t.nominal(n), normalCeiling
		if shapes != nil {
			v += shapes[i].Swell
			if shapes[i].Most > 0 {
				most = shapes[i].Most
			}
		}
		spread := t.player.Instrument(n).Spread
		if n.Touch == feel.Strong { // a hand at its limit strikes more evenly
			spread = spread * 2 / 3
		}
		v += int(t.scaled(t.lane(n).touch.At(n.At, int64(n.Key)).Bell()*spread) / plan.BellUnit)
		if n.Touch == feel.Ghost {
			v = min(v, GhostCeiling)
		}
		if v > most { // mirrored at the ceiling, so that loud strokes are not all the same
			v = max(2*most-v, most-accentOver)
		}
		v = max(v, 1)
		out[i] = uint8(v)
		bar := t.BarAt(n.At)
		loudest[bar] = max(loudest[bar], v)
		// An early hand may bring a downbeat to this side of the bar line.
		if bar > 0 && n.At == t.Pass.Bars[bar].Start {
			loudest[bar-1] = max(loudest[bar-1], v)
		}
	}
	for i := range notes {
		n := &notes[i]
		if !n.Art.Has(score.Accent) {
			continue
		}
		strong := *n
		strong.Touch = feel.Strong
		if !plan.Forceful.At(t.Energy(t.BarAt(n.At))) || n.Voice.OnKit() && t.Brushes() {
			strong.Touch = feel.Normal // a nudge, where the band plays softly
		}
		v := max(t.nominal(&strong), loudest[t.BarAt(n.At)]+accentOver, t.loudestBefore(n)+accentOver)
		v += accentStep * (t.AccentWeight(n) - 1)
		out[i] = uint8(min(max(v, 1), 127))
	}
	return out
}

// loudestBefore is how loud the player may have been in the bar before the pass. A pushed
// accent on the first beat of the pass sounds in that bar. The pass does not know the notes
// there, so this is what the energy there allows. 0 for a note inside the pass.
func (t *Playing) loudestBefore(n *score.Note) int {
	if n.At >= 0 || t.Pass.Before == nil {
		return 0
	}
	energy, touch := t.Pass.Before.Energy, feel.Normal
	if plan.Forceful.At(energy) {
		touch = feel.Strong
	}
	in := t.player.Instrument(n)
	stray := 5 * int(in.Spread) * t.Song.Looseness / 1000 // two of its deviations, or a little more
	return min(in.Levels.Of(touch)+in.lift().At(energy)+stray, normalCeiling)
}

// nominal is a note's velocity before chance.
func (t *Playing) nominal(n *score.Note) int {
	in := t.player.Instrument(n)
	bar := t.BarAt(n.At)
	v, lift := in.Levels.Of(n.Touch), t.energyLift(in.lift(), bar)
	if n.Touch == feel.Ghost {
		return v + lift/4
	}
	return (v + lift) * in.Places[t.MetricPlace(bar, n.At)] / 100
}

// energyLift is what the energy adds to the velocity in a bar. Where a section's energy
// moves, the lift moves evenly, bar by bar, though the rows change in steps.
func (t *Playing) energyLift(lift *plan.ByEnergy[int], bar int) int {
	from, to := t.Pass.EnergyFrom-1, t.Pass.EnergyTo-1
	n := len(t.Pass.Bars) - 1
	if n <= 0 || from == to {
		return lift[from]
	}
	at := 1000*from + 1000*(to-from)*bar/n
	low := min(at/1000, 3)
	part := at - 1000*low
	return lift[low] + (lift[low+1]-lift[low])*part/1000
}
