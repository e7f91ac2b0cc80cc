package sketch

import (
	"math"

	"plinth/render/audio/bank"
)

// take is a note in the making.
type take struct {
	left, right []float64
	mono        bool // both sides are the left one
}

// reach makes a take at least n samples long.
func (t *take) reach(n int) {
	n = min(n, bank.MaxSeconds*bank.Rate)
	for _, side := range []*[]float64{&t.left, &t.right} {
		if side == &t.right && t.mono {
			return
		}
		if len(*side) < n {
			longer := make([]float64, n)
			copy(longer, *side)
			*side = longer
		}
	}
}

// rise fades the take in, along a raised cosine.
func (t *take) rise(seconds float64) {
	n := int(seconds * bank.Rate)
	for _, side := range t.sides() {
		for i := range min(n, len(side)) {
			side[i] *= 0.5 - 0.5*math.Cos(math.Pi*(float64(i)+0.5)/float64(n))
		}
	}
}

// sides are the sides that were computed.
func (t *take) sides() [][]float64 {
	if t.mono {
		return [][]float64{t.left}
	}
	return [][]float64{t.left, t.right}
}

// A finished take begins within onset seconds, ends where no later sample is louder than quiet of the
// loudest (-74 dB), and closes over the last part of it.
const (
	onset   = 0.0006
	quiet   = 1.0 / 5000
	closing = 0.25 // of the length
	longest = 0.4  // seconds of it at most
	ceiling = 0.97
)

// settled is over what time, in seconds, levels are measured.
const settled = 0.3

// finish makes the sound of a take: a smooth start and end, and the level in decibels below full
// scale that its first third of a second has.
func (t *take) finish(level float64) (left, right []float32) {
	t.rise(onset)
	peak := 0.0
	for _, side := range t.sides() {
		for _, x := range side[:min(len(side), 2*bank.Rate)] {
			peak = max(peak, math.Abs(x))
		}
	}
	if peak == 0 {
		return nil, nil
	}
	end, power, n := 0, 0.0, 0
	for _, side := range t.sides() {
		for i := len(side) - 1; i >= end; i-- {
			if math.Abs(side[i]) > peak*quiet {
				end = i + 1
				break
			}
		}
		for _, x := range side[:min(len(side), int(settled*bank.Rate))] {
			power += float64(x * x)
		}
		n += int(settled * bank.Rate)
	}
	scale := decibels(level) / math.Sqrt(power/float64(n))
	scale = min(scale, ceiling/peak)
	fade := min(int(float64(end)*closing), int(longest*bank.Rate))
	done := make([][]float32, 0, 2)
	for _, side := range t.sides() {
		out := make([]float32, end)
		for i := range out {
			out[i] = float32(side[i] * scale)
		}
		for i := range fade {
			out[end-1-i] *= float32(0.5 - 0.5*math.Cos(math.Pi*(float64(i)+0.5)/float64(fade)))
		}
		done = append(done, out)
	}
	return done[0], done[len(done)-1]
}
