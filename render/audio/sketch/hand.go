package sketch

import (
	"math"

	"plinth/render/audio/bank"
)

// The blocks of the percussion map. Places of the modes by ear and by what sampled kits show.
var (
	rim = block{{1720, 0.09, 1}, {460, 0.07, 0.5}, {930, 0.08, 0.6}, {2450, 0.06, 0.7},
		{3300, 0.05, 0.5}, {205, 0.12, 0.3}}
	cowbell = block{{562, 0.22, 1}, {845, 0.2, 0.8}, {1420, 0.1, 0.25}, {2240, 0.08, 0.2},
		{3400, 0.05, 0.15}}
	timbaleHigh = block{{520, 0.5, 1}, {830, 0.4, 0.5}, {1190, 0.3, 0.4}, {1850, 0.2, 0.2}}
	timbaleLow  = block{{350, 0.6, 1}, {560, 0.5, 0.5}, {800, 0.35, 0.4}, {1300, 0.2, 0.2}}
	agogoHigh   = block{{1180, 0.35, 1}, {1790, 0.3, 0.6}, {2950, 0.15, 0.2}}
	agogoLow    = block{{815, 0.4, 1}, {1240, 0.35, 0.6}, {2040, 0.2, 0.2}}
	claves      = block{{2480, 0.08, 1}, {4900, 0.03, 0.2}}
	woodHigh    = block{{1010, 0.07, 1}, {1730, 0.05, 0.3}, {2620, 0.04, 0.2}}
	woodLow     = block{{770, 0.08, 1}, {1330, 0.06, 0.3}, {2050, 0.04, 0.2}}
)

// triangle are the modes of a bent bar, with the seconds for 60 dB of the lowest.
func triangle(ring float64) block {
	var b block
	for i, freq := range [...]float64{1650, 2420, 4130, 5260, 6380, 7950, 9640, 11200} {
		amp := [...]float64{0.25, 0.15, 0.6, 1, 0.5, 0.8, 0.4, 0.35}[i]
		b = append(b, [3]float64{freq, ring / (1 + 0.08*float64(i)), amp}, [3]float64{freq * 1.0021, ring, 0.4 * amp})
	}
	return b
}

// clap are hands that do not meet at quite the same time.
func clap(d *dice, touch float64) *take {
	t := &take{}
	for i, at := range [...]float64{0, 0.0095, 0.019, 0.028} {
		fall := 0.006
		if i == 3 {
			fall = 0.055
		}
		t.blow(d, hiss{at: at, rise: 0.0006, fall: fall, amp: 1, width: 0.7, pan: 0.4 * (float64(i%2) - 0.5),
			filters: []filter{bandPass(1150+250*touch, 0.8), lowPass(6000+3000*touch, 0.7)}})
	}
	return t
}

// tambourine are jingles.
func tambourine(d *dice, touch float64) *take {
	t := &take{}
	for _, at := range [...]float64{0, 0.012, 0.031} {
		var modes []mode
		for range 14 {
			freq, decay := d.between(4200, 12500), d.between(22, 48)
			modes = append(modes, panned(freq, decay, d.between(0, 6.28), d.between(0.3, 1), d.between(-0.15, 0.65)))
		}
		t.ring(at, modes)
	}
	t.blow(d, hiss{rise: 0.001, fall: 0.03, amp: 2.2, width: 0.6, pan: 0.25,
		filters: []filter{highPass(5500, 0.7)}})
	t.blow(d, hiss{rise: 0.001, fall: 0.012, amp: 1.2 * touch, width: 0.3, pan: 0.25,
		filters: []filter{bandPass(900, 0.8)}})
	return t
}

// hand is a small drum that a hand plays.
func hand(freq, ring, slap float64) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		for _, m := range membrane[:5] {
			t.drop(glide{freq: freq * m.ratio, over: freq * 0.05, falls: 0.02, pan: -0.2,
				decay: by60 / ring * m.ratio, amp: m.amp * m.amp})
		}
		t.blow(d, hiss{rise: 0.0004, fall: 0.006, amp: 5 * slap * (0.4 + 0.6*touch), width: 0.3, pan: -0.2,
			filters: []filter{bandPass(1500, 0.6)}})
		t.rise(0.001)
		return t
	}
}

// scraped is a stick over the notches of a gourd.
func scraped(seconds float64, strokes int) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		for i := range strokes {
			x := float64(i) / float64(strokes)
			t.blow(d, hiss{at: seconds * x, rise: 0.0006, fall: 0.004, amp: 0.4 + 0.6*math.Sin(math.Pi*x),
				width: 0.3, pan: 0.25, filters: []filter{bandPass(3200+900*x, 1.2)}})
		}
		return t
	}
}

// vibraslap are teeth that rattle in a box.
func vibraslap(d *dice, touch float64) *take {
	t := &take{}
	for i := range 40 {
		at := 0.021 * float64(i)
		t.blow(d, hiss{at: at, rise: 0.0006, fall: 0.006, amp: math.Exp(-3.2 * at), width: 0.4, pan: 0.2,
			filters: []filter{bandPass(2700, 2.5)}})
	}
	return t
}

// whistle is a pea whistle.
func whistle(seconds float64) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		n := int(seconds * bank.Rate)
		t.reach(n + bank.Rate/20)
		phase := 0.0
		for i := range t.left {
			at := float64(i) / bank.Rate
			phase += 2 * math.Pi * (2330 + 60*math.Sin(2*math.Pi*34*at)) / bank.Rate
			y := math.Sin(phase) * (0.75 + 0.25*math.Sin(2*math.Pi*34*at)) * (1 - math.Exp(-at/0.008))
			if i > n {
				y *= math.Exp(-float64(i-n) / (0.006 * bank.Rate))
			}
			t.left[i], t.right[i] = float32(y), float32(y)
		}
		t.blow(d, hiss{rise: 0.01, fall: seconds / 2, amp: 0.15, width: 0.5, filters: []filter{bandPass(2600, 1)}})
		return t
	}
}

// cuica is a skin that a wet cloth rubs.
func cuica(freq, over float64) stroke {
	return func(d *dice, touch float64) *take {
		t := &take{}
		for n := 1.0; n <= 5; n++ {
			t.drop(glide{freq: freq * n, over: over * n, falls: 0.08, decay: 14 + 4*n, amp: 1 / (n * n)})
		}
		t.rise(0.02)
		return t
	}
}
