package sketch

import "math"

// grand is how a grand piano is made for a program.
type grand struct {
	bright  float64 // of the hammer's highest frequency, against the plain grand's
	detune  float64 // cents between the strings of a key
	knock   float64 // of hammer, key and soundboard, against the plain grand's
	board   bool    // a soundboard radiates it; else pickups take the strings
	sustain float64 // of the decay times
}

// inharmonicity is how far a piano's partials are stretched, the B of partialAt.
// The two straight lines of log B over the keys, one for the wound strings and one for the plain ones, are those that
// Rigaud, David and Daudet (Journal of the Acoustical Society of America 133, 2013) fit to grand pianos; from memory.
func inharmonicity(key float64) float64 {
	return math.Exp(-0.0847*key-5.82) + math.Exp(0.0926*key-13.64)
}

// pianoDecay is how fast the first sound of a key's lowest partial dies away, per second. Its shape is that of Martin's
// decay rates (JASA 19, 1947, as Fletcher and Rossing, The Physics of Musical Instruments, chapter 12, have them; from
// memory): some decibels a second at the bottom, over 80 at the top. The figures lie between two sampled
// grands as measured: 9 dB a second at C2, 11 at C4, 62 at C6.
func pianoDecay(key float64) float64 {
	if key < 60 {
		return 1.3 * math.Exp(0.02*(key-60))
	}
	return 1.3 * math.Exp(0.071*(key-60))
}

// play strikes a key. Touch is 0 to 1.
func (g grand) play(key int, touch float64, most int) *take {
	t := &take{most: most, lower: 8} // a piano is heard alone too
	k := float64(key)
	f, b := hertz(k), inharmonicity(k)
	d := dice(key*3 + 1)
	// The hammer is on the string for some milliseconds, shorter when it comes faster: that bounds the partials.
	corner := g.bright * (0.5 + 0.6*touch) * (0.5*f + 820*math.Exp2((30-max(k, 30))/24))
	steep := 1.12 - 0.5*touch            // of the fall above it
	struck := 1 / (8 + max(0, (k-60)/6)) // the place on the string
	pan := 0.3 * across(k)
	first := pianoDecay(k) / g.sustain
	after := (0.55 + 0.25*math.Exp((k-72)/14)) / g.sustain
	var modes []mode
	add := func(freq, decay, phase, amp, aside float64) {
		m := panned(freq, decay, phase, amp, pan+aside)
		if g.board {
			m.left *= decibels(2.5 * ripple(freq, 1))
			m.right *= decibels(2.5 * ripple(freq, 2))
		}
		modes = append(modes, m)
	}
	for n := 1.0; n <= 64; n++ {
		freq := partialAt(n, f, b)
		if n > 1 && freq > 12000 {
			break
		}
		x := freq / corner
		amp := (math.Abs(math.Sin(n*math.Pi*struck)) + 0.12) / math.Pow(1+x*x, steep) / math.Pow(n, 0.6)
		amp /= 1 + freq*freq/(5000*5000)
		if g.board {
			amp *= freq * freq / (freq*freq + 50*50) // a board is too small to radiate the lowest
		}
		decay := first * (1 + 0.065*(n-1) + 0.002*n*n)
		spread := g.detune * d.between(0.7, 1.3)
		phase := d.between(0, 2*math.Pi)
		switch {
		case n < 3 || key < 34 && n < 12: // what the bridge takes at once, and what it takes late
			add(freq, decay, phase, amp, 0)
			add(freq*cents(min(spread, 1)), after*(1+0.12*n), phase+d.between(-1, 1), amp*d.between(0.09, 0.14), 0)
		case n < 18: // strings that beat
			aside := d.between(-0.35, 0.35)
			add(freq*cents(-spread/2), decay*1.1, phase, amp*0.72, aside)
			add(freq*cents(spread/2), decay*0.6, phase+d.between(-1, 1), amp*0.42, -1.4*aside)
		default:
			add(freq, decay, phase, amp, d.between(-0.35, 0.35))
		}
		if g.detune > 5 && n < 8 {
			add(freq*cents(-spread), decay*0.8, phase, amp*0.6, -0.3)
			add(freq*cents(spread), decay*0.8, phase, amp*0.6, 0.3)
		}
	}
	t.ring(0, modes)
	t.rise(0.0012 + 0.0025*math.Exp2((36-k)/18)*(1.3-0.6*touch))
	t.knock(&d, k, touch, g.knock*(0.6+0.4*touch)*power(modes), pan)
	return t
}

// knock is what is heard of a piano besides the strings: the soundboard's own low modes, struck through the
// bridge, and the felt.
func (t *take) knock(d *dice, key, touch, amount, pan float64) {
	if amount == 0 {
		return
	}
	amount *= 0.05 * (1 + max(0, (key-66)/18))
	var modes []mode
	for _, freq := range [...]float64{86, 118, 162, 215, 288, 371, 490, 640, 830} {
		decay := 22 + freq/12
		modes = append(modes, panned(freq*d.between(0.98, 1.02), decay, d.between(0, 6.28),
			amount*d.between(0.6, 1)*math.Sqrt(160/freq), pan/2))
	}
	t.ring(0, modes)
	t.blow(d, hiss{rise: 0.0008, fall: 0.011, amp: amount * 2.2, width: 0.6, pan: pan,
		filters: []filter{lowPass(1600+3200*touch, 0.6), highPass(160, 0.7)}})
}

// power is the root of the sum of the modes' squares: how loud they are together.
func power(modes []mode) float64 {
	sum := 0.0
	for _, m := range modes {
		sum += float64(m.left*m.left) + float64(m.right*m.right)
	}
	return math.Sqrt(sum / 2)
}

// ripple is the unevenness of a soundboard, -1 to 1, smooth over the logarithm of the frequency: every sixth of
// an octave another value.
func ripple(freq float64, side int) float64 {
	x := 6 * math.Log2(freq/20)
	i := math.Floor(x)
	at := func(i float64) float64 {
		d := dice(int(i)*7919 + side)
		return d.between(-1, 1)
	}
	u := x - i
	u = u * u * (3 - 2*u)
	return at(i)*(1-u) + at(i+1)*u
}

// cents is a ratio.
func cents(c float64) float64 { return math.Exp2(c / 1200) }

// damper is the time constant in seconds in which a piano's damper ends a key. The topmost keys have none.
func damper(key int) float64 {
	if key > 89 {
		return 1.5
	}
	return 0.05 + 0.09*max(0, float64(72-key)/44)
}
