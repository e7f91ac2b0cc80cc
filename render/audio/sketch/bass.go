package sketch

import "math"

// strung is a bass guitar or a double bass.
type strung struct {
	plectrum
	first, after float64 // of the first sound's decay and of what stays, per second, at E1
	stays        float64 // amplitude of what stays
	body         float64 // of a double bass's body
	bloom        float64 // seconds in which the third to eighth partial come
}

// The basses of strings. What they lose in a second lies between two sampled banks as measured: a bass guitar 4 to
// 8 dB, a double bass 15 at first and then 8.
var (
	doubleBass = strung{plectrum{fall: 1, plucked: 0.24, corner: 450, steep: 2, damping: 0.26, click: 0.25,
		noise: 1100, rise: 0.012}, 2.3, 0.95, 0.45, 1, 0}
	fingered = strung{plectrum{fall: 1, plucked: 0.19, pickup: 0.14, corner: 950, steep: 2.2, damping: 0.16,
		click: 0.06, noise: 1100, rise: 0.006}, 0.85, 0.45, 0.45, 0, 0}
	picked = strung{plectrum{fall: 1, plucked: 0.13, pickup: 0.12, corner: 1100, steep: 2.2, damping: 0.13, click: 0.09,
		noise: 2400, rise: 0.003}, 0.85, 0.45, 0.4, 0, 0}
	fretless = strung{plectrum{fall: 1, plucked: 0.21, pickup: 0.13, corner: 560, steep: 2.4, damping: 0.2, click: 0.02,
		noise: 800, rise: 0.016}, 0.85, 0.45, 0.5, 0, 0.09}
	slapped = strung{plectrum{fall: 1, plucked: 0.3, pickup: 0.16, corner: 3000, steep: 1.6, damping: 0.2, click: 0.9,
		noise: 2800, rise: 0.002}, 1.5, 0.7, 0.5, 0, 0}
	popped = strung{plectrum{fall: 1, plucked: 0.09, pickup: 0.11, corner: 3600, steep: 1.6, damping: 0.18, click: 1.2,
		noise: 3500, rise: 0.0015}, 2.1, 0.8, 0.4, 0, 0}
)

// play plucks a key.
func (s strung) play(key int, touch float64, most int) *take {
	t := &take{most: most, mono: true}
	k := float64(key)
	d := dice(key*5 + 7)
	f := hertz(k)
	b := 0.00012 * math.Exp(0.01*(k-28))
	speed := math.Exp(0.018 * (k - 28))
	var modes []mode
	for n := 1.0; n <= 40; n++ {
		freq := partialAt(n, f, b)
		if n > 1 && freq > 7000 {
			break
		}
		amp := s.partial(n, freq, touch)
		if s.body > 0 {
			amp *= bassBody(freq)
		}
		damp := 1 + s.damping*(n-1)
		phase := d.between(0, 2*math.Pi)
		modes = append(modes,
			mode{freq, s.first * speed * damp, phase, amp * (1 - s.stays), 0},
			mode{freq * cents(0.4), s.after * speed * damp, phase, amp * s.stays, 0})
		if s.bloom > 0 && n >= 3 && n <= 8 {
			modes = append(modes, mode{freq, 1 / s.bloom, phase, -0.8 * amp, 0})
		}
	}
	t.ring(0, modes)
	t.rise(s.rise * (1.4 - 0.6*touch))
	loudest := s.partial(1, f, touch)
	t.blow(&d, hiss{rise: 0.001, fall: 0.008, amp: 3 * loudest * s.click * (0.25 + 0.75*touch),
		filters: []filter{bandPass(s.noise, 0.7)}})
	if s.body > 0 { // the thud of the finger in the body
		for _, freq := range [...]float64{62, 98, 128, 190} {
			t.ring(0, []mode{{freq, 38, d.between(0, 6.28), 0.12 * loudest, 0}})
		}
	}
	return t
}

// bassBody is what a double bass's body does to a partial: the air of the box near 65 Hz and the plates between 100 and
// 250 Hz radiate (places from Fletcher and Rossing, chapter 10; from memory), above it falls off.
func bassBody(freq float64) float64 {
	hump := func(at, wide, gain float64) float64 {
		x := math.Log2(freq/at) / wide
		return gain * math.Exp(-x*x)
	}
	return 0.7 + hump(65, 0.5, 0.5) + hump(115, 0.4, 0.5) + hump(210, 0.5, 0.35)
}

// synth is a sawtooth through a filter that closes.
type synth struct{ stays bool } // else it dies

// play plays a key, the harmonics one by one.
func (s synth) play(key int, touch float64, most int) *take {
	t := &take{most: most, mono: true}
	f := hertz(float64(key))
	var modes []mode
	for n := 1.0; n <= 40 && (n == 1 || n*f < 6000); n++ {
		x := n * f / (90 + 60*touch + f)
		open := n * f / (500 + 900*touch + f)
		if !s.stays {
			modes = append(modes, mode{n * f, 1.6 + 5*x*0.3, 0, 1 / n / (1 + open*open), 0})
			continue
		}
		modes = append(modes,
			mode{n * f, 0.06, 0, 0.7 / n / (1 + x*x*x), 0},
			mode{n * f, 4, 0, 0.5 / n / (1 + open*open), 0})
	}
	t.ring(0, modes)
	t.rise(0.005)
	return t
}
