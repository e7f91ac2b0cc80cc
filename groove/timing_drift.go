package groove

import (
	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// human is the way a pass is played in time: lag, drift and jitter, as
// displacements from the swung grid in microseconds. With looseness 0 every
// displacement is 0.
type human struct {
	p     *Plan
	clock Clock
	loose int64 // per mille
	lanes [maxLanes]*lane
	// The band's knots, layer by layer, all of the pass: the ends of long notes ask far
	// ahead of their beginnings.
	knots [bandLayers][]int16
	first int64 // the first of layer 0's: the eighth that holds the earliest note
	from  [bandLayers]Chance
	// The drifts asked for last, each at a place of its own for its tick: all players
	// and all notes of a chord ask for the same ones.
	drifts []drift
}

// drift is the band's wandering at a tick, in microseconds.
type drift struct{ tick, us int64 }

// Places for drifts: one for each driftGrid ticks, over and over.
const (
	driftGrid   = quarter / 8
	driftPlaces = 1 << 11 // at most, a power of two
)

// lane is one instrument's share of chance.
type lane struct {
	touch, quick Chance // where the draws of velocity and of jitter begin
	lagUS        int64  // where it sits against the beat, by the feel's figures
	at, us       int64  // the place asked for last, and its stray there from the band
	asked        bool
	layers       [bandLayers]layer
}

// laneID is an instrument: the bass, the piano, or a voice of the kit by its place in
// the table of voices.
type laneID uint8

const (
	bassLane laneID = iota
	pianoLane
	kitLane  // and on
	maxLanes = 64
)

// laneOf is the lane of a voice: both hands of a pianist have one.
func laneOf(v score.Voice) laneID {
	switch {
	case v.OnKit():
		return kitLane + laneID(v)
	case v == score.String:
		return bassLane
	}
	return pianoLane
}

// String is the word that the instrument goes by in groove files.
func (id laneID) String() string {
	switch id {
	case bassLane:
		return "bass"
	case pianoLane:
		return "piano"
	}
	return feel.VoiceAt(int(id - kitLane)).Word
}

// layer is one layer of drift. Places are asked for in order as a rule, so that the
// knots on either side of the last one are mostly those of the next.
type layer struct {
	from        Chance
	at          int64 // the knot before the place asked for last
	left, right int64 // it and the one after
	known       bool
}

func (p *Plan) newLane(name string, from Chance) *lane {
	l := &lane{touch: from.At(-2), quick: from.At(-1), lagUS: int64(p.Feel.LagMS[name]) * 1000}
	for k := range l.layers {
		l.layers[k].from = from.At(int64(k))
	}
	return l
}

// human is made once a pass: what it remembers of one player serves the next.
func (p *Plan) human() *human {
	if p.hands == nil {
		if p.scratch.drifts == nil {
			p.scratch.drifts = make([]drift, driftPlaces)
		}
		places := 1
		for places < driftPlaces && int64(places) <= p.Pass.Length/driftGrid {
			places *= 2
		}
		p.hands = &human{p: p, clock: p.Clock(), loose: int64(p.Song.Looseness), drifts: p.scratch.drifts[:places]}
		for i := range p.hands.drifts {
			p.hands.drifts[i].tick = nowhere
		}
		p.hands.band()
	}
	return p.hands
}

// stray is how far a note is displaced. Everything struck by one instrument at
// one place strays alike: a chord stays a chord. Hits that the band plays
// together follow the shared drift only, so that they are together.
func (h *human) stray(who timeline.Player, n *score.Note) int64 {
	if h.loose == 0 {
		return 0
	}
	us := h.drift(n.At)
	if !n.Art.Has(score.Accent) && !n.Art.Has(score.Pushed) {
		l := h.lane(laneOf(n.Voice))
		if !l.asked || l.at != n.At {
			w := wanders[kind(who, n)]
			l.us = h.noise(l, n.At, w.slow, laneLayers) +
				h.scaled(l.quick.At(n.At).Bell()*w.quick/BellUnit) + h.lag(who, l, n)
			l.at, l.asked = n.At, true
		}
		us += l.us
	}
	sixteenth := h.clock.micros[h.clock.index(n.At)] / 4
	most := min(maxStrayUS, sixteenth*straySixteenths/100)
	return min(max(us, -most), most)
}

// lane is that of an instrument.
func (h *human) lane(id laneID) *lane {
	if h.lanes[id] == nil {
		h.lanes[id] = h.p.newLane(id.String(), h.p.Chance("lane "+id.String()))
	}
	return h.lanes[id]
}

// drift is the band's shared wandering at a tick.
func (h *human) drift(tick int64) int64 {
	if h.loose == 0 {
		return 0
	}
	d := &h.drifts[(tick/driftGrid)&int64(len(h.drifts)-1)]
	if d.tick != tick {
		*d = drift{tick, h.wander(tick)}
	}
	return d.us
}

// nowhere is a tick that no note has.
const nowhere = -1 << 62

// lag is where an instrument sits against the beat by the feel's figures, and the
// swinging pianist's delay.
func (h *human) lag(who timeline.Player, l *lane, n *score.Note) int64 {
	us := l.lagUS
	if who == timeline.Piano {
		us += h.p.pianoDelay(n.At, h.clock.micros[h.clock.index(n.At)]*h.p.Swing().Pair/quarter)
	}
	return us * min(h.loose, 2*refLooseness) / refLooseness
}

// scaled is a figure of the reference looseness at the one in force: in proportion
// up to it, and from there on to 1.85 times as much at looseness 1, where the spread
// comes near that of the drummers' loosest tenth and stays under it.
func (h *human) scaled(us int64) int64 {
	if h.loose <= refLooseness {
		return us * h.loose / refLooseness
	}
	return us + us*85*(h.loose-refLooseness)/(100*(1000-refLooseness))
}

// layerGain is the standard deviation, in thousandths, of n layers of strength 1 on
// a grid of sixteenths: half of them fall on a knot of layer 0, and between knots a
// layer varies about two thirds as much.
var layerGain = [bandLayers + 1]int64{
	1, 866, 1199, 1452, 1667, 1856, 2028, 2186,
}
