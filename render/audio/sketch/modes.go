package sketch

import (
	"cmp"
	"math"
	"slices"

	"plinth/render/audio/bank"
)

// mode is one way in which a body swings: a sine that dies away exponentially.
type mode struct {
	freq  float64 // hertz
	decay float64 // of the amplitude, per second: by60 / the time for 60 dB
	phase float64 // radians at the start
	left  float64 // amplitudes at the start
	right float64
}

// by60 is in how many time constants an amplitude falls by 60 dB.
const by60 = 6.91

// The modes of a note stop when they are this far below the loudest of them, in decibels.
const inaudible = quiet - 12

// highest is the highest frequency that a mode may have.
const highest = 18000.0

// chunk is how many samples are computed mode by mode before the next ones: they stay in the processor's cache.
const chunk = 512

// swing is a mode as the recurrence y[n] = a·y[n-1] - b·y[n-2].
type swing struct {
	a, b, y1, y2, left, right float64
	end                       int // sample
}

// four are swings that are computed at once, which is faster than one after the other.
type four [4]swing

// slowest is how often the rate is halved for the lowest modes.
const slowest = 2

// ring adds modes to a take from a time on, in seconds. Where a take is mono only the left amplitudes count. Low
// modes are computed at a half or a quarter of the rate, which is that much faster.
func (t *take) ring(at float64, modes []mode) {
	loudest := 0.0
	for _, m := range modes {
		loudest = max(loudest, math.Abs(m.left), math.Abs(m.right))
	}
	from := int(at * bank.Rate)
	var swings [slowest + 1][]swing
	low := 0.0
	for halvings := slowest; halvings >= 0; halvings-- {
		rate := bank.Rate / float64(int(1)<<halvings)
		high := highest
		if halvings > 0 {
			high = passed * rate
		}
		swings[halvings] = swingsOf(modes, low, high, loudest*decibels(inaudible-t.lower), rate)
		low = high
		if len(swings[halvings]) > 0 {
			t.reach(from + swings[halvings][0].end<<halvings)
		}
	}
	for halvings := slowest; halvings >= 0; halvings-- {
		if len(swings[halvings]) > 0 {
			t.swing(from, swings[halvings], halvings)
		}
	}
}

// swingsOf are the modes from a frequency up to another that are to be heard, the longest first.
func swingsOf(modes []mode, low, high, until, rate float64) []swing {
	var swings []swing
	for _, m := range modes {
		m = m.rounded()
		amp := max(math.Abs(m.left), math.Abs(m.right))
		if m.freq < low || m.freq >= high || amp <= until {
			continue
		}
		r := math.Exp(-m.decay / rate)
		w := 2 * math.Pi * m.freq / rate
		swings = append(swings, swing{
			a: 2 * r * math.Cos(w), b: r * r,
			y1: math.Sin(m.phase-w) / r, y2: math.Sin(m.phase-2*w) / (r * r),
			left: m.left, right: m.right,
			end: int(min(math.Log(amp/until)/m.decay, bank.MaxSeconds) * rate),
		})
	}
	slices.SortStableFunc(swings, func(a, b swing) int { return cmp.Compare(b.end, a.end) })
	return swings
}

// rounded is the mode in fewer bits: processors differ in the last ones of a power or a logarithm.
func (m mode) rounded() mode {
	r := func(x float64) float64 { return float64(float32(x)) }
	return mode{r(m.freq), r(m.decay), r(m.phase), r(m.left), r(m.right)}
}

// swing adds modes from a sample on, which are computed at a rate that is halved so many times.
func (t *take) swing(from int, swings []swing, halvings int) {
	n := min(swings[0].end, max(0, len(t.left)-from)>>halvings)
	for len(swings)%len(four{}) != 0 {
		swings = append(swings, swing{})
	}
	if halvings == 0 {
		left, right := t.left[from:], t.right
		if !t.mono {
			right = right[from:]
		}
		t.sum(swings, left[:n], right[:min(n, len(right))])
		return
	}
	slow := slows.Get().(*[2]slow)
	defer slows.Put(slow)
	for side := range t.sides() {
		slow[side].use(n)
	}
	t.sum(swings, slow[0].x, slow[1].x)
	for side, to := range t.sides() {
		slow[side].quicken(to[from:], halvings)
	}
}

// sum adds modes, chunk by chunk.
func (t *take) sum(swings []swing, left, right []float32) {
	var sumLeft, sumRight [chunk]float64
	for i := 0; i < len(left); i += chunk {
		l, r := sumLeft[:min(chunk, len(left)-i)], sumRight[:min(chunk, len(left)-i)]
		clear(l)
		clear(r)
		for j := 0; j < len(swings) && swings[j].end > i; j += len(four{}) {
			next := (*four)(swings[j:])
			if t.mono {
				next.ringMono(l)
			} else {
				next.ring(l, r)
			}
		}
		for k, x := range l {
			left[i+k] += float32(x)
		}
		if !t.mono {
			for k, x := range r {
				right[i+k] += float32(x)
			}
		}
	}
}

// ring adds them to two sides. The products stand in conversions so that no processor fuses them with the sums: that
// would round otherwise. All is in variables of its own because the compiler keeps only those in registers.
func (s *four) ring(left, right []float64) {
	right = right[:len(left)]
	a0, b0, l0, r0, x0, y0 := s[0].a, s[0].b, s[0].left, s[0].right, s[0].y2, s[0].y1
	a1, b1, l1, r1, x1, y1 := s[1].a, s[1].b, s[1].left, s[1].right, s[1].y2, s[1].y1
	a2, b2, l2, r2, x2, y2 := s[2].a, s[2].b, s[2].left, s[2].right, s[2].y2, s[2].y1
	a3, b3, l3, r3, x3, y3 := s[3].a, s[3].b, s[3].left, s[3].right, s[3].y2, s[3].y1
	for i := range left {
		x0, y0 = y0, float64(a0*y0)-float64(b0*x0)
		x1, y1 = y1, float64(a1*y1)-float64(b1*x1)
		x2, y2 = y2, float64(a2*y2)-float64(b2*x2)
		x3, y3 = y3, float64(a3*y3)-float64(b3*x3)
		left[i] += (float64(y0*l0) + float64(y1*l1)) + (float64(y2*l2) + float64(y3*l3))
		right[i] += (float64(y0*r0) + float64(y1*r1)) + (float64(y2*r2) + float64(y3*r3))
	}
	s[0].y2, s[0].y1, s[1].y2, s[1].y1 = x0, y0, x1, y1
	s[2].y2, s[2].y1, s[3].y2, s[3].y1 = x2, y2, x3, y3
}

// ringMono is ring for the left side alone.
func (s *four) ringMono(left []float64) {
	a0, b0, l0, x0, y0 := s[0].a, s[0].b, s[0].left, s[0].y2, s[0].y1
	a1, b1, l1, x1, y1 := s[1].a, s[1].b, s[1].left, s[1].y2, s[1].y1
	a2, b2, l2, x2, y2 := s[2].a, s[2].b, s[2].left, s[2].y2, s[2].y1
	a3, b3, l3, x3, y3 := s[3].a, s[3].b, s[3].left, s[3].y2, s[3].y1
	for i := range left {
		x0, y0 = y0, float64(a0*y0)-float64(b0*x0)
		x1, y1 = y1, float64(a1*y1)-float64(b1*x1)
		x2, y2 = y2, float64(a2*y2)-float64(b2*x2)
		x3, y3 = y3, float64(a3*y3)-float64(b3*x3)
		left[i] += (float64(y0*l0) + float64(y1*l1)) + (float64(y2*l2) + float64(y3*l3))
	}
	s[0].y2, s[0].y1, s[1].y2, s[1].y1 = x0, y0, x1, y1
	s[2].y2, s[2].y1, s[3].y2, s[3].y1 = x2, y2, x3, y3
}

// onSides is an amplitude on the two sides: pan is -1 (left) to 1, and the power stays the same.
func onSides(amp, pan float64) (left, right float64) {
	x := (pan + 1) * math.Pi / 4
	return amp * math.Cos(x) * math.Sqrt2, amp * math.Sin(x) * math.Sqrt2
}

// panned is a mode with its amplitude on the two sides.
func panned(freq, decay, phase, amp, pan float64) mode {
	left, right := onSides(amp, pan)
	return mode{freq, decay, phase, left, right}
}

// clip keeps a pan in the room.
func clip(pan float64) float64 { return max(-1, min(1, pan)) }

// across is where a key lies on a keyboard, as a pan.
func across(key float64) float64 { return clip((key - 62) / 36) }

// partialAt is the frequency of the n-th partial of a stiff string that sounds at f, b being its inharmonicity.
func partialAt(n, f, b float64) float64 { return n * f * math.Sqrt((1+b*n*n)/(1+b)) }

// hertz is the frequency of a key in equal temperament, A4 (key 69) being 440 Hz (ISO 16).
func hertz(key float64) float64 { return 440 * math.Exp2((key-69)/12) }

// decibels is an amplitude.
func decibels(db float64) float64 { return math.Pow(10, db/20) }
