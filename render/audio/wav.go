package audio

import (
	"bufio"
	"encoding/binary"
	"io"
	"math"

	"plinth/render/audio/bank"
)

const (
	sampleBits  = 24
	channels    = 2
	sampleBytes = sampleBits / 8
	// fullScale is the largest sample.
	fullScale = 1<<(sampleBits-1) - 1
)

// sample is a sample as it stands in a file.
func sample(v float32) int32 {
	return int32(math.RoundToEven(max(-1, min(1, float64(v))) * fullScale))
}

// WAV writes a sound as a WAVE file: PCM, 24 bits. Its format is the plain one, WAVE_FORMAT_PCM. Microsoft's
// "Multiple channel audio data and WAVE files" wants WAVE_FORMAT_EXTENSIBLE over 16 bits; for two channels that says
// nothing more, and some readers (Python's wave before 3.12) refuse it, while none refuses this.
func WAV(w io.Writer, s *Stereo) error {
	size := uint32(len(s.Left) * channels * sampleBytes)
	const frameBytes = channels * sampleBytes
	head := []byte("RIFF")
	head = binary.LittleEndian.AppendUint32(head, 36+size)
	head = append(head, "WAVEfmt "...)
	head = binary.LittleEndian.AppendUint32(head, 16)
	head = binary.LittleEndian.AppendUint16(head, 1) // WAVE_FORMAT_PCM
	head = binary.LittleEndian.AppendUint16(head, channels)
	head = binary.LittleEndian.AppendUint32(head, bank.Rate)
	head = binary.LittleEndian.AppendUint32(head, bank.Rate*frameBytes)
	head = binary.LittleEndian.AppendUint16(head, frameBytes)
	head = binary.LittleEndian.AppendUint16(head, sampleBits)
	head = append(head, "data"...)
	head = binary.LittleEndian.AppendUint32(head, size)
	out := bufio.NewWriterSize(w, 1<<16)
	if _, err := out.Write(head); err != nil {
		return err
	}
	for i := range s.Left {
		l, r := sample(s.Left[i]), sample(s.Right[i])
		frame := [frameBytes]byte{byte(l), byte(l >> 8), byte(l >> 16), byte(r), byte(r >> 8), byte(r >> 16)}
		if _, err := out.Write(frame[:]); err != nil {
			return err
		}
	}
	return out.Flush()
}
