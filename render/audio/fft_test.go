package audio

import (
	"math"
	"math/bits"
	"math/cmplx"
	"testing"
)

// The transform is that of its definition, in bit-reversed order, and back is what it was; for an even
// and an odd number of stages.
func TestFFT(t *testing.T) {
	for _, log := range []int{2, 3, 6, 7} {
		f := newFFT(log)
		x, was := make([]complex128, f.n), make([]complex128, f.n)
		for i := range x {
			was[i] = complex(math.Sin(float64(i*i)), math.Cos(float64(3*i)))
			x[i] = was[i]
		}
		f.forward(x)
		place := func(k int) int { return int(bits.Reverse64(uint64(k)) >> (64 - log)) }
		for k := range f.n {
			var sum complex128
			for i, v := range was {
				sum += v * cmplx.Exp(complex(0, -2*math.Pi*float64(k*i)/float64(f.n)))
			}
			if cmplx.Abs(x[place(k)]-sum) > 1e-9 {
				t.Errorf("2^%d: frequency %d is %v, expected %v", log, k, x[place(k)], sum)
			}
			if got, want := mirror(place(k)), place((f.n-k)%f.n); got != want {
				t.Errorf("2^%d: frequency -%d stands at %d, expected %d", log, k, got, want)
			}
		}
		f.back(x)
		for i := range x {
			if cmplx.Abs(x[i]/complex(float64(f.n), 0)-was[i]) > 1e-12 {
				t.Errorf("2^%d: point %d is %v, expected %v", log, i, x[i], was[i])
			}
		}
	}
}

func BenchmarkFFT(b *testing.B) {
	f := newFFT(18)
	x := make([]complex128, f.n)
	for b.Loop() {
		f.forward(x)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*f.n), "ns/point")
}
