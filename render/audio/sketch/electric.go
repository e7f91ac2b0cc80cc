package sketch

import "math"

// tine plays an electric piano whose hammers strike tines in front of pickups. The pickup bends the tine's sine
// into harmonics, the more the wider it swings: so they die away n times as fast, and soft notes have few. The
// bell of the onset is the tine's own second mode: 6.27 times the first for a bar clamped at one end (Fletcher and
// Rossing, chapter 2).
func tine(key int, touch float64, most int) *take {
	t := &take{most: most}
	k := float64(key)
	f := hertz(k)
	d := dice(key*5 + 2)
	decay := 0.75 * math.Exp(0.035*(k-60))
	var modes []mode
	pan := 0.2 * across(k)
	drive := min(0.6, (0.2+0.26*touch)*math.Exp2((60-k)/32))
	amp := 1.0
	for n := 1.0; n <= 12; n++ {
		modes = append(modes, panned(n*f, decay*(1+0.55*(n-1)), n*1.1, amp, pan))
		amp *= drive * (1.5 - 0.5*math.Mod(n, 2))
	}
	bell := 0.03 + 0.16*touch*touch
	modes = append(modes,
		panned(f*6.27, 7+k/20, 0, bell*math.Exp2((56-k)/30), -pan),
		panned(f*6.27*cents(9), 9+k/20, 1, 0.5*bell*math.Exp2((56-k)/30), pan),
		panned(f*17.55, 30, 0, 0.25*bell*math.Exp2((48-k)/20), pan))
	// the tone bar under the tine swings along a little below
	modes = append(modes, panned(f*cents(-1.2), decay*0.55, 0.4, 0.25, -pan))
	t.ring(0, modes)
	t.rise(0.002 + 0.003*(1-touch))
	t.knock(&d, k, touch, (0.7*touch+0.2)*power(modes), pan)
	return t
}

// reed plays an electric piano whose hammers strike reeds between the plates of a condenser: more and higher
// harmonics than a tine's, and a shorter sound.
func reed(key int, touch float64, most int) *take {
	t := &take{most: most}
	k := float64(key)
	f := hertz(k)
	d := dice(key*5 + 3)
	decay := 1.25 * math.Exp(0.03*(k-60))
	pan := 0.15 * across(k)
	drive := min(0.62, (0.32+0.26*touch)*math.Exp2((60-k)/48))
	var modes []mode
	amp := 1.0
	for n := 1.0; n <= 18; n++ {
		x := n * f / 3200
		modes = append(modes, panned(n*f, decay*(1+0.3*(n-1)), n*n*0.7, amp/(1+x*x), pan))
		amp *= drive * (0.8 + 0.4*math.Mod(n, 2))
	}
	modes = append(modes, panned(f*6.9, 22, 0, 0.08*touch, -pan))
	t.ring(0, modes)
	t.rise(0.0015 + 0.002*(1-touch))
	t.knock(&d, k, touch, (0.6*touch+0.2)*power(modes), pan)
	return t
}

// plectrum is a string that a quill, a tangent or a finger sets going.
type plectrum struct {
	plucked float64 // the place on the string, from the bridge: partials with a node there are missing
	pickup  float64 // where a pickup takes it; 0: none
	corner  float64 // hertz: what quill, finger and pickup let through
	steep   float64 // of the fall above the corner, in powers of the frequency
	fall    float64 // power of n by which partials are weaker
	octave  float64 // of a second choir an octave up
	decay   float64 // per second at middle C
	rising  float64 // of it by key
	damping float64 // of the higher partials
	click   float64 // of the onset
	noise   float64 // hertz in which the click is
	rise    float64 // seconds
}

// The plucked keyboard instruments: two choirs of strings, and one with pickups.
var (
	harpsichord = plectrum{plucked: 0.13, fall: 0.6, corner: 6000, steep: 1.6, octave: 0.3, decay: 1.5, rising: 0.03,
		damping: 0.10, click: 0.08, noise: 3800, rise: 0.0012}
	clavinet = plectrum{plucked: 0.06, pickup: 0.17, fall: 0.9, corner: 2200, steep: 2, decay: 1.1, rising: 0.025,
		damping: 0.09, click: 0.03, noise: 2500, rise: 0.001}
)

// keyed plays a plucked keyboard instrument.
func (p plectrum) keyed(key int, touch float64, most int) *take {
	t := &take{most: most}
	k := float64(key)
	d := dice(key*5 + 4)
	pan := 0.25 * across(k)
	var modes []mode
	choir := func(f, amp, pan float64) {
		b := 0.00004 * math.Exp(0.05*(k-60))
		for n := 1.0; n <= 60; n++ {
			freq := partialAt(n, f, b)
			if n > 1 && freq > 14000 {
				break
			}
			modes = append(modes, panned(freq, p.decay*math.Exp(p.rising*(k-60))*(1+p.damping*(n-1)),
				d.between(0, 2*math.Pi), amp*p.partial(n, freq, touch), pan))
		}
	}
	choir(hertz(k), 1, pan)
	if p.octave > 0 {
		choir(hertz(k+12)*cents(0.8), p.octave, -pan)
	}
	t.ring(0, modes)
	t.rise(p.rise)
	t.blow(&d, hiss{rise: 0.0003, fall: 0.005, amp: p.click * (0.4 + 0.6*touch), width: 0.5, pan: pan,
		filters: []filter{bandPass(p.noise, 0.8)}})
	return t
}

// partial is the amplitude of the n-th partial.
func (p plectrum) partial(n, freq, touch float64) float64 {
	a := math.Abs(math.Sin(n*math.Pi*p.plucked)) / math.Pow(n, p.fall)
	if p.pickup > 0 {
		a *= math.Abs(math.Sin(n*math.Pi*p.pickup)) + 0.04
	}
	return a / (1 + math.Pow(freq/(p.corner*(0.5+0.5*touch)), p.steep))
}
