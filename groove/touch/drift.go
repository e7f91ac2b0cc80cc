package touch

import (
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// lane is one instrument's own chance: its draws, apart from those of the band.
type lane struct {
	touch, quick plan.Chance // where the draws of velocity and of jitter begin
	opening      plan.Chance // where those of velocity begin in the first bars
	sway         []int64     // of its velocity, with the band's, at each bar line; nil at looseness 0
	name         string      // of the instrument, in the feels' figures
	at, us       int64       // the tick asked for last, and how far it strays from the band there
	asked        bool
	layers       [bandLayers]layer
}

// maxLanes is more than there are voices of the kit and players.
const maxLanes = int(score.String) + len(timeline.PlayerNames)

// layer is one layer of drift. Ticks are mostly asked for in order, so the knots on either
// side of the last tick are kept for the next.
type layer struct {
	from        plan.Chance
	at          int64 // the index of the knot before the tick asked for last
	left, right int64 // the values of that knot and the next
	known       bool
}

// lane is the lane of the instrument that plays a note. Each voice of the kit has one, and
// each other player has one.
func (t *Playing) lane(n *score.Note) *lane {
	id, onKit := int(score.String)+int(t.who), n.Voice.OnKit()
	if onKit {
		id = int(n.Voice)
	}
	if t.lanes[id] == nil {
		name := t.who.String()
		if onKit {
			name = n.Voice.Instrument().Word
		}
		from := t.Chance("lane " + name)
		l := &lane{name: name, touch: from.At(-2), quick: from.At(-1), opening: t.SectionChance("lane " + name).At(-2)}
		if t.loose > 0 {
			l.sway = t.laneSway(from.At(-3))
		}
		for k := range l.layers {
			l.layers[k].from = from.At(int64(k))
		}
		t.lanes[id] = l
	}
	return t.lanes[id]
}

// stray is how far a note is moved in time, in microseconds; 0 at looseness 0. Everything
// that one instrument strikes at one tick strays alike, so a chord stays a chord. Hits that
// the band plays together follow the shared drift only, so that they stay together.
func (t *Playing) stray(n *score.Note) int64 {
	if t.loose == 0 {
		return 0
	}
	us := t.drift(n.At)
	if !n.Art.Has(score.Accent) && !n.Art.Has(score.Pushed) {
		l := t.lane(n)
		if !l.asked || l.at != n.At {
			in := t.player.Instrument(n)
			l.us = t.laneNoise(l, n.At, in.Slow, laneLayers) +
				t.scaled(l.quick.At(n.At).Bell()*in.Quick/plan.BellUnit) + t.lag(in, l, n.At)
			l.at, l.asked = n.At, true
		}
		us += l.us
	}
	sixteenth := t.Clock().QuarterAt(n.At) / 4
	most := min(maxStrayUS, sixteenth*straySixteenths/100)
	return min(max(us, -most), most)
}

// lag is how much later than the beat an instrument plays: the figure that the bar's feel has
// for it, and the delay of an instrument that swings less.
func (t *Playing) lag(in *Instrument, l *lane, tick int64) int64 {
	bar := t.BarAt(tick)
	us := int64(t.FeelIn(bar).LagMS[l.name]) * 1000
	if in.SwingsLess {
		us += t.delay(tick, t.Clock().QuarterAt(tick)*t.SwingIn(bar).Pair/quarter)
	}
	return us * min(t.loose, 2*refLooseness) / refLooseness
}

// scaled converts a figure from the reference looseness to the song's looseness. It grows in
// proportion up to the reference, and from there to 1.85 times the figure at looseness 1.
// There the spread is a little less than the spread of the drummers' loosest tenth.
func (t *Playing) scaled(us int64) int64 {
	if t.loose <= refLooseness {
		return us * t.loose / refLooseness
	}
	return us + us*85*(t.loose-refLooseness)/(100*(1000-refLooseness))
}
