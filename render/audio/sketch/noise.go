package sketch

import (
	"math"

	"plinth/render/audio/bank"
)

// dice are numbers that look random and are the same everywhere (splitmix64, Steele, Lea and Flood 2014; from memory).
type dice uint64

const golden = 0x9e3779b97f4a7c15

func (d *dice) next() uint64 {
	*d += golden
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// skip passes over numbers.
func (d *dice) skip(n int) { *d += dice(n) * golden }

// between is a number from low to high.
func (d *dice) between(low, high float64) float64 {
	return low + float64((high-low)*float64(d.next()>>11)/(1<<53))
}

// filter is a filter of the second order in the form that the audio cookbook of Bristow-Johnson gives
// (from memory), transposed.
type filter struct{ b0, b1, b2, a1, a2, s1, s2 float64 }

func (f *filter) pass(x float64) float64 {
	y := float64(f.b0*x) + f.s1
	f.s1 = float64(f.b1*x) - float64(f.a1*y) + f.s2
	f.s2 = float64(f.b2*x) - float64(f.a2*y)
	return y
}

// corner are the numbers that all filters share.
func corner(freq, q float64) (c, alpha, a0 float64) {
	w := 2 * math.Pi * min(freq, highest) / bank.Rate
	alpha = math.Sin(w) / (2 * q)
	return math.Cos(w), alpha, 1 + alpha
}

func lowPass(freq, q float64) filter {
	c, alpha, a0 := corner(freq, q)
	return filter{b0: (1 - c) / 2 / a0, b1: (1 - c) / a0, b2: (1 - c) / 2 / a0, a1: -2 * c / a0, a2: (1 - alpha) / a0}
}

func highPass(freq, q float64) filter {
	c, alpha, a0 := corner(freq, q)
	return filter{b0: (1 + c) / 2 / a0, b1: -(1 + c) / a0, b2: (1 + c) / 2 / a0, a1: -2 * c / a0, a2: (1 - alpha) / a0}
}

// bandPass has gain 1 in the middle.
func bandPass(freq, q float64) filter {
	c, alpha, a0 := corner(freq, q)
	return filter{b0: alpha / a0, b2: -alpha / a0, a1: -2 * c / a0, a2: (1 - alpha) / a0}
}

// hiss is a burst of noise: it rises and falls exponentially, each with its time constant in seconds.
type hiss struct {
	at, rise, fall float64
	amp            float64
	width          float64 // 0: the same on both sides; 1: another on each
	pan            float64
	grain          float64 // above 0: of so many strokes a second and not of every sample
	filters        []filter
}

// blow adds a hiss to a take.
func (t *take) blow(d *dice, h hiss) {
	from := int(h.at * bank.Rate)
	n := int((h.rise*2 + h.fall*9.5) * bank.Rate)
	t.reach(from + n)
	all := n
	n = max(0, min(n, len(t.left)-from))
	up, down := 0.0, 1.0
	if h.rise > 0 {
		up = 1
	}
	riseBy, fallBy := math.Exp(-1/(max(h.rise, 1e-5)*bank.Rate)), math.Exp(-1/(h.fall*bank.Rate))
	left, right := append([]filter(nil), h.filters...), append([]filter(nil), h.filters...)
	gainLeft, gainRight := onSides(h.amp, h.pan)
	stroke, loud := 1.0, 1.0
	if h.grain > 0 {
		stroke = h.grain / bank.Rate
		loud = math.Sqrt(1 / stroke)
	}
	for i := range n {
		level := (1 - up) * down
		up *= riseBy
		down *= fallBy
		var l, r float64
		if stroke == 1 || d.between(0, 1) < stroke {
			mid, side := float64(d.between(-1, 1)*loud), float64(d.between(-1, 1)*loud)
			l = mid + float64(h.width*(side-mid)/2)
			r = mid - float64(h.width*(side+mid)/2)
		}
		for j := range left {
			l = left[j].pass(l)
			r = right[j].pass(r)
		}
		t.left[from+i] += float32(l * level * gainLeft)
		if !t.mono {
			t.right[from+i] += float32(r * level * gainRight)
		}
	}
	d.skip(2 * (all - n)) // what comes next does not depend on how much is wanted
}
