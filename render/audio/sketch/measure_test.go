package sketch

import (
	"math"
	"math/bits"
	"math/cmplx"

	"plinth/render/audio/bank"
)

// What a test measures of a sound. Nothing of what makes the sounds is used for it.

// mid is the middle of two sides.
func mid(s bank.Sound) []float64 {
	x := make([]float64, len(s.Left))
	for i := range x {
		x[i] = (float64(s.Left[i]) + float64(s.Right[i])) / 2
	}
	return x
}

// transform is the discrete Fourier transform of a power of two of values (Cooley and Tukey).
func transform(x []complex128) []complex128 {
	n := len(x)
	y := make([]complex128, n)
	for i := range x {
		y[bits.Reverse64(uint64(i))>>(64-bits.Len(uint(n-1)))] = x[i]
	}
	for half := 1; half < n; half *= 2 {
		step := cmplx.Rect(1, -math.Pi/float64(half))
		for from := 0; from < n; from += 2 * half {
			w := complex(1, 0)
			for i := from; i < from+half; i++ {
				a, b := y[i], y[i+half]*w
				y[i], y[i+half] = a+b, a-b
				w *= step
			}
		}
	}
	return y
}

// spectrum are the magnitudes from a sample on. Where whole is true the window is Hann's, for places of peaks; else
// its falling half, which leaves the onset in.
func spectrum(x []float64, from, n int, whole bool) []float64 {
	y := make([]complex128, n)
	for i := range y {
		if from+i >= len(x) {
			break
		}
		w := 0.5 + 0.5*math.Cos(math.Pi*float64(i)/float64(n))
		if whole {
			w = 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(n))
		}
		y[i] = complex(x[from+i]*w, 0)
	}
	y = transform(y)
	mags := make([]float64, n/2)
	for i := range mags {
		mags[i] = cmplx.Abs(y[i])
	}
	return mags
}

// peakNear is the frequency of the strongest partial within so many cents of a frequency, read between the bins by a
// parabola through the logarithms.
func peakNear(mags []float64, hertz, cents float64) float64 {
	bin := bank.Rate / float64(2*len(mags))
	low, high := int(hertz*math.Exp2(-cents/1200)/bin), int(hertz*math.Exp2(cents/1200)/bin)+1
	top := low
	for i := low; i <= high; i++ {
		if mags[i] > mags[top] {
			top = i
		}
	}
	a, b, c := math.Log(mags[top-1]), math.Log(mags[top]), math.Log(mags[top+1])
	return (float64(top) + (a-c)/(a-2*b+c)/2) * bin
}

// centsFrom is how far a frequency is above another.
func centsFrom(f, from float64) float64 { return 1200 * math.Log2(f/from) }

// rms is the level in decibels between two times, in seconds; what lies behind the end is silence.
func rms(s bank.Sound, from, to float64) float64 {
	a, b := int(from*bank.Rate), int(to*bank.Rate)
	sum := 1e-20
	for i := a; i < min(b, len(s.Left)); i++ {
		sum += (float64(s.Left[i])*float64(s.Left[i]) + float64(s.Right[i])*float64(s.Right[i])) / 2
	}
	return 10 * math.Log10(sum/float64(b-a))
}

// centroid is the middle of the spectrum of the first third of a second, weighted by power, in hertz.
func centroid(s bank.Sound) float64 {
	const n = 1 << 14
	mags := spectrum(mid(s), 0, n, false)
	sum, weighted := 1e-20, 0.0
	for i, m := range mags {
		sum += m * m
		weighted += m * m * float64(i) * bank.Rate / n
	}
	return weighted / sum
}

// peak is the largest sample of both sides.
func peak(s bank.Sound) float64 {
	p := 0.0
	for i := range s.Left {
		p = max(p, math.Abs(float64(s.Left[i])), math.Abs(float64(s.Right[i])))
	}
	return p
}

// attack is when the loudest hundredth of a second begins, in seconds.
func attack(s bank.Sound) float64 {
	best, at := math.Inf(-1), 0.0
	for x := 0.0; x < float64(len(s.Left))/bank.Rate; x += 0.005 {
		if l := rms(s, x, x+0.01); l > best {
			best, at = l, x
		}
	}
	return at
}
