package audio

import (
	"io"

	"github.com/mewkiz/flac"
	"github.com/mewkiz/flac/frame"
	"github.com/mewkiz/flac/meta"

	"plinth/render/audio/bank"
)

// flacBlock is how many frames of sound a frame of the file holds: the usual number at this rate.
const flacBlock = 4096

// FLAC writes a sound as a FLAC file: 24 bits, with the sound's check sum in front (RFC 9639, 8.2), which is known
// last.
func FLAC(w io.WriteSeeker, s *Stereo) error {
	// Hidden, so that the encoder does not close it.
	enc, err := flac.NewEncoder(struct{ io.WriteSeeker }{w}, &meta.StreamInfo{BlockSizeMin: flacBlock,
		BlockSizeMax: flacBlock, SampleRate: bank.Rate, NChannels: channels, BitsPerSample: sampleBits,
		NSamples: uint64(len(s.Left))})
	if err != nil {
		return err
	}
	enc.EnablePredictionAnalysis(false) // it takes four times as long as predict, for larger files
	for from := 0; from < len(s.Left); from += flacBlock {
		n := min(flacBlock, len(s.Left)-from)
		f := &frame.Frame{Header: frame.Header{HasFixedBlockSize: true, BlockSize: uint16(n), SampleRate: bank.Rate,
			Channels: frame.ChannelsMidSide, BitsPerSample: sampleBits}}
		left, right, mid, side := make([]int32, n), make([]int32, n), make([]int32, n), make([]int32, n)
		for i := range n {
			left[i], right[i] = sample(s.Left[from+i]), sample(s.Right[from+i])
			mid[i], side[i] = (left[i]+right[i])>>1, left[i]-right[i]
		}
		f.Subframes = []*frame.Subframe{
			{SubHeader: predict(mid), NSamples: n, Samples: left},
			{SubHeader: predict(side), NSamples: n, Samples: right},
		}
		if err := enc.WriteFrame(f); err != nil {
			return err
		}
	}
	if err := enc.Close(); err != nil {
		return err
	}
	// The library counts the last block as one of the shortest; RFC 9639, 8.2, leaves it out.
	if _, err := w.Seek(8, io.SeekStart); err != nil {
		return err
	}
	_, err = w.Write([]byte{flacBlock >> 8, flacBlock & 0xff, flacBlock >> 8, flacBlock & 0xff})
	return err
}

const (
	maxOrder  = 4 // of FLAC's fixed predictors
	partOrder = 4 // a block has 16 parts, each with a parameter of its own
	maxRice1  = 14
)

// predict says how the samples of a channel are best written: which of the fixed predictors leaves least, and for
// each part of the block the Rice parameter that suits what is left (RFC 9639, 9.2.5 and 9.2.7).
func predict(samples []int32) frame.SubHeader {
	var left [maxOrder + 1][]int32
	var sums [maxOrder + 1]int64
	order := 0
	left[0] = samples
	for o := range left {
		if o > 0 {
			left[o] = make([]int32, len(samples))
			for i := o; i < len(samples); i++ {
				left[o][i] = left[o-1][i] - left[o-1][i-1]
			}
		}
		for _, r := range left[o][min(o, len(samples)):] {
			sums[o] += int64(max(r, -r))
		}
		if sums[o] < sums[order] && len(samples) > o {
			order = o
		}
	}
	rice := &frame.RiceSubframe{}
	if len(samples) == flacBlock {
		rice.PartOrder = partOrder
	}
	method := frame.ResidualCodingMethodRice1
	size := len(samples) >> rice.PartOrder
	for from := 0; from < len(samples); from += size {
		part := left[order][max(from, order) : from+size]
		param := riceParam(part)
		rice.Partitions = append(rice.Partitions, frame.RicePartition{Param: param})
		if param > maxRice1 {
			method = frame.ResidualCodingMethodRice2
		}
	}
	return frame.SubHeader{Pred: frame.PredFixed, Order: order, ResidualCodingMethod: method, RiceSubframe: rice}
}

// riceParam is the number of bits that are written as they are, so that the rest, which is counted out, is short.
func riceParam(left []int32) (param uint) {
	sum := uint64(0)
	for _, r := range left {
		sum += uint64(uint32(r)<<1 ^ uint32(r>>31)) // small whatever the sign
	}
	// A bit more costs len(left), and halves what is counted out.
	for n := uint64(len(left)); sum>>(param+1) > n; param++ {
	}
	return param
}
