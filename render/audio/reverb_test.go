package audio

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"math"
	"testing"

	"plinth/render/audio/bank"
)

// The hall is as loud as what is sent to it, silent before its first wall, falls by 60 dB in 1.8 seconds
// (ISO 3382-1: the line through -5 and -35 dB of the energy that is still to come), and is duller at its end.
func TestImpulse(t *testing.T) {
	hall := Impulse()
	hash := sha256.New()
	for side, x := range [][]float32{hall.Left, hall.Right} {
		binary.Write(hash, binary.LittleEndian, x)
		energy := 0.0
		left := make([]float64, len(x)+1) // what is still to come
		for i := len(x) - 1; i >= 0; i-- {
			energy += float64(x[i]) * float64(x[i])
			left[i] = energy
		}
		if math.Abs(energy-1) > 0.05 {
			t.Errorf("side %d: energy %g", side, energy)
		}
		for i := range bank.Rate * 18 / 1000 {
			if x[i] != 0 {
				t.Fatalf("side %d: it answers in frame %d", side, i)
			}
		}
		var at [2]float64
		for i := len(x) - 1; i >= 0; i-- {
			for j, down := range []float64{-5, -35} {
				if 10*math.Log10(left[i]/energy) <= down {
					at[j] = float64(i) / bank.Rate
				}
			}
		}
		if t60 := 2 * (at[1] - at[0]); t60 < 1.6 || t60 > 2 {
			t.Errorf("side %d: %.2f s", side, t60)
		}
		early, late := brightness(x[4800:14400]), brightness(x[48000:57600])
		if late > early*0.8 {
			t.Errorf("side %d: as bright late (%g) as early (%g)", side, late, early)
		}
	}
	// Frozen: whoever has rendered it once may keep it.
	if got := hex.EncodeToString(hash.Sum(nil)[:8]); got != "99880a8e91c63364" {
		t.Errorf("the hall is %s", got)
	}
}

// brightness is how much a sound moves from sample to sample, by its level.
func brightness(x []float32) float64 {
	moves, level := 0.0, 0.0
	for i := 1; i < len(x); i++ {
		d := float64(x[i] - x[i-1])
		moves += d * d
		level += float64(x[i]) * float64(x[i])
	}
	return math.Sqrt(moves / level)
}

// What the transforms make is the sum by which a convolution is defined, over the border of two blocks.
func TestReverb(t *testing.T) {
	r := newReverb()
	hall := Impulse()
	n := r.hop() + 3000
	from, got := newStereo(n), newStereo(n)
	taps := map[int][2]float32{0: {1, 0}, 700: {-0.5, 0.25}, r.hop() - 2: {0, 1}, r.hop() + 1: {0.75, -1}}
	for i, v := range taps {
		from.Left[i], from.Right[i] = v[0], v[1]
	}
	r.hall(from, got, nil)
	for i := range n {
		var left, right float64
		for at, v := range taps {
			if j := i - at; j >= 0 && j < hallFrames {
				left += float64(v[0]) * float64(hall.Left[j])
				right += float64(v[1]) * float64(hall.Right[j])
			}
		}
		if math.Abs(left-float64(got.Left[i])) > 1e-6 || math.Abs(right-float64(got.Right[i])) > 1e-6 {
			t.Fatalf("frame %d: %g and %g, expected %g and %g", i, got.Left[i], got.Right[i], left, right)
		}
	}
}
