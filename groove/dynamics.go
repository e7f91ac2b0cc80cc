package groove

import (
	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// dynamics gives every note of a player its velocity, 1 to 127: the instrument's
// level for the touch, by energy and by the place in the bar, with a little chance
// in it; a fill swells; an accent is louder than anything else in its bar.
func (p *Plan) dynamics(who timeline.Player, notes []score.Note) []uint8 {
	h := p.human()
	out := make([]uint8, len(notes))
	loudest := make([]int, len(p.Pass.Bars)) // by bar, accents left out
	swell := p.fillSwells(notes)
	for i := range notes {
		n := &notes[i]
		if n.Art.Has(score.Accent) {
			continue
		}
		v := p.nominal(who, n)
		if swell != nil {
			v += swell[i]
		}
		spread := touchSpread[kind(who, n)]
		if n.Touch == feel.Strong { // the hand's own ceiling evens them out
			spread = spread * 2 / 3
		}
		v += int(h.scaled(h.lane(laneOf(n.Voice)).touch.At(n.At, int64(n.Key)).Bell()*spread) / BellUnit)
		if n.Touch == feel.Ghost {
			v = min(v, ghostCeiling)
		}
		most := normalCeiling
		if inFill(n) && n.Voice.Limb() == feel.Hand {
			most = p.fillCeiling(p.BarAt(n.At))
		}
		if v > most { // thrown back, so that loud strokes are not all the same
			v = max(2*most-v, most-accentOver)
		}
		v = max(v, 1)
		out[i] = uint8(v)
		bar := p.BarAt(n.At)
		loudest[bar] = max(loudest[bar], v)
		// An early hand may bring a downbeat to this side of the bar line.
		if bar > 0 && n.At == p.Pass.Bars[bar].Start {
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
		if !forceful.At(p.Energy(p.BarAt(n.At))) || who == timeline.Drums && p.Brushes() {
			strong.Touch = feel.Normal // a nudge, where the band plays softly
		}
		v := max(p.nominal(who, &strong), loudest[p.BarAt(n.At)]+accentOver, p.loudestBefore(who, n)+accentOver)
		v += accentStep * (p.Weight(n) - 1)
		out[i] = uint8(min(max(v, 1), 127))
	}
	return out
}

// loudestBefore is the loudest that the player was, as far as this pass knows, in the
// bar in front of it, where a pushed accent sounds that is the pass's own: as loud as
// the energy there allows. 0 for a note inside the pass.
func (p *Plan) loudestBefore(who timeline.Player, n *score.Note) int {
	if n.At >= 0 || p.Pass.Before == nil {
		return 0
	}
	energy, touch := p.Pass.Before.Energy, feel.Normal
	if forceful.At(energy) {
		touch = feel.Strong
	}
	k, lift := kind(who, n), &bandLift
	if k == kindBass {
		lift = &bassLift
	}
	stray := 5 * int(touchSpread[k]) * p.Song.Looseness / 1000 // two of its deviations, or a little more
	return min(levels[k].of(touch)+lift.At(energy)+stray, normalCeiling)
}

// inFill reports whether a note is a stroke of a fill.
func inFill(n *score.Note) bool { return n.Voice.OnKit() && n.Group != 0 }

// kind is the instrument that plays a note.
func kind(who timeline.Player, n *score.Note) laneKind {
	switch who {
	case timeline.Drums:
		return kindOf(n.Key)
	case timeline.Bass:
		return kindBass
	}
	return kindPiano
}

// nominal is a note's velocity before chance.
func (p *Plan) nominal(who timeline.Player, n *score.Note) int {
	k := kind(who, n)
	bar := p.BarAt(n.At)
	v := levels[k].of(n.Touch)
	if n.Touch == feel.Ghost {
		return v + p.lift(k, bar)/4
	}
	return (v + p.lift(k, bar)) * places[k][p.Metric(bar, n.At)] / 100
}

// lift is what the energy adds in a bar. A section whose energy moves does so
// evenly, bar by bar, where the level's rows change in steps.
func (p *Plan) lift(k laneKind, bar int) int {
	lift := &bandLift
	if k == kindBass {
		lift = &bassLift
	}
	from, to := p.Pass.EnergyFrom-1, p.Pass.EnergyTo-1
	n := len(p.Pass.Bars) - 1
	if n <= 0 || from == to {
		return lift[from]
	}
	at := 1000*from + 1000*(to-from)*bar/n
	low := min(at/1000, 3)
	part := at - 1000*low
	return lift[low] + (lift[low+1]-lift[low])*part/1000
}

// Metric is 0 on a beat, 1 half-way between two, 2 elsewhere.
func (p *Plan) Metric(bar int, tick int64) int {
	b := p.Pass.Bars[bar]
	at := tick - b.Start
	beats := p.Beats(bar)
	for i, start := range beats {
		end := b.Length
		if i+1 < len(beats) {
			end = beats[i+1]
		}
		switch {
		case at == start:
			return 0
		case at > start && at < end && p.offbeat(at-start, end-start):
			return 1
		}
	}
	return 2
}

// offbeat reports whether a place within a beat is its "and": half-way, or two
// thirds where the tab is in triplets.
func (p *Plan) offbeat(at, length int64) bool {
	if 2*at == length {
		return true
	}
	return p.Swing().Triplets && 3*at == 2*length
}

// fillCeiling is the loudest that the hands are in a fill of a bar: as the backbeat that
// it leads to, and hardly more. A fill before a chorus is not louder than the chorus.
func (p *Plan) fillCeiling(bar int) int {
	energy, touch := p.Energy(bar), feel.Normal
	if a := p.Pass.After; a != nil && bar == len(p.Pass.Bars)-1 {
		energy = max(energy, a.Energy)
	}
	if allHisWeight.At(energy) {
		touch = feel.Strong
	}
	return min(levels[kindSnare].of(touch)+bandLift.At(energy)+accentOver, normalCeiling)
}

// fillSwells is what the swell of a fill adds to each note: from half of fillSwell
// under at its first stroke to half over at its last; nil where there is no fill.
func (p *Plan) fillSwells(notes []score.Note) []int {
	var first, last map[int]int64
	for i := range notes {
		n := &notes[i]
		if !inFill(n) {
			continue
		}
		if first == nil {
			first, last = map[int]int64{}, map[int]int64{}
		}
		bar := p.BarAt(n.At)
		if at, ok := first[bar]; !ok || n.At < at {
			first[bar] = n.At
		}
		last[bar] = max(last[bar], n.At)
	}
	if first == nil {
		return nil
	}
	out := make([]int, len(notes))
	for i := range notes {
		n := &notes[i]
		if !inFill(n) {
			continue
		}
		bar := p.BarAt(n.At)
		if length := last[bar] - first[bar]; length > 0 {
			out[i] = int((n.At-first[bar])*fillSwell/length) - fillSwell/2
		}
	}
	return out
}
