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
		us += h.noise(lane, n.Tick, w.slow, 3)
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
	return h.noise(h.band, tick, bandDriftUS, 6)
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

func (h human) scaled(us int64) int64 { return us * h.loose / refLooseness }

// octaves is the number of layers that drift is made of at most.
const octaves = 6

// noise is long-range correlated: the sum of n layers, each half as fast as the
// one before, from a beat to thirty-two, all of the same strength. That is the
// classic recipe for 1/f noise; here each layer's knots come from the table of
// chance, joined by straight lines, so that any place can be asked for on its own.
// sd is the standard deviation of the sum at the reference looseness. The slow
// layers are 0 at both ends of the pass: passes meet in time.
func (h human) noise(lane chance, tick, sd int64, n int) int64 {
	length := h.p.pass.Length
	sum := int64(0)
	for k := 0; k < n; k++ {
		period := int64(quarter) << k
		i := tick / period
		if tick%period < 0 {
			i--
		}
		knot := func(i int64) int64 {
			if k >= 2 && (i <= 0 || i*period >= length) {
				return 0
			}
			return lane.at(int64(k), i).bell()
		}
		part := tick - i*period
		sum += (knot(i)*(period-part) + knot(i+1)*part) / period
	}
	return h.scaled(sum * sd / bellUnit * 1000 / layerGain[n])
}

// layerGain is the standard deviation, in thousandths, of n layers of strength 1:
// a point between two knots varies two thirds as much as the knots do.
var layerGain = [octaves + 1]int64{1000, 816, 1155, 1414, 1633, 1826, 2000}
