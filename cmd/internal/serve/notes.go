package serve

import (
	"context"
	"encoding/binary"
	"math"
	"strconv"

	"plinth/render/audio"
	"plinth/render/audio/bank"
)

// note is a note of the bank as a page gets it, to be held for so many seconds; nil where nobody waits for it any
// more. As many are rendered at one time as there are cores: the first that are asked for come first.
func (s *Server) note(ctx context.Context, n bank.Note, hold int) []byte {
	select {
	case s.cores <- struct{}{}:
	case <-ctx.Done():
		return nil
	}
	defer func() { <-s.cores }()
	held := hold * bank.Rate
	sound := s.Sounds.Bank.Sound(n, held)
	return pcm(sound, bank.Frames(held, sound.Release), hold)
}

// holdOf is for how long a note is asked for, as it stands behind the note's name: hold=SECONDS, one of bank.Holds.
func holdOf(query string) (seconds int, ok bool) {
	for _, h := range bank.Holds {
		if query == "hold="+strconv.Itoa(h) {
			return h, true
		}
	}
	return 0, false
}

// hall is the impulse of the reverb on the wire.
func hall() []byte {
	impulse := audio.Impulse()
	return pcm(bank.Sound{Left: impulse.Left, Right: impulse.Right}, len(impulse.Left), 0)
}

// header is how many bytes stand in front of the samples.
const header = 24

// pcm is a sound on the wire, so many frames of it at most: how many frames there are, the scale, the time constant
// of its release in seconds, its class, for how many seconds it may be held (for ever where it is whole), and how
// many channels it has, then the channels in 16 bits. Where nothing is left in 16 bits, it ends; where both sides
// are alike, there is one.
func pcm(s bank.Sound, most, hold int) []byte {
	held := float32(hold)
	if len(s.Left) > most {
		s.Left, s.Right = s.Left[:most], s.Right[:most]
	} else if len(s.Left) < most || most == bank.MaxFrames {
		held = float32(math.Inf(1))
	}
	peak := max(bank.Peak(s.Left), bank.Peak(s.Right))
	scale := float32(0)
	if peak > 0 {
		scale = math.MaxInt16 / peak
	}
	frames := len(s.Left)
	for frames > 0 && sample(s.Left[frames-1]*scale) == 0 && sample(s.Right[frames-1]*scale) == 0 {
		frames--
	}
	sides := [][]float32{s.Left[:frames], s.Right[:frames]}
	if alike(sides[0], sides[1], peak) {
		sides = sides[:1]
	}
	b := make([]byte, header, header+2*frames*len(sides))
	for i, v := range [...]uint32{uint32(frames), math.Float32bits(peak), math.Float32bits(float32(s.Release)),
		uint32(s.Class), math.Float32bits(held), uint32(len(sides))} {
		binary.LittleEndian.PutUint32(b[4*i:], v)
	}
	for _, side := range sides {
		from := len(b)
		b = b[:from+2*frames]
		to := b[from:]
		for i, v := range side {
			binary.LittleEndian.PutUint16(to[2*i:], uint16(sample(v*scale)))
		}
	}
	return b
}

// sample is the nearest of 16 bits.
func sample(x float32) int16 { return int16(int32(x+32768.5) - 32768) }

// alike reports whether two sides differ by less than 16 bits can show: the sine and the cosine of the middle of a
// stereo picture, rounded, are not quite the same.
func alike(left, right []float32, peak float32) bool {
	little := peak / (4 * math.MaxInt16)
	for i, l := range left {
		if d := l - right[i]; d > little || d < -little {
			return false
		}
	}
	return true
}
