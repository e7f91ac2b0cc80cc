package audio

import (
	"math"

	"plinth/render/audio/bank"
)

// The hall, in frames.
const (
	hallFrames = bank.Rate * 19 / 10
	hallDelay  = bank.Rate * 18 / 1000 // before the first wall answers
	hallRise   = bank.Rate * 45 / 1000 // in which the walls' answers grow dense
	hallFade   = bank.Rate / 10        // at the end, so that it does not break off
)

// hallBands are what the hall's sound is made of: noise between two frequencies that dies away in a time of its
// own, the highs first, as in a room of wood and cloth (common practice, no single source).
var hallBands = [...]struct {
	hertz   float64 // its upper end; the last has none
	seconds float64 // in which it falls by 60 dB
	gain    float64
}{{350, 1.9, 1}, {2500, 1.8, 0.9}, {7000, 1.0, 0.6}, {0, 0.6, 0.3}}

// hallWalls are the first answers: milliseconds, gain left, gain right. Those of the two sides never fall together.
var hallWalls = [...][3]float64{{19, 0.9, 0}, {23, 0, 0.9}, {31, 0.3, 0.7}, {37, 0.7, 0.25}, {46, 0.55, 0},
	{53, 0, 0.55}, {61, 0.2, 0.45}, {71, 0.45, 0.2}}

// dull is what a wall gives back of a click: it is no mirror and takes the highs.
var dull = [...]float64{0.25, 0.5, 0.25}

// Impulse is what the reverb answers to a click: a warm hall of 1.8 seconds. Each channel has the energy 1, so
// that the reverb is as loud as what is sent to it. It is the same to the last bit on every machine: no two
// operations may be joined into one, so every product is converted; a square root is rounded alike everywhere.
func Impulse() *Stereo {
	out := newStereo(hallFrames)
	for side, to := range [][]float32{out.Left, out.Right} {
		noise := newNoise(uint64(side))
		var low [len(hallBands)]float64 // one-pole filters
		var gain [len(hallBands)]float64
		for b, band := range hallBands {
			gain[b] = band.gain
		}
		air, rumble, energy := 0.0, 0.0, 0.0
		tail := make([]float64, hallFrames)
		for i := hallDelay; i < hallFrames; i++ {
			// The air swallows what lies over 3500 Hz. What lies under 90 Hz stays dry: it would blur the bass.
			air += float64((noise.next() - air) * pole(3500))
			rumble += float64((air - rumble) * pole(90))
			rest, sum := air-rumble, 0.0
			for b, band := range hallBands {
				part := rest
				if band.hertz > 0 {
					low[b] += float64((rest - low[b]) * pole(band.hertz))
					part = low[b]
				}
				if b > 0 {
					part -= low[b-1]
				}
				sum += float64(part * gain[b])
				gain[b] = float64(gain[b] * (1 - 6.907755/(band.seconds*bank.Rate)))
			}
			if rise := i - hallDelay; rise < hallRise {
				sum = float64(sum * float64(rise) / hallRise)
			}
			if left := hallFrames - i; left < hallFade {
				sum = float64(sum * float64(left) / hallFade)
			}
			tail[i] = sum
			energy += float64(sum * sum)
		}
		// The walls have a tenth of the energy.
		walls := 0.0
		for _, w := range hallWalls {
			for _, part := range dull {
				walls += float64(w[1+side] * w[1+side] * part * part)
			}
		}
		wall, rest := math.Sqrt(0.1/walls), math.Sqrt(0.9/energy)
		for i, v := range tail {
			to[i] = float32(v * rest)
		}
		for _, w := range hallWalls {
			at := int(w[0] * bank.Rate / 1000)
			for i, part := range dull {
				to[at+i] += float32(float64(w[1+side]*wall) * part)
			}
		}
	}
	return out
}

// pole is the part of a one-pole low-pass filter's way that it goes in a frame.
func pole(hertz float64) float64 {
	way := float64(2 * math.Pi * hertz / bank.Rate)
	return float64(way / (1 + way))
}

// noise is a row of numbers by chance, always the same: SplitMix64 (Steele, Lea and Flood 2014).
type noise struct{ state uint64 }

func newNoise(seed uint64) *noise { return &noise{seed*0x632BE59BD9B4E019 + 0x9E3779B97F4A7C15} }

// next is the next number, from -1 to 1.
func (n *noise) next() float64 {
	n.state += 0x9E3779B97F4A7C15
	z := n.state
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return float64(int32((z^z>>31)>>32)) / (1 << 31)
}
