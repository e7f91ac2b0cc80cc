package groove

import "plinth/songspec/timeline"

// human is the way a pass is played in time: lag, drift and jitter, as
// displacements from the swung grid in microseconds. With looseness 0 every
// displacement is 0.
type human struct {
	p     *plan
	clock clock
	loose int64 // per mille
	band  *lane
	lanes []*lane

	// The drift asked for last: a chord asks for each of its notes.
	driftAt, driftUS int64
	drifted          bool
}

// lane is one instrument's share of chance.
type lane struct {
	name         string
	touch, quick chance // where the draws of velocity and of jitter begin
	lagUS        int64  // where it sits against the beat, by the feel's figures
	layers       [bandLayers]layer
}

// layer is one layer of drift. Places are asked for in order as a rule, so that the
// knots on either side of the last one are mostly those of the next.
type layer struct {
	from        chance
	at          int64 // the knot before the place asked for last
	left, right int64 // it and the one after
	known       bool
}

func (p *plan) newLane(name string, from chance) *lane {
	l := &lane{name: name, touch: from.at(-2), quick: from.at(-1), lagUS: int64(p.feel.LagMS[name]) * 1000}
	for k := range l.layers {
		l.layers[k].from = from.at(int64(k))
	}
	return l
}

// human is made once a pass: what it remembers of one player serves the next.
func (p *plan) human() *human {
	if p.hands == nil {
		p.hands = &human{p: p, clock: p.clock(), loose: int64(p.song.Looseness), band: p.newLane("", p.chance("band"))}
	}
	return p.hands
}

// stray is how far a note is displaced. Everything struck by one instrument at
// one place strays alike: a chord stays a chord. Hits that the band plays
// together follow the shared drift only, so that they are together.
func (h *human) stray(who timeline.Player, n *gridNote) int64 {
	if h.loose == 0 {
		return 0
	}
	us := h.drift(n.Tick)
	if n.Accent == 0 && !n.Pushed {
		kind := kindPiano
		switch who {
		case timeline.Drums:
			kind = kindOf(n.Key)
		case timeline.Bass:
			kind = kindBass
		}
		w := wanders[kind]
		lane := h.lane(n.Lane)
		us += h.noise(lane, n.Tick, w.slow, laneLayers)
		us += h.scaled(lane.quick.at(n.Tick).bell() * w.quick / bellUnit)
		us += h.lag(who, lane, n)
	}
	sixteenth := h.clock.micros[h.clock.index(n.Tick)] / 4
	most := min(maxStrayUS, sixteenth*straySixteenths/100)
	return min(max(us, -most), most)
}

// lane is that of an instrument.
func (h *human) lane(name string) *lane {
	for _, l := range h.lanes {
		if l.name == name {
			return l
		}
	}
	l := h.p.newLane(name, h.p.chance("lane "+name))
	h.lanes = append(h.lanes, l)
	return l
}

// drift is the band's shared wandering at a tick.
func (h *human) drift(tick int64) int64 {
	if h.loose == 0 {
		return 0
	}
	if !h.drifted || tick != h.driftAt {
		h.driftUS, h.driftAt, h.drifted = h.noise(h.band, tick, bandDriftUS, bandLayers), tick, true
	}
	return h.driftUS
}

// lag is where an instrument sits against the beat by the feel's figures, and the
// swinging pianist's delay.
func (h *human) lag(who timeline.Player, l *lane, n *gridNote) int64 {
	us := l.lagUS
	if who == timeline.Piano {
		us += h.p.pianoDelay(n.Tick, h.clock.micros[h.clock.index(n.Tick)]*h.p.swing().pair/quarter)
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

// Drift is made of layers, each half as fast as the one before, from an eighth
// (layer 0) to thirty-two beats: bandLayers of them for the band, laneLayers for
// one instrument. From slowLayer on, a layer is a bar or longer.
const (
	bandLayers  = 7
	laneLayers  = 4
	slowLayer   = 3
	layerPeriod = quarter / 2
)

// noise is long-range correlated: the sum of n layers of the same strength. That is
// the classic recipe for 1/f noise; here each layer's knots come from the table of
// chance, joined by straight lines, so that any place can be asked for on its own.
// sd is the standard deviation of the sum at the reference looseness. The slow
// layers are 0 at both ends of the pass: passes meet in time.
func (h *human) noise(l *lane, tick, sd int64, n int) int64 {
	first := floorDiv(tick, layerPeriod)
	sum := int64(0)
	for k := 0; k < n; k++ {
		layer := &l.layers[k]
		period := int64(layerPeriod) << k
		i := first >> k
		if !layer.known || layer.at != i {
			if layer.known && layer.at == i-1 {
				layer.left = layer.right
			} else {
				layer.left = h.knot(layer.from, k, i)
			}
			layer.right = h.knot(layer.from, k, i+1)
			layer.at, layer.known = i, true
		}
		v := layer.left
		if part := tick - i*period; part > 0 {
			v = (v*(period-part) + layer.right*part) / period
		}
		sum += v
	}
	return h.scaled(sum * sd / bellUnit * 1000 / layerGain[n])
}

// knot is knot i of layer k.
func (h *human) knot(from chance, k int, i int64) int64 {
	if k >= slowLayer && (i <= 0 || i*(layerPeriod<<k) >= h.p.pass.Length) {
		return 0
	}
	return from.at(i).bell()
}

// floorDiv is a/b rounded down, also before 0.
func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// layerGain is the standard deviation, in thousandths, of n layers of strength 1 on
// a grid of sixteenths: half of them fall on a knot of layer 0, and between knots a
// layer varies about two thirds as much.
var layerGain = [bandLayers + 1]int64{
	1, 866, 1199, 1452, 1667, 1856, 2028, 2186,
}
