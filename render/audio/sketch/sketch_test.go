package sketch

import (
	"math"
	"sync"
	"testing"

	"plinth/render/audio/bank"
)

// every goes through notes of all instruments: all keys of the kits, and of each program some keys on all layers.
func every(do func(n bank.Note)) {
	for program := range uint8(128) {
		p := bank.Patch{Program: program}
		if nearest(p) != p {
			continue
		}
		for _, key := range []uint8{0, 30, 60, 88, 127} {
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
	every(func(n bank.Note) {
		s := compute(n)
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
				s := compute(bank.Note{Patch: row.patch, Key: key, Layer: layer})
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
		if len(b.Sound(n).Left) == 0 {
			t.Errorf("%v is silent", n)
		}
	}
}

// The bank may be asked by several at once, gives all the same, and forgets what is too much.
func TestBankIsShared(t *testing.T) {
	b := New()
	b.most = 300_000
	notes := []bank.Note{{Key: 90}, {Key: 96}, {Patch: bank.Patch{Drums: true}, Key: 38},
		{Patch: bank.Patch{Drums: true}, Key: 49}, {Patch: bank.Patch{Program: 33}, Key: 50}}
	var all sync.WaitGroup
	for i := range 20 {
		all.Go(func() {
			n := notes[i%len(notes)]
			got, want := b.Sound(n), compute(n)
			for j := range want.Left {
				if got.Left[j] != want.Left[j] || got.Right[j] != want.Right[j] {
					t.Errorf("%v differs in sample %d", n, j)
					return
				}
			}
		})
	}
	all.Wait()
	held := 0
	for _, k := range b.notes {
		held += len(k.sound.Left) + len(k.sound.Right)
	}
	if held != b.held || len(b.done) != len(b.notes) || held > b.most && len(b.notes) > 1 {
		t.Errorf("%d samples are held in %d notes, counted %d in %d", held, len(b.notes), b.held, len(b.done))
	}
}
