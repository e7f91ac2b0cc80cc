package sketch

import (
	"math"
	"testing"

	"plinth/render/audio/bank"
)

// Every program that a song can ask for plays its keys within 3 cents of equal temperament on A4 = 440 Hz (ISO 16), on
// the softest and the hardest layer.
func TestPitch(t *testing.T) {
	renders(t)
	const n = 1 << 15
	keys := map[bool][]uint8{false: {40, 60, 69, 79}, true: {28, 36, 50}}
	for _, program := range []uint8{0, 1, 2, 3, 4, 5, 6, 7, 32, 33, 34, 35, 36, 37, 38, 39, guideProgram} {
		for _, key := range keys[program/8 == 4] {
			for _, layer := range []uint8{0, uint8(len(layers(bank.Patch{Program: program}, int(key))))} {
				s := compute(bank.Note{Patch: bank.Patch{Program: program}, Key: key, Layer: layer}, bank.Rate)
				want := 440 * math.Pow(2, (float64(key)-69)/12)
				got := peakNear(spectrum(mid(s), bank.Rate/20, n, true), want, 60)
				within := 3.0
				if program == 3 { // the strings of a honky-tonk piano stand about 11 cents apart
					within = 17
				}
				if c := centsFrom(got, want); math.Abs(c) > within {
					t.Errorf("program %d key %d layer %d: %.2f Hz is %.1f cents off %.2f Hz",
						program, key, layer, got, c, want)
				}
			}
		}
	}
}

// The piano's partials lie at n·f·√((1+B·n²)/(1+B)) for one B a key, and the B measured by them is that of real
// pianos: some 0.0001 to 0.0003 in the bass, 0.0003 to 0.0005 at middle C, ten times that two octaves higher
// (Fletcher, Blackham and Stratton, JASA 34, 1962, and Fletcher and Rossing, chapter 12; from memory, rounded
// outwards).
func TestPianoPartials(t *testing.T) {
	renders(t)
	const n = 1 << 17
	for _, row := range []struct {
		key       uint8
		partials  int
		low, high float64
	}{{36, 12, 0.00005, 0.0003}, {48, 12, 0.0001, 0.0004}, {60, 9, 0.0002, 0.0006}, {72, 6, 0.0006, 0.002},
		{84, 4, 0.002, 0.006}} {
		mags := spectrum(mid(compute(bank.Note{Key: row.key, Layer: 2}, bank.MaxFrames)), bank.Rate/20, n, true)
		f := 440 * math.Pow(2, (float64(row.key)-69)/12)
		first := peakNear(mags, f, 60)
		// B by the highest partial, and the others by this B
		last := float64(row.partials)
		x := peakNear(mags, last*f*math.Exp2(partialGuess(row.key, last)/1200), 25) / (last * first)
		b := (x*x - 1) / (last*last - x*x)
		if b < row.low || b > row.high {
			t.Errorf("key %d: B is %.6f, not %g to %g", row.key, b, row.low, row.high)
		}
		for i := 2.0; i < last; i++ {
			want := i * first * math.Sqrt((1+b*i*i)/(1+b))
			if c := centsFrom(peakNear(mags, want, 25), want); math.Abs(c) > 2 {
				t.Errorf("key %d: partial %g lies %.1f cents off where B = %.6f has it", row.key, i, c, b)
			}
		}
	}
}

// partialGuess is about how many cents a partial of a piano is sharp: where to look for it.
func partialGuess(key uint8, n float64) float64 {
	b := 0.00035 * math.Exp(0.0926*(float64(key)-60))
	if key < 50 {
		b = 0.00015
	}
	return 600 * math.Log2((1+b*n*n)/(1+b))
}
