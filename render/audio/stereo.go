package audio

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
func (s *Stereo) peak() (peak float32) {
	for _, side := range [][]float32{s.Left, s.Right} {
		for _, v := range side {
			if v > peak {
				peak = v
			} else if -v > peak {
				peak = -v
			}
		}
	}
	return peak
}

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
