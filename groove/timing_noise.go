package groove

// Drift is made of layers, each half as fast as the one before, from an eighth
// (layer 0) to thirty-two beats: bandLayers of them for the band, laneLayers for
// one instrument. From slowLayer on, a layer is a bar or longer.
const (
	bandLayers  = 7
	laneLayers  = 4
	slowLayer   = 3
	layerPeriod = quarter / 2
)

// band draws the knots of the band's drift. A push may begin before the pass.
func (h *human) band() {
	if h.loose == 0 {
		return
	}
	if e := h.p.Pass.Entry; e != nil {
		h.first = floorDiv(min(0, e.Tick), layerPeriod)
	}
	last := floorDiv(h.p.Pass.Length, layerPeriod)
	from := h.p.Chance("band")
	all := h.p.scratch.knots[:0]
	for k := range h.knots {
		h.from[k] = from.At(int64(k))
		at := len(all)
		for i := h.first >> k; i <= last>>k+1; i++ {
			all = append(all, int16(h.knot(h.from[k], k, i)))
		}
		h.knots[k] = all[at:]
	}
	h.p.scratch.knots = all
}

// wander is the band's drift worked out.
func (h *human) wander(tick int64) int64 {
	eighth := floorDiv(tick, layerPeriod)
	sum := int64(0)
	for k := range h.knots {
		i := eighth >> k
		part := tick - i*(layerPeriod<<k)
		knots := h.knots[k]
		if at := int(i - h.first>>k); at >= 0 && at+1 < len(knots) {
			sum += between(int64(knots[at]), int64(knots[at+1]), part, k)
		} else {
			sum += between(h.knot(h.from[k], k, i), h.knot(h.from[k], k, i+1), part, k)
		}
	}
	return h.scaled(sum * bandDriftUS / BellUnit * 1000 / layerGain[bandLayers])
}

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
		sum += between(layer.left, layer.right, tick-i*period, k)
	}
	return h.scaled(sum * sd / BellUnit * 1000 / layerGain[n])
}

// knot is knot i of layer k.
func (h *human) knot(from Chance, k int, i int64) int64 {
	if k >= slowLayer && (i <= 0 || i*(layerPeriod<<k) >= h.p.Pass.Length) {
		return 0
	}
	return from.At(i).Bell()
}

// between is the value a part of a period of layer k after the knot left of it.
func between(left, right, part int64, k int) int64 {
	if part == 0 {
		return left
	}
	return shifted((left*(layerPeriod<<k-part)+right*part)/layerPeriod, k)
}

// shifted is v divided by two k times and, like a division, rounded toward 0.
func shifted(v int64, k int) int64 {
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
