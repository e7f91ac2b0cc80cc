package touch

import (
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// lane is one instrument's share of chance.
type lane struct {
	touch, quick plan.Chance // where the draws of velocity and of jitter begin
	lagUS        int64       // where it sits against the beat, by the feel's figures
	at, us       int64       // the place asked for last, and its stray there from the band
	asked        bool
	layers       [bandLayers]layer
}

// maxLanes is more than there are voices of the kit and players.
const maxLanes = int(score.String) + len(timeline.PlayerNames)

// layer is one layer of drift. Places are asked for in order as a rule, so that the
// knots on either side of the last one are mostly those of the next.
type layer struct {
	from        plan.Chance
	at          int64 // the knot before the place asked for last
	left, right int64 // it and the one after
	known       bool
}

// lane is that of the instrument that plays a note: a voice of the kit, or all that
// another player has.
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
		l := &lane{touch: from.At(-2), quick: from.At(-1), lagUS: int64(t.Feel.LagMS[name]) * 1000}
		for k := range l.layers {
			l.layers[k].from = from.At(int64(k))
		}
		t.lanes[id] = l
	}
	return t.lanes[id]
}

// stray is how far a note is displaced, in microseconds; 0 at looseness 0. Everything
// struck by one instrument at one place strays alike: a chord stays a chord. Hits that the
// band plays together follow the shared drift only, so that they are together.
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

// lag is where an instrument sits against the beat by the feel's figures, and the delay of
// one that swings less.
func (t *Playing) lag(in *Instrument, l *lane, tick int64) int64 {
	us := l.lagUS
	if in.SwingsLess {
		us += t.delay(tick, t.Clock().QuarterAt(tick)*t.Swing().Pair/quarter)
	}
	return us * min(t.loose, 2*refLooseness) / refLooseness
}

// scaled is a figure of the reference looseness at the one in force: in proportion
// up to it, and from there on to 1.85 times as much at looseness 1, where the spread
// comes near that of the drummers' loosest tenth and stays under it.
func (t *Playing) scaled(us int64) int64 {
	if t.loose <= refLooseness {
		return us * t.loose / refLooseness
	}
	return us + us*85*(t.loose-refLooseness)/(100*(1000-refLooseness))
}
