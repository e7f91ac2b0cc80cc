package audio

import (
	"bytes"
	"encoding/binary"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/mewkiz/flac"
)

// sounds are what a file may have to hold: silence, full scale, noise, and lengths that fill no block.
func sounds() map[string]*Stereo {
	noise, swept, edge := newStereo(3*flacBlock), newStereo(2*flacBlock+1), newStereo(flacBlock+3)
	row := newNoise(7)
	for i := range noise.Left {
		noise.Left[i], noise.Right[i] = float32(row.next()), float32(row.next()/100)
	}
	for i := range swept.Left {
		x := math.Sin(float64(i*i) / 1e5)
		swept.Left[i], swept.Right[i] = float32(x*0.5), float32(x*0.4)
	}
	for i := range edge.Left {
		edge.Left[i], edge.Right[i] = float32(1-2*(i%2)), float32(2*(i%2)-1)
	}
	return map[string]*Stereo{"noise": noise, "swept": swept, "edge": edge, "silence": newStereo(flacBlock + 10),
		"one": newStereo(1), "three": {[]float32{0, 1, -1}, []float32{2, -2, 0.5}}}
}

// A WAVE file has the header of Microsoft's and IBM's "Multimedia Programming Interface and Data
// Specifications 1.0" for PCM, and 24 bits a sample, and the FLAC file, read by the library's decoder, has the same
// samples.
func TestFiles(t *testing.T) {
	for name, s := range sounds() {
		var wav bytes.Buffer
		if err := WAV(&wav, s); err != nil {
			t.Fatal(err)
		}
		b := wav.Bytes()
		var head struct {
			RIFF          [4]byte
			Size          uint32
			WAVE, Fmt     [4]byte
			FmtSize       uint32
			Format, Sides uint16
			Rate, Bytes   uint32
			Frame, Bits   uint16
			Data          [4]byte
			DataSize      uint32
		}
		if err := binary.Read(bytes.NewReader(b), binary.LittleEndian, &head); err != nil {
			t.Fatal(err)
		}
		data := b[44:]
		if string(head.RIFF[:])+string(head.WAVE[:])+string(head.Fmt[:])+string(head.Data[:]) != "RIFFWAVEfmt data" ||
			int(head.Size) != len(b)-8 || head.FmtSize != 16 || head.Format != 1 || head.Sides != 2 ||
			head.Rate != 48000 ||
			head.Bytes != 288000 || head.Frame != 6 || head.Bits != 24 || int(head.DataSize) != len(data) ||
			len(data) != 6*len(s.Left) {
			t.Errorf("%s: %+v", name, head)
		}
		path := filepath.Join(t.TempDir(), "a.flac")
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := FLAC(f, s); err != nil {
			t.Fatal(name, err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
		stream, err := flac.Open(path)
		if err != nil {
			t.Fatal(name, err)
		}
		if i := stream.Info; i.SampleRate != 48000 || i.NChannels != 2 || i.BitsPerSample != 24 ||
			i.NSamples != uint64(len(s.Left)) || i.MD5sum == [16]byte{} {
			t.Errorf("%s: %+v", name, i)
		}
		var samples []byte
		for {
			frame, err := stream.ParseNext()
			if err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(name, err)
			}
			for i := range frame.Subframes[0].Samples {
				for _, side := range frame.Subframes {
					v := side.Samples[i]
					samples = append(samples, byte(v), byte(v>>8), byte(v>>16))
				}
			}
		}
		stream.Close()
		if !bytes.Equal(samples, data) {
			t.Errorf("%s: the FLAC file has other samples than the WAVE file", name)
		}
	}
	// A sample is a signed number of 24 bits, the lowest byte first; what is too loud stays at the border.
	var wav bytes.Buffer
	if err := WAV(&wav, &Stereo{[]float32{1, -2}, []float32{-1.0 / 8388607, 0.5}}); err != nil {
		t.Fatal(err)
	}
	want := []byte{0xff, 0xff, 0x7f, 0xff, 0xff, 0xff, 0x01, 0x00, 0x80, 0x00, 0x00, 0x40}
	if got := wav.Bytes()[44:]; !bytes.Equal(got, want) {
		t.Errorf("samples % x, expected % x", got, want)
	}
}
