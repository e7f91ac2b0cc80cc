package sketch

import (
	"math"

	"plinth/render/audio/bank"
)

// membrane are the frequencies of a round skin's modes against its lowest (zeros of the Bessel functions; Fletcher
// and Rossing, chapter 3), with how loud a stroke off the middle makes them.
var membrane = [...]struct{ ratio, amp float64 }{
	{1, 1}, {1.594, 0.55}, {2.136, 0.35}, {2.296, 0.3}, {2.653, 0.2}, {2.918, 0.18}, {3.156, 0.12}, {3.501, 0.1},
}

// glide is a sine whose pitch falls from higher to its place.
type glide struct {
	freq, over float64 // hertz at the end, and how much above at the start
	falls      float64 // seconds: time constant of the fall
	decay      float64 // per second
	amp, pan   float64
}

// drop adds a glide.
func (t *take) drop(g glide) {
	n := int(8.5 / g.decay * bank.Rate)
	t.reach(n)
	left, right := onSides(g.amp, g.pan)
	n = min(n, len(t.left))
	r := math.Exp(-g.decay / bank.Rate)
	const step = 16 // samples of one frequency
	for i := 0; i < n; i += step {
		at := float64(i) / bank.Rate
		y := math.Exp(-g.decay * at)
		phase := 2 * math.Pi * (g.freq*at + g.over*g.falls*(1-math.Exp(-at/g.falls)))
		w := 2 * math.Pi * (g.freq + g.over*math.Exp(-(at+step/2/bank.Rate)/g.falls)) / bank.Rate
		s, c := y*math.Sin(phase), y*math.Cos(phase)
		ds, dc := r*math.Sin(w), r*math.Cos(w)
		for j := i; j < min(i+step, n); j++ {
			t.left[j] += float32(s * left)
			t.right[j] += float32(s * right)
			s, c = float64(s*dc)+float64(c*ds), float64(c*dc)-float64(s*ds)
		}
	}
}

// kick is a bass drum with a felt beater and something soft inside.
func kick(freq float64) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		t.drop(glide{freq: freq, over: 50 + 45*touch, falls: 0.026, decay: 14, amp: 1})
		t.drop(glide{freq: freq * 1.62, over: 30, falls: 0.02, decay: 22, amp: -0.42})
		t.drop(glide{freq: freq * 3.1, over: 30, falls: 0.01, decay: 48, amp: 0.14 + 0.1*touch})
		t.blow(d, hiss{rise: 0.0008, fall: 0.006, amp: 0.6 + 1.0*touch, width: 0.3,
			filters: []filter{bandPass(900+1300*touch, 0.7), lowPass(2500+2500*touch, 0.7)}})
		t.blow(d, hiss{rise: 0.002, fall: 0.045, amp: 0.8, width: 0.4, filters: []filter{bandPass(240, 0.8)}})
		t.rise(0.0015)
		return t
	}
}

// snare is a skin with wires under it.
func snare(freq, wires float64) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		t.drop(glide{freq: freq, over: 25 * touch, falls: 0.012, decay: 21, amp: 0.8})
		for i, m := range membrane[1:] {
			t.drop(glide{freq: freq * m.ratio * d.between(0.98, 1.02), over: 12 * touch, falls: 0.01,
				decay: 26 + 9*m.ratio, pan: d.between(-0.2, 0.2),
				amp: m.amp * (0.6 + 0.4*touch) * float64(2*(i%2)-1)})
		}
		w := wires * (0.7 + 0.3*touch)
		t.blow(d, hiss{rise: 0.0015, fall: 0.05, amp: 1.0 * w, width: 0.6,
			filters: []filter{bandPass(1900+900*touch, 0.4), lowPass(6000+2500*touch, 0.6)}})
		t.blow(d, hiss{at: 0.003, rise: 0.004, fall: 0.12, amp: 0.42 * w, width: 0.9,
			filters: []filter{highPass(1100, 0.6), lowPass(5500+2000*touch, 0.6)}})
		t.blow(d, hiss{fall: 0.004, amp: 0.5 + 0.8*touch, width: 0.2, filters: []filter{bandPass(1300, 0.8)}})
		return t
	}
}

// tom is a drum without wires.
func tom(freq, pan float64) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		for i, m := range membrane {
			amp := m.amp * 1.6
			if i > 0 {
				amp = m.amp * 0.6 * (0.5 + 0.5*touch)
			}
			t.drop(glide{freq: freq * m.ratio, over: freq * 0.12 * (0.5 + touch), falls: 0.05,
				decay: (4.2 + freq/70) * (1 + 0.9*(m.ratio-1)), amp: amp, pan: pan})
		}
		t.blow(d, hiss{rise: 0.0006, fall: 0.007, amp: 0.8 + 1.8*touch, width: 0.3, pan: pan,
			filters: []filter{bandPass(1100+900*touch, 0.6)}})
		t.rise(0.001)
		return t
	}
}

// block is wood, metal or skin of which a few modes ring: frequency in hertz, seconds for 60 dB, amplitude.
type block [][3]float64

// struck is a block that a stick hits at a place in the room; stick is how loud its noise is and tone where that lies.
func struck(b block, pan, stick, tone float64) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		var modes []mode
		for i, m := range b {
			amp := m[2]
			if i > 0 {
				amp *= 0.5 + 0.5*touch
			}
			modes = append(modes, panned(m[0], by60/m[1], d.between(0, 2*math.Pi), amp, pan+d.between(-0.1, 0.1)))
		}
		t.ring(0, modes)
		t.blow(d, hiss{rise: 0.0003, fall: 0.004, amp: 4 * stick * (0.4 + 0.6*touch), width: 0.4, pan: pan,
			filters: []filter{bandPass(tone, 0.7)}})
		return t
	}
}

// shaken are grains in a shell.
func shaken(tone, sharp, rise, fall, grain, pan float64) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		t.blow(d, hiss{rise: rise, fall: fall, amp: 1, width: 0.5, pan: pan, grain: grain,
			filters: []filter{bandPass(tone, sharp), highPass(tone/2, 0.7)}})
		return t
	}
}
