package serve

import (
	"encoding/base64"
	"encoding/binary"
	"math"
	"testing"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio"
	"plinth/render/heard"
)

// The page sounds as the sound file does, hall and all: what a browser's Web Audio makes of a song is what Mix
// makes of it, apart from how loud it is as a whole. Notes have 16 bits on the wire, and levels three decimals.
func TestPageSoundsLikeTheFile(t *testing.T) {
	const seconds = 27
	s := playing(t)
	w := bare(t, chromium(t), s)
	tl, set, err := songfiletest.ExampleText("page.song.hcl", pushed)
	if err != nil {
		t.Fatal(err)
	}
	perf := groove.Perform(tl, set)
	mixed, err := audio.Mix(heard.Of(tl, perf), plucks{}, audio.Options{})
	if err != nil {
		t.Fatal(err)
	}
	s.Good(tl, perf, "song", nil)
	call[int](w, "next", "song")
	w.file("swap.js")
	for channel, want := range [][]float32{mixed.Mix.Left, mixed.Mix.Right} {
		raw, err := base64.StdEncoding.DecodeString(call[string](w, "file", seconds, channel))
		if err != nil {
			t.Fatal(err)
		}
		got := make([]float64, len(raw)/4)
		for i := range got {
			got[i] = float64(math.Float32frombits(binary.LittleEndian.Uint32(raw[4*i:])))
		}
		if len(want) < 20*48000 || len(got) < len(want) {
			t.Fatalf("%d frames for %d", len(got), len(want))
		}
		// The file is as loud as its peak allows: the gain between both is that of the least difference.
		dot, energy, own := 0.0, 0.0, 0.0
		for i, x := range want {
			dot += float64(x) * got[i]
			energy += float64(x) * float64(x)
			own += got[i] * got[i]
		}
		gain := dot / energy
		left := 0.0
		for i, x := range want {
			d := got[i] - gain*float64(x)
			left += d * d
		}
		db := 10 * math.Log10(left/own)
		t.Logf("channel %d: gain %.3f, %.1f dB of difference", channel, gain, db)
		if db > -60 || gain < 0.05 {
			t.Errorf("channel %d: the page differs from the file by %.1f dB", channel, db)
		}
	}
}
