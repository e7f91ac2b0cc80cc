package audio

// reverbBits is the size of the transforms: the hall is a third of one, so that two thirds of each are used.
const reverbBits = 18

// reverb answers every sound with the hall of Impulse, each channel with its own side, as the W3C's
// ConvolverNode does with two channels and normalize off.
type reverb struct {
	fft         *fft
	left, right []complex128 // the spectra of the impulse
}

func newReverb() *reverb {
	r := &reverb{fft: newFFT(reverbBits)}
	impulse := Impulse()
	for _, row := range []struct {
		of []float32
		to *[]complex128
	}{{impulse.Left, &r.left}, {impulse.Right, &r.right}} {
		x := make([]complex128, r.fft.n)
		for i, v := range row.of {
			x[i] = complex(float64(v)/float64(2*r.fft.n), 0) // back multiplies by n, answer by 2
		}
		r.fft.forward(x)
		*row.to = x
	}
	return r
}

// hop is how many frames a transform gives.
func (r *reverb) hop() int { return r.fft.n - hallFrames + 1 }

// blocks is how many transforms a sound takes.
func (r *reverb) blocks(frames int) int { return (frames + r.hop() - 1) / r.hop() }

// hall is the hall's answer to a sound, added to a sound of the same length. Each transform stands for itself
// (overlap-save), so any number of them may be at work.
func (r *reverb) hall(from, to *Stereo, progress *progress) {
	parallel(r.blocks(len(to.Left)), func() func(int) {
		x := make([]complex128, r.fft.n)
		return func(i int) {
			r.block(from, to, i*r.hop(), x)
			progress.step()
		}
	})
}

// block answers the frames from start on. Both channels go through one transform, one as its real and one as its
// imaginary part.
func (r *reverb) block(from, to *Stereo, start int, x []complex128) {
	before := hallFrames - 1
	heard := false
	for i := range x {
		x[i] = 0
		if j := start - before + i; j >= 0 && j < len(from.Left) {
			x[i] = complex(float64(from.Left[j]), float64(from.Right[j]))
			heard = heard || x[i] != 0
		}
	}
	if !heard {
		return
	}
	r.fft.forward(x)
	for i := range x {
		j := mirror(i)
		if j < i {
			continue
		}
		x[i], x[j] = r.answer(x[i], conj(x[j]), i), r.answer(x[j], conj(x[i]), j)
	}
	r.fft.back(x)
	for i := before; i < len(x) && start+i-before < len(to.Left); i++ {
		to.Left[start+i-before] += float32(real(x[i]))
		to.Right[start+i-before] += float32(imag(x[i]))
	}
}

// answer is the frequency at i of the answer, where the sound has z there and the conjugate of m at its mirror.
func (r *reverb) answer(z, m complex128, i int) complex128 {
	left, right := z+m, z-m // the right one times i, as it is wanted
	return left*r.left[i] + right*r.right[i]
}
