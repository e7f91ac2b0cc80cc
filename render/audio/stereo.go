package audio

import "plinth/render/audio/bank"

// Stereo is a sound: bank.Rate frames a second, full scale 1.
type Stereo struct{ Left, Right []float32 }

func newStereo(frames int) *Stereo {
	return &Stereo{make([]float32, frames), make([]float32, frames)}
}

// clear makes it silent.
func (s *Stereo) clear() {
	clear(s.Left)
	clear(s.Right)
}

// peak is the largest sample of both channels.
func (s *Stereo) peak() float32 { return max(bank.Peak(s.Left), bank.Peak(s.Right)) }

// add adds a sound of the same length, or a longer one as far as this one goes.
func (s *Stereo) add(other *Stereo, gain float32) {
	for i := range s.Left {
		s.Left[i] += gain * other.Left[i]
		s.Right[i] += gain * other.Right[i]
	}
}

func (s *Stereo) scale(gain float32) {
	for i := range s.Left {
		s.Left[i] *= gain
		s.Right[i] *= gain
	}
}
