package sketch

import (
	"math"

	"plinth/render/audio/bank"
)

// What an oo is made of: the first two formants of the vowel in "who'd" (Peterson and Barney, JASA 24, 1952: about
// 300 to 370 and 870 to 950 Hz; from memory), and a vibrato of five and a half swings a second that comes in late.
const (
	formant1, formant2 = 340, 860
	vibratoRate        = 5.4
	vibratoCents       = 14
	vibratoIn          = 0.35 // seconds
	oohRise            = 0.07 // seconds
)

// ooh sings a key as long as a note may be.
func ooh(key, most int) *take {
	t := &take{most: most}
	t.reach(bank.MaxFrames)
	f := hertz(float64(key))
	var amps []float64
	for n := 1.0; n <= 12 && (n == 1 || n*f < 5000); n++ {
		x := n * f
		amps = append(amps, (resonance(x, formant1, 110)+0.35*resonance(x, formant2, 130)+
			0.02*resonance(x, 2300, 250)+0.01)/math.Pow(n, 1.1))
	}
	const step = 32 // samples of one frequency
	phase := 0.0
	for i := 0; i < len(t.left); i += step {
		at := float64(i) / bank.Rate
		deep := vibratoCents * (1 - math.Exp(-at/vibratoIn*at/vibratoIn))
		w := 2 * math.Pi * f * cents(deep*math.Sin(2*math.Pi*vibratoRate*at)) / bank.Rate
		swell := 1 + 0.05*math.Sin(2*math.Pi*vibratoRate*at-1)*min(1, at)
		s, c := math.Sin(phase), math.Cos(phase)
		ds, dc := math.Sin(w), math.Cos(w)
		for j := i; j < min(i+step, len(t.left)); j++ {
			// the sines of all multiples, by sin((n+1)x) = 2 cos x sin nx - sin((n-1)x)
			before, now, sum := 0.0, s, 0.0
			for _, a := range amps {
				sum += float64(a * now)
				before, now = now, float64(2*c*now)-before
			}
			t.left[j] += float32(sum * swell)
			s, c = float64(s*dc)+float64(c*ds), float64(c*dc)-float64(s*ds)
		}
		phase = math.Mod(phase+w*step, 2*math.Pi)
	}
	copy(t.right, t.left)
	d := dice(key)
	breath := 0.05 * amps[0]
	t.blow(&d, hiss{rise: 0.12, fall: 1.2, amp: breath, width: 1,
		filters: []filter{bandPass(1100, 0.8), lowPass(3000, 0.7)}})
	t.rise(oohRise)
	return t
}

// resonance is what a formant lets through.
func resonance(freq, at, width float64) float64 {
	x := (freq - at) / width
	return 1 / math.Sqrt(1+x*x)
}
