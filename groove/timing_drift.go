package groove

import "plinth/songspec/timeline"

// human is the way a pass is played in time: lag, drift and jitter, as
// displacements from the swung grid in microseconds. With looseness 0 every
// displacement is 0.
type human struct {
	p     *plan
	clock clock
	loose int64 // per mille
	band  chance
	lanes map[string]chance
}

func (p *plan) human() human {
	return human{p: p, clock: newClock(p.pass.Tempos), loose: int64(p.song.Looseness), band: p.chance("band"), lanes: map[string]chance{}}
}

// stray is how far a note is displaced. Everything struck by one instrument at
// one place strays alike: a chord stays a chord. Hits that the band plays
// together follow the shared drift only, so that they are together.
func (h human) stray(who timeline.Player, n *gridNote) int64 {
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
		us += h.scaled(lane.at(-1, n.Tick).bell() * w.quick / bellUnit)
		us += h.lag(who, n)
	}
	sixteenth := h.clock.micros[h.clock.index(n.Tick)] / 4
	most := min(maxStrayUS, sixteenth*straySixteenths/100)
	return min(max(us, -most), most)
}

// lane is where the draws of an instrument begin.
func (h human) lane(name string) chance {
	c, ok := h.lanes[name]
	if !ok {
		c = h.p.chance("lane " + name)
		h.lanes[name] = c
	}
	return c
}

// drift is the band's shared wandering at a tick.
func (h human) drift(tick int64) int64 {
	if h.loose == 0 {
		return 0
	}
	return h.noise(h.band, tick, bandDriftUS, bandLayers)
}

// lag is where an instrument sits against the beat by the feel's figures, and the
// swinging pianist's delay.
func (h human) lag(who timeline.Player, n *gridNote) int64 {
	us := int64(h.p.feel.LagMS[n.Lane]) * 1000
	if who == timeline.Piano {
		us += h.p.pianoDelay(n.Tick, h.clock.micros[h.clock.index(n.Tick)]*h.p.swing().pair/quarter)
	}
	return us * min(h.loose, 2*refLooseness) / refLooseness
}

// scaled is a figure of the reference looseness at the one in force: in proportion
// up to it, and from there on to 1.85 times as much at looseness 1, where the spread
// comes near that of the drummers' loosest tenth and stays under it.
func (h human) scaled(us int64) int64 {
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
func (h human) noise(lane chance, tick, sd int64, n int) int64 {
	length := h.p.pass.Length
	sum := int64(0)
	for k := 0; k < n; k++ {
		period := int64(layerPeriod) << k
		i := tick / period
		if tick%period < 0 {
			i--
		}
		knot := func(i int64) int64 {
			if k >= slowLayer && (i <= 0 || i*period >= length) {
				return 0
			}
			return lane.at(int64(k), i).bell()
		}
		part := tick - i*period
		v := knot(i)
		if part > 0 {
			v = (v*(period-part) + knot(i+1)*part) / period
		}
		sum += v
	}
	return h.scaled(sum * sd / bellUnit * 1000 / layerGain[n])
}

// layerGain is the standard deviation, in thousandths, of n layers of strength 1 on
// a grid of sixteenths: half of them fall on a knot of layer 0, and between knots a
// layer varies about two thirds as much.
var layerGain = [bandLayers + 1]int64{
	1, 866, 1199, 1452, 1667, 1856, 2028, 2186,
}
