package touch

import "plinth/groove/plan"

// Drift is made of layers, each half as fast as the one before, from an eighth
// (layer 0) to thirty-two beats: bandLayers of them for the band, laneLayers for
// one instrument. From slowLayer on, a layer is a bar or longer.
const (
	bandLayers  = 7
	laneLayers  = 4
	slowLayer   = 3
	layerPeriod = quarter / 2
)

// bandDrift is the wandering that the whole band shares in a pass.
type bandDrift struct {
	// The knots of the whole pass, layer by layer. The end of a long note asks for a knot far
	// ahead.
	knots [bandLayers][]int16
	first int64 // the index of the first knot in layer 0: the eighth that holds the earliest note
	from  [bandLayers]plan.Chance
	// The drifts worked out last, as a hash table by tick. All players and all notes of a
	// chord ask for the same drifts.
	asked []drift
	// Room for both, from pass to pass.
	allKnots []int16
	places   []drift
}

// drift is the band's wandering at a tick, in microseconds.
type drift struct{ tick, us int64 }

// The size of that table: one place for each driftGrid ticks, used over and over.
const (
	driftGrid   = quarter / 8
	driftPlaces = 1 << 11 // at most, a power of two
)

// nowhere is a tick that no note has.
const nowhere = -1 << 62

// prepareDrift draws the knots of the band's drift. A push may begin before the pass.
func (t *Playing) prepareDrift() {
	b := &t.band
	if b.places == nil {
		b.places = make([]drift, driftPlaces)
	}
	n := 1
	for n < driftPlaces && int64(n) <= t.Pass.Length/driftGrid {
		n *= 2
	}
	b.asked = b.places[:n]
	for i := range b.asked {
		b.asked[i].tick = nowhere
	}
	if t.loose == 0 {
		return
	}
	b.first = 0
	if e := t.Pass.Entry; e != nil {
		b.first = floorDiv(min(0, e.Tick), layerPeriod)
	}
	last := floorDiv(t.Pass.Length, layerPeriod)
	from := t.Chance("band")
	all := b.allKnots[:0]
	for k := range b.knots {
		b.from[k] = from.At(int64(k))
		at := len(all)
		for i := b.first >> k; i <= last>>k+1; i++ {
			all = append(all, int16(t.knot(b.from[k], k, i)))
		}
		b.knots[k] = all[at:]
	}
	b.allKnots = all
}

// drift is the band's wandering at a tick, in microseconds; 0 at looseness 0.
func (t *Playing) drift(tick int64) int64 {
	if t.loose == 0 {
		return 0
	}
	d := &t.band.asked[(tick/driftGrid)&int64(len(t.band.asked)-1)]
	if d.tick != tick {
		*d = drift{tick, t.wander(tick)}
	}
	return d.us
}

// wander works out the band's drift.
func (t *Playing) wander(tick int64) int64 {
	b := &t.band
	eighth := floorDiv(tick, layerPeriod)
	sum := int64(0)
	for k := range b.knots {
		i := eighth >> k
		part := tick - i*(layerPeriod<<k)
		knots := b.knots[k]
		if at := int(i - b.first>>k); at >= 0 && at+1 < len(knots) {
			sum += interpolate(int64(knots[at]), int64(knots[at+1]), part, k)
		} else {
			sum += interpolate(t.knot(b.from[k], k, i), t.knot(b.from[k], k, i+1), part, k)
		}
	}
	return t.scaled(sum * bandDriftUS / plan.BellUnit * 1000 / layerGain[bandLayers])
}

// laneNoise is long-range correlated: the sum of n layers of the same strength. That is
// the classic recipe for 1/f noise; here each layer's knots come from the table of
// chance, joined by straight lines, so that each tick can be worked out on its own.
// sd is the standard deviation of the sum at the reference looseness. The slow
// layers are 0 at both ends of the pass, so that neighbouring passes fit together.
func (t *Playing) laneNoise(l *lane, tick, sd int64, n int) int64 {
	first := floorDiv(tick, layerPeriod)
	sum := int64(0)
	for k := range n {
		layer := &l.layers[k]
		period := int64(layerPeriod) << k
		i := first >> k
		if !layer.known || layer.at != i {
			if layer.known && layer.at == i-1 {
				layer.left = layer.right
			} else {
				layer.left = t.knot(layer.from, k, i)
			}
			layer.right = t.knot(layer.from, k, i+1)
			layer.at, layer.known = i, true
		}
		sum += interpolate(layer.left, layer.right, tick-i*period, k)
	}
	return t.scaled(sum * sd / plan.BellUnit * 1000 / layerGain[n])
}

// knot is knot i of layer k.
func (t *Playing) knot(from plan.Chance, k int, i int64) int64 {
	if k >= slowLayer && (i <= 0 || i*(layerPeriod<<k) >= t.Pass.Length) {
		return 0
	}
	return from.At(i).Bell()
}

// interpolate is the value of layer k at part ticks after the knot with the value left.
func interpolate(left, right, part int64, k int) int64 {
	if part == 0 {
		return left
	}
	return halved((left*(layerPeriod<<k-part)+right*part)/layerPeriod, k)
}

// halved is v divided by two k times, rounded toward 0 as a division is.
func halved(v int64, k int) int64 {
	if v < 0 {
		return -(-v >> k)
	}
	return v >> k
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
