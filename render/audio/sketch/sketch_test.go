package sketch

import (
	"math"
	"os"
	"slices"
	"sync"
	"testing"

	"plinth/render/audio/bank"
)

// whole is for as long as a note may be held.
const whole = bank.MaxFrames

// long reports whether tests may take their time.
func long() bool { return os.Getenv("PLINTH_LONG") != "" }

// renders is for tests that render many notes one after another. With -short they are skipped, as by the race detector,
// which finds nothing in them.
func renders(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("with -short only few notes are rendered")
	}
	t.Parallel()
}

// every goes through notes of all instruments: all keys of the kits, and of each program some keys on all layers.
func every(do func(n bank.Note)) {
	for program := range uint8(128) {
		p := bank.Patch{Program: program}
		if nearest(p) != p {
			continue
		}
		keys := []uint8{30, 88, 127, 60, 0}
		if !long() {
			keys = keys[2:]
		}
		for _, key := range keys {
			for layer := range uint8(1 + len(layers(p, int(key)))) {
				do(bank.Note{Patch: p, Key: key, Layer: layer})
			}
		}
	}
	for _, kit := range []uint8{standardKit, brushKit} {
		p := bank.Patch{Program: kit, Drums: true}
		for key := uint8(35); key <= 81; key++ {
			for layer := range uint8(1 + len(layers(p, int(key)))) {
				do(bank.Note{Patch: p, Key: key, Layer: layer})
			}
		}
	}
}

// Every note begins and ends without a click, has no offset, is never over full scale, and can be let go of.
func TestNotesAreClean(t *testing.T) {
	renders(t)
	every(func(n bank.Note) {
		s := compute(n, bank.MaxFrames)
		size := len(s.Left)
		if size == 0 || size != len(s.Right) || size > bank.MaxSeconds*bank.Rate || s.Release <= 0 {
			t.Fatalf("%v: %d and %d samples, release %g", n, len(s.Left), len(s.Right), s.Release)
		}
		top := peak(s)
		if top > 1 || top < 0.01 {
			t.Errorf("%v: the peak is %.3f", n, top)
		}
		for _, side := range [][]float32{s.Left, s.Right} {
			sum := 0.0
			for _, x := range side {
				if math.IsNaN(float64(x)) {
					t.Fatalf("%v: a sample is no number", n)
				}
				sum += float64(x)
			}
			if offset := math.Abs(sum) / float64(len(side)); offset > top/100 {
				t.Errorf("%v: an offset of %.5f", n, offset)
			}
			if first := math.Abs(float64(side[0])); first > top/20 {
				t.Errorf("%v: begins at %.4f of a peak of %.4f", n, first, top)
			}
			if last := math.Abs(float64(side[len(side)-1])); last > top/10000 {
				t.Errorf("%v: ends at %.6f of a peak of %.4f", n, last, top)
			}
		}
	})
}

// The layers of a key are as loud as each other, and the harder one is brighter.
func TestLayers(t *testing.T) {
	renders(t)
	p38 := bank.Patch{Drums: true}
	for _, row := range []struct {
		patch bank.Patch
		keys  []uint8
	}{{bank.Patch{}, []uint8{36, 48, 60, 72, 84}}, {bank.Patch{Program: 4}, []uint8{48, 60, 72}},
		{bank.Patch{Program: 32}, []uint8{28, 40}}, {bank.Patch{Program: 33}, []uint8{28, 40}},
		{p38, []uint8{36, 38, 42, 43, 51}}} {
		for _, key := range row.keys {
			var before bank.Sound
			for layer := range uint8(1 + len(layers(row.patch, int(key)))) {
				s := compute(bank.Note{Patch: row.patch, Key: key, Layer: layer}, bank.MaxFrames)
				if layer > 0 {
					if d := rms(s, 0, 0.3) - rms(before, 0, 0.3); math.Abs(d) > 0.5 {
						t.Errorf("%v key %d: layer %d is %.1f dB louder than the one below", row.patch, key, layer, d)
					}
					if a, b := centroid(before), centroid(s); b < a*1.03 {
						t.Errorf("%v key %d: layer %d lies at %.0f Hz, the softer one at %.0f",
							row.patch, key, layer, b, a)
					}
				}
				before = s
			}
		}
	}
}

// A velocity selects a layer, the harder the higher; a note that is asked for by itself is the same note; and every
// patch there is gives a sound.
func TestNote(t *testing.T) {
	b := New()
	for _, drums := range []bool{false, true} {
		for program := range uint8(128) {
			p := bank.Patch{Program: program, Drums: drums}
			for _, key := range []uint8{0, 38, 60, 127} {
				before := bank.Note{}
				for velocity := uint8(1); velocity <= 127; velocity++ {
					n := b.Note(p, key, velocity)
					if velocity > 1 && n != before && n.Layer != before.Layer+1 {
						t.Fatalf("%v key %d: velocity %d selects %v after %v", p, key, velocity, n, before)
					}
					if again := b.Note(n.Patch, n.Key, velocity); again != n {
						t.Fatalf("%v asked for by itself is %v", n, again)
					}
					before = n
				}
			}
		}
	}
	held, kit := bank.Patch{Program: 71}, bank.Patch{Program: 25, Drums: true}
	for _, n := range []bank.Note{{Patch: held, Key: 60}, {Patch: kit, Key: 5}, {Key: 255, Layer: 9}} {
		if len(b.Sound(n, whole).Left) == 0 {
			t.Errorf("%v is silent", n)
		}
	}
}

// A note of which less is wanted is the beginning of the whole one, to the last bit; what is over before is whole.
func TestBeginning(t *testing.T) {
	renders(t)
	cut := 0
	for i, row := range sampled {
		if i%4 > 0 && !long() {
			continue
		}
		n := bank.Note{Patch: bank.Patch{Program: row.program, Drums: row.drums}, Key: row.key}
		all := compute(n, bank.MaxFrames)
		for _, seconds := range [...]int{1, 3, 6} {
			frames := bank.Frames(seconds*bank.Rate, all.Release)
			got := compute(n, frames)
			size := len(got.Left)
			if size < min(frames, len(all.Left)) || size > len(all.Left) ||
				!slices.Equal(got.Left, all.Left[:size]) || !slices.Equal(got.Right, all.Right[:size]) {
				t.Errorf("%v for %d s: %d frames of %d", n, seconds, size, len(all.Left))
			}
			if size < len(all.Left) {
				cut++
			}
		}
	}
	if cut < 5 {
		t.Errorf("%d were cut off", cut)
	}
}

// The bank may be asked by several at once, and gives all the same.
func TestBankIsShared(t *testing.T) {
	b := New()
	notes := []bank.Note{{Key: 90}, {Key: 96}, {Patch: bank.Patch{Drums: true}, Key: 38},
		{Patch: bank.Patch{Drums: true}, Key: 49}, {Patch: bank.Patch{Program: 33}, Key: 50}}
	var all sync.WaitGroup
	for i := range 20 {
		all.Go(func() {
			n := notes[i%len(notes)]
			got, want := b.Sound(n, whole), compute(n, bank.MaxFrames)
			if !slices.Equal(got.Left, want.Left) || !slices.Equal(got.Right, want.Right) {
				t.Errorf("%v differs", n)
			}
		})
	}
	all.Wait()
}
