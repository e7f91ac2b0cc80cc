package sketch

import (
	"cmp"
	"math"
	"sync"

	"plinth/render/audio/bank"
)

// take is a note in the making.
type take struct {
	left, right []float32
	mono        bool    // both sides are the left one
	most        int     // frames that are computed of it; 0: all
	cut         bool    // there would be more
	lower       float64 // decibels by which it may end later than others
}

// buffers hold takes. They are used again and again: new memory takes longer than what is computed in it.
var buffers = sync.Pool{New: func() any { return new([bank.MaxFrames]float32) }}

// reach makes a take at least n samples long, as far as it may be.
func (t *take) reach(n int) {
	most := cmp.Or(t.most, bank.MaxFrames)
	t.cut = t.cut || n > most && most < bank.MaxFrames
	n = min(n, most)
	for _, side := range []*[]float32{&t.left, &t.right} {
		if side == &t.right && t.mono {
			return
		}
		if *side == nil {
			*side = buffers.Get().(*[bank.MaxFrames]float32)[:0]
		}
		if was := len(*side); was < n {
			*side = (*side)[:n]
			clear((*side)[was:])
		}
	}
}

// free gives the memory of a take back.
func (t *take) free() {
	for _, side := range t.sides() {
		if side != nil {
			buffers.Put((*[bank.MaxFrames]float32)(side[:bank.MaxFrames]))
		}
	}
}

// risen is the gain at a sample of a fade in over n samples: a raised cosine.
func risen(i, n int) float32 { return float32(0.5 - 0.5*math.Cos(math.Pi*(float64(i)+0.5)/float64(n))) }

// rise fades the take in.
func (t *take) rise(seconds float64) {
	n := int(seconds * bank.Rate)
	for _, side := range t.sides() {
		for i := range min(n, len(side)) {
			side[i] *= risen(i, n)
		}
	}
}

// sides are the sides that were computed.
func (t *take) sides() [][]float32 {
	if t.mono {
		return [][]float32{t.left}
	}
	return [][]float32{t.left, t.right}
}

// A finished take begins within onset seconds, ends where no later sample is louder than this far below the
// loudest, and closes over the last part of it.
const (
	onset   = 0.0006
	quiet   = -50.0 // decibels
	closing = 0.35  // of the length
	longest = 1.0   // seconds of it at most
	ceiling = 0.97
)

// settled is over what time, in seconds, levels are measured.
const settled = 0.3

// loudBy is by when, in seconds, every note has been as loud as it gets.
const loudBy = 2

// beyond is how many frames are computed behind those that are wanted: so it is seen that the end, with its closing,
// lies behind them.
const beyond = (longest + 0.25) * bank.Rate

// finish makes the sound of a take: a smooth start and end, and the level in decibels below full scale that its
// first third of a second has. Of a take that was cut off it is the frames that are wanted, and ok says whether the
// end is known to lie behind them. The take is used up.
func (t *take) finish(level float64, frames int) (left, right []float32, ok bool) {
	defer t.free()
	t.rise(onset)
	peak, power := float32(0), 0.0
	for _, side := range t.sides() {
		peak = max(peak, bank.Peak(side[:min(len(side), loudBy*bank.Rate)]))
		for _, x := range side[:min(len(side), int(settled*bank.Rate))] {
			power += float64(x) * float64(x)
		}
	}
	if peak == 0 {
		return nil, nil, true
	}
	power /= float64(len(t.sides()) * int(settled*bank.Rate))
	scale := float32(min(decibels(level)/math.Sqrt(power), ceiling/float64(peak)))
	end := t.end(peak * float32(decibels(quiet-t.lower)))
	fade := min(int(float64(end)*closing), int(longest*bank.Rate))
	if t.cut {
		if end < frames+int(longest*bank.Rate) {
			return nil, nil, false
		}
		end, fade = frames, 0
	}
	out := make([][]float32, 2)
	for s, side := range t.sides() {
		out[s] = make([]float32, end)
		for i, x := range side[:end] {
			out[s][i] = x * scale
		}
		for i := range fade {
			out[s][end-1-i] *= risen(i, fade)
		}
	}
	if t.mono {
		out[1] = out[0]
	}
	return out[0], out[1], true
}

// end is behind the last sample louder than a bound.
func (t *take) end(bound float32) int {
	end := 0
	for _, side := range t.sides() {
		for i := len(side) - 1; i >= end; i-- {
			if side[i] > bound || -side[i] > bound {
				end = i + 1
				break
			}
		}
	}
	return end
}
