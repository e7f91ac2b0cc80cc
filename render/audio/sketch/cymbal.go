package sketch

import "math"

// plate is a cymbal: modes that lie almost evenly over the hertz, as a plate's do (Fletcher and Rossing, chapters 3
// and 20), and noise where they are too many to count.
type plate struct {
	low, high float64 // hertz of the modes
	modes     int
	ring      float64 // seconds for 60 dB at 1 kHz
	shorter   float64 // by the power of the frequency in kilohertz
	tilt      float64 // of the amplitudes, likewise
	peak      float64 // hertz of the strongest; those below are weaker
	slope     float64 // by which power
	wash      float64 // of the noise
	washFrom  float64 // hertz
	rise      float64 // seconds in which the wash comes: what is struck hard passes it up to the high modes bit by bit
	fall      float64 // time constant of the wash
	stick     float64 // of the tip
	bell      float64 // of the bell's tone
	thump     float64 // of what closes below the metal
	pan       float64
}

// strike hits it.
func (p plate) strike(d *dice, touch float64) *take {
	t := &take{}
	var modes []mode
	for i := range p.modes {
		freq := p.low + (p.high-p.low)*math.Pow((float64(i)+d.between(0.1, 0.9))/float64(p.modes), 1.3)
		x := freq / 1000
		amp := math.Pow(x, p.tilt) * d.between(0.3, 1)
		if freq < p.peak {
			amp *= math.Pow(freq/p.peak, p.slope)
		} else {
			amp *= math.Pow(p.peak/freq, 0.7*(1-touch))
		}
		if u := (freq - p.low) / (p.high - p.low); u > 0.6 {
			amp *= 1 - 0.9*(u-0.6)/0.4 // the top thins out
		}
		decay := by60 / p.ring * math.Pow(max(x, 0.4), p.shorter) * d.between(0.8, 1.25)
		modes = append(modes, panned(freq, decay, d.between(0, 2*math.Pi), amp, clip(p.pan+d.between(-0.45, 0.45))))
	}
	for i, m := range bellModes {
		modes = append(modes, panned(p.peak*m.ratio, 1.9+0.5*float64(i), float64(i), p.bell*m.amp, p.pan))
	}
	t.ring(0, modes)
	noise := p.wash * math.Sqrt(float64(p.modes))
	bright := 7000 + 6000*touch
	t.blow(d, hiss{rise: p.rise, fall: p.fall, amp: 0.30 * noise, width: 0.9, pan: p.pan,
		filters: []filter{highPass(p.washFrom, 0.6), lowPass(bright, 0.6)}})
	t.blow(d, hiss{rise: p.rise / 3, fall: p.fall / 5, amp: 0.30 * noise * (0.5 + 0.5*touch), width: 0.8, pan: p.pan,
		filters: []filter{highPass(p.washFrom*1.3, 0.6), lowPass(bright*1.3, 0.6)}})
	if p.thump > 0 {
		t.blow(d, hiss{rise: 0.0015, fall: 0.016, amp: p.thump * noise, width: 0.3, pan: p.pan,
			filters: []filter{bandPass(420, 0.6)}})
	}
	if p.stick > 0 {
		t.blow(d, hiss{rise: 0.0003, fall: 0.004, amp: p.stick * noise * (0.3 + 0.7*touch), width: 0.3, pan: p.pan,
			filters: []filter{highPass(1500, 0.6), lowPass(9000+5000*touch, 0.7)}})
	}
	t.rise(0.001)
	return t
}

// bellModes are the modes of a cymbal's bell against the strongest of the whole.
var bellModes = [...]struct{ ratio, amp float64 }{{0.5, 0.35}, {0.76, 0.6}, {1.09, 1}, {1.45, 0.8}, {1.85, 0.5}}

// The cymbals. Their ringing was set beside two sampled kits.
var (
	hatClosed = plate{low: 500, high: 14500, modes: 52, ring: 0.34, shorter: 0.35, tilt: 0.3, peak: 4200, slope: 1,
		wash: 0.8, washFrom: 4200, rise: 0.0004, fall: 0.022, stick: 0.4, thump: 0.35, pan: 0.22}
	hatPedal = plate{low: 400, high: 12500, modes: 48, ring: 0.24, shorter: 0.2, tilt: 0.1, peak: 3000, slope: 0.8,
		wash: 0.7, washFrom: 2600, rise: 0.004, fall: 0.024, thump: 1.2, pan: 0.22}
	hatOpen = plate{low: 320, high: 13500, modes: 60, ring: 4, shorter: 0.35, tilt: 0, peak: 2400, slope: 0.5,
		wash: 0.28, washFrom: 3600, rise: 0.002, fall: 0.34, stick: 0.3, thump: 0.3, pan: 0.22}
	ride = plate{low: 300, high: 13500, modes: 68, ring: 6.5, shorter: 0.62, tilt: 0.1, peak: 2600, slope: 0.6,
		wash: 0.25, washFrom: 4600, rise: 0.004, fall: 0.45, stick: 1.6, thump: 0.2, pan: -0.25}
	rideBell = plate{low: 400, high: 10000, modes: 44, ring: 4.5, shorter: 0.5, tilt: 0, peak: 2500, slope: 0.6,
		wash: 0.06, washFrom: 4200, rise: 0.004, fall: 0.3, stick: 0.7, bell: 1.7, pan: -0.25}
	crash = plate{low: 260, high: 13500, modes: 116, ring: 5.6, shorter: 0.27, tilt: 0.1, peak: 900, slope: 0.7,
		wash: 0.26, washFrom: 2600, rise: 0.026, fall: 0.8, stick: 0.2, pan: 0.3}
	crash2 = plate{low: 230, high: 12500, modes: 116, ring: 6, shorter: 0.27, tilt: 0.1, peak: 800, slope: 0.7,
		wash: 0.25, washFrom: 2400, rise: 0.028, fall: 0.85, stick: 0.2, pan: -0.35}
	splash = plate{low: 420, high: 11500, modes: 60, ring: 2, shorter: 0.4, tilt: 0, peak: 2200, slope: 0.6,
		wash: 0.35, washFrom: 3400, rise: 0.006, fall: 0.2, stick: 0.2, pan: 0.1}
	china = plate{low: 220, high: 9500, modes: 72, ring: 3, shorter: 0.4, tilt: -0.2, peak: 1000, slope: 0.5,
		wash: 0.4, washFrom: 1800, rise: 0.012, fall: 0.3, stick: 0.2, pan: 0.35}
)
