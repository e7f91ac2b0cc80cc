package sketch

import (
	"sync"

	"plinth/render/audio/bank"
)

// passed is the highest frequency, as a part of the rate, that twice keeps.
const passed = 0.21

// halfway are the weights of the samples on both sides of a new one, the nearest first: they make the largest error up
// to passed as small as it can be, 86 dB under the sound (least squares, weighted again until even).
var halfway = [4]float32{0.607153, -0.137025, 0.03515, -0.005329}

// slow is a sound of a lower rate in the making.
type slow struct {
	x         []float32
	store     [bank.MaxFrames / 2]float32
	inBetween [bank.MaxFrames / 2]float32
}

// slows are used again and again: new memory takes longer than what is computed in it.
var slows = sync.Pool{New: func() any { return new([2]slow) }}

// use makes it n silent samples.
func (s *slow) use(n int) {
	s.x = s.store[:n]
	clear(s.x)
}

// quicken adds it to a sound whose rate is doubled once or twice.
func (s *slow) quicken(to []float32, doublings int) {
	if doublings == 2 {
		mid := s.inBetween[:2*len(s.x)]
		clear(mid)
		twice(s.x, mid)
		twice(mid, to)
		return
	}
	twice(s.x, to)
}

// twice adds a sound to one of double its rate, with a new sample behind each.
func twice(x, y []float32) {
	y = y[:2*len(x)]
	const n = len(halfway)
	at := func(i int) float32 {
		if i < 0 || i >= len(x) {
			return 0
		}
		return x[i]
	}
	edge := func(i int) {
		between := float32(0)
		for k, w := range halfway {
			between += float32(w * (at(i-k) + at(i+1+k)))
		}
		y[2*i] += x[i]
		y[2*i+1] += between
	}
	for i := range min(n, len(x)) {
		edge(i)
	}
	a, b, c, d := halfway[0], halfway[1], halfway[2], halfway[3]
	for i := n; i+n < len(x); i++ {
		z, two := (*[8]float32)(x[i-3:]), (*[2]float32)(y[2*i:])
		two[0] += z[3]
		two[1] += float32(a*(z[3]+z[4])) + float32(b*(z[2]+z[5])) + float32(c*(z[1]+z[6])) + float32(d*(z[0]+z[7]))
	}
	for i := max(n, len(x)-n); i < len(x); i++ {
		edge(i)
	}
}
