package soundfont

import (
	"bytes"
	"errors"
	"math"
	"os"
	"reflect"
	"slices"
	"sync"
	"testing"

	"plinth/render/audio/bank"
	"plinth/render/audio/soundfont/fonttest"
)

var (
	piano = bank.Patch{}
	kit   = bank.Patch{Drums: true}
)

// forever is for as long as a note may be held.
const forever = bank.MaxFrames

func open(t testing.TB, data []byte) *Bank {
	t.Helper()
	b, err := Open(data, "small.sf2")
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// rms is the mean level of a part of a sound.
func rms(x []float32) float64 {
	sum := 0.0
	for _, v := range x {
		sum += float64(v) * float64(v)
	}
	return math.Sqrt(sum / float64(max(len(x), 1)))
}

// begun is the frame from which on a note has its full level: the shortest delay and attack are 1 ms each
// (SoundFont 2.04, 8.1.2, generators 33 and 34), and the library counts in blocks of 64 frames.
const begun = 192

// near compares levels within 0.2 dB.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if db := 20 * math.Log10(got/want); !(math.Abs(db) < 0.2) {
		t.Errorf("%s: %g, expected %g (%.2f dB)", what, got, want, db)
	}
}

// A looped tone at its own key: a sine of half of full scale, in the middle, which falls by the decay of 2 s
// (100 dB: SoundFont 2.04, 8.1.2, generator 36; the library counts 80 dB) and is cut where it is silent.
func TestHeldTone(t *testing.T) {
	b := open(t, fonttest.Small().Bytes())
	s := b.Sound(b.Note(piano, 69, 90), forever)
	if len(s.Left) != len(s.Right) || len(s.Left) < bank.Rate || len(s.Left) > 2*bank.Rate {
		t.Fatalf("%d frames", len(s.Left))
	}
	for side, x := range map[string][]float32{"left": s.Left, "right": s.Right} {
		near(t, side, rms(x[begun:begun+100])/math.Exp(-9.226*float64(begun+50)/bank.Rate/2), 0.25)
		crossings := 0
		for i := 1; i < 4800; i++ {
			if (x[i] >= 0) != (x[i-1] >= 0) {
				crossings++
			}
		}
		if crossings < 94 || crossings > 97 { // 480 Hz: ten periods in 1000 points at 48 kHz
			t.Errorf("%s: %d crossings in a tenth of a second", side, crossings)
		}
		near(t, side+" after half a second", rms(x[24000+begun:24500+begun])/rms(x[begun:begun+500]),
			math.Exp(-9.226*0.5/2))
	}
	if want := 0.5 / 9.226; math.Abs(s.Release-want) > 1e-6 || s.Class != 0 {
		t.Errorf("release %g, expected %g; class %d", s.Release, want, s.Class)
	}
	octave := b.Sound(b.Note(piano, 81, 90), forever)
	if reflect.DeepEqual(octave.Left[:1000], s.Left[:1000]) {
		t.Error("another key sounds alike")
	}
}

// A layer is a set of zones; it sounds with the gain of velocity 127 whatever velocities it is for.
func TestLayers(t *testing.T) {
	b := open(t, fonttest.Small().Bytes())
	soft, hard := b.Note(kit, 38, 1), b.Note(kit, 38, 64)
	if soft.Layer != 0 || hard.Layer != 1 || b.Note(kit, 38, 63) != soft || b.Note(kit, 38, 127) != hard {
		t.Errorf("layers %v and %v", soft, hard)
	}
	near(t, "soft", rms(b.Sound(soft, forever).Left[begun:begun+1800]), 0.25)
	near(t, "hard", rms(b.Sound(hard, forever).Left[begun:4000]), 0.125)
	for _, n := range []bank.Note{b.Note(kit, 40, 90), {Patch: kit, Key: 38, Layer: 9}, {Patch: kit, Key: 200}} {
		if s := b.Sound(n, forever); len(s.Left) != 0 || s.Class != 0 {
			t.Errorf("%v sounds", n)
		}
	}
	if r := b.Sound(hard, forever).Release; math.Abs(r-0.01/9.226) > 1e-9 {
		t.Errorf("a release without a value is %g: at least 10 ms are counted", r)
	}
}

// A note whose release is as slow as its decay falls as it would if it were held.
func TestCymbal(t *testing.T) {
	b := open(t, fonttest.Small().Bytes())
	s := b.Sound(b.Note(kit, 49, 100), forever)
	if seconds := float64(len(s.Left)) / bank.Rate; s.Release < bank.MaxSeconds || seconds < 0.7 || seconds > 1.1 {
		t.Errorf("%g s, release %g", seconds, s.Release)
	}
}

// Both stereo halves of a note with an exclusive class sound (SoundFont 2.04, 8.1.2, generator 57), and the
// release is that of preset and instrument together: 1200 - 1200 timecents, one second.
func TestClassKeepsBothHalves(t *testing.T) {
	b := open(t, fonttest.Small().Bytes())
	closed, open := b.Sound(b.Note(kit, 42, 100), forever), b.Sound(b.Note(kit, 46, 100), forever)
	if closed.Class != 1 || open.Class != 1 {
		t.Errorf("classes %d and %d", closed.Class, open.Class)
	}
	near(t, "left", rms(closed.Left[begun:begun+1000]), 0.5/math.Sqrt2)
	near(t, "right", rms(closed.Right[begun:begun+1000]), 0.25/math.Sqrt2)
	if want := 1 / 9.226; math.Abs(closed.Release-want) > 1e-6 {
		t.Errorf("release %g, expected %g", closed.Release, want)
	}
}

// What a bank lacks is played by the standard kit or the first program; other instruments are no drums.
func TestFallback(t *testing.T) {
	f := fonttest.Small()
	b := open(t, f.Bytes())
	for _, row := range []struct{ ask, want bank.Patch }{
		{bank.Patch{Program: 40, Drums: true}, kit},
		{bank.Patch{Program: 16, Drums: true}, bank.Patch{Program: 16, Drums: true}},
		{bank.Patch{Program: 33}, piano},
	} {
		n := b.Note(row.ask, 38, 100)
		asked := n
		asked.Patch = row.ask
		if n.Patch != row.want || !reflect.DeepEqual(b.Sound(asked, forever), b.Sound(n, forever)) {
			t.Errorf("%v is played by %v", row.ask, n.Patch)
		}
	}
	f.Presets = f.Presets[:1]
	b = open(t, f.Bytes())
	if b.Has(kit) || !b.Has(bank.Patch{Program: 5}) || len(b.Sound(b.Note(kit, 38, 100), forever).Left) != 0 {
		t.Error("a bank without kits has drums")
	}
}

func TestName(t *testing.T) {
	f := fonttest.Small()
	a, b := open(t, f.Bytes()), open(t, f.Bytes())
	f.Samples[0].Points[3]++
	c := open(t, f.Bytes())
	if a.ID() != b.ID() || a.ID() == c.ID() || a.Name() != "small.sf2" {
		t.Errorf("%s: %s, %s, %s", a.Name(), a.ID(), b.ID(), c.ID())
	}
}

// Notes asked for at once by many are the same as one after another.
func TestAtOnce(t *testing.T) {
	data := fonttest.Small().Bytes()
	one, many := open(t, data), open(t, data)
	var wait sync.WaitGroup
	for i := range 64 {
		wait.Go(func() {
			n := many.Note(piano, uint8(60+i%8), 100)
			if !reflect.DeepEqual(many.Sound(n, forever), one.Sound(n, forever)) {
				t.Errorf("%v differs", n)
			}
		})
	}
	wait.Wait()
}

// A note that is held for a time is the beginning of the whole one, to the last bit. What is over before is whole, and
// where zones have different releases, which only all of them decide, nothing is cut off.
func TestBeginning(t *testing.T) {
	f := fonttest.Small()
	f.Presets[0].Zones[0].Gens[1] = fonttest.Gen{Oper: fonttest.Decay, Amount: 2400} // four seconds
	b, long := open(t, f.Bytes()), open(t, f.Bytes())
	n := b.Note(piano, 69, 90)
	all := long.Sound(n, forever)
	got := b.Sound(n, bank.Rate)
	if len(got.Left) != bank.Frames(bank.Rate, got.Release) || len(got.Left) >= len(all.Left) {
		t.Errorf("%d frames of %d", len(got.Left), len(all.Left))
	}
	if !slices.Equal(got.Left, all.Left[:len(got.Left)]) || !slices.Equal(got.Right, all.Right[:len(got.Right)]) ||
		got.Release != all.Release {
		t.Error("it is another note")
	}
	if longer := b.Sound(n, 3*bank.Rate); !slices.Equal(longer.Left, all.Left) {
		t.Errorf("%d frames of %d", len(longer.Left), len(all.Left))
	}
	zones := b.layersOf(piano, 69).sets[0]
	other := b.layersOf(kit, 49).sets[0]
	if got := framesOf(append(slices.Clone(zones), other...), bank.Rate); got != bank.MaxFrames {
		t.Errorf("%d frames of zones that differ", got)
	}
}

func TestBroken(t *testing.T) {
	good := fonttest.Small().Bytes()
	change := func(f func(f *fonttest.Font)) []byte {
		font := fonttest.Small()
		f(font)
		return font.Bytes()
	}
	for name, row := range map[string]struct {
		data []byte
		want error
	}{
		"empty":          {nil, errNot},
		"a song":         {[]byte("title = \"Lanterns\"\n"), errNot},
		"a sound file":   {[]byte("RIFF\x24\x00\x00\x00WAVEfmt "), errNot},
		"cut short":      {good[:len(good)-100], errShort},
		"huge claim":     {bytes.Replace(good, []byte("smpl"), []byte("smpl\xff\xff\xff\x7f"), 1), errShort},
		"version 3":      {change(func(f *fonttest.Font) { f.Major = 3 }), errCompressed},
		"compressed":     {change(func(f *fonttest.Font) { f.Samples[0].Type |= compressed }), errCompressed},
		"no list":        {bytes.Replace(good, []byte("phdr"), []byte("phdx"), 1), errTables},
		"no samples":     {bytes.Replace(good, []byte("smpl"), []byte("smpx"), 1), errEmpty},
		"missing sample": {change(func(f *fonttest.Font) { f.Presets[0].Zones[0].Sample = 9 }), errTables},
		"no zones":       {change(func(f *fonttest.Font) { f.Presets[0].Zones = nil }), errTables},
	} {
		if _, err := Open(row.data, name); !errors.Is(err, row.want) {
			t.Errorf("%s: %v, expected %v", name, err, row.want)
		}
	}
	// What cannot be played is silent, and the rest sounds.
	for name, f := range map[string]func(f *fonttest.Font){
		"no rate": func(f *fonttest.Font) { f.Samples[0].Rate = 0 },
		"rom":     func(f *fonttest.Font) { f.Samples[0].Type = 0x8001 },
		"outside": func(f *fonttest.Font) { f.Presets[0].Zones[0].Gens[3] = fonttest.Gen{Oper: 4, Amount: 30000} },
		"runs away": func(f *fonttest.Font) {
			f.Presets[0].Zones[0].Gens = []fonttest.Gen{{Oper: 51, Amount: 120},
				{Oper: fonttest.SampleModes, Amount: 1}}
		},
	} {
		b := open(t, change(f))
		if s := b.Sound(b.Note(piano, 127, 100), forever); len(s.Left) != 0 {
			t.Errorf("%s: it sounds", name)
		}
		if len(b.Sound(b.Note(kit, 38, 100), forever).Left) == 0 {
			t.Errorf("%s: nothing sounds", name)
		}
	}
}

// No bytes make it panic, and no sound is longer than it may be or no number.
func FuzzOpen(f *testing.F) {
	f.Add(fonttest.Small().Bytes())
	f.Add([]byte("RIFF\x00\x00\x00\x00sfbk"))
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := Open(data, "fuzz")
		if err != nil {
			return
		}
		for _, p := range []bank.Patch{piano, kit} {
			for _, key := range []uint8{0, 42, 69} {
				s := b.Sound(b.Note(p, key, 100), forever)
				if len(s.Left) > bank.MaxFrames || len(s.Left) != len(s.Right) || !(s.Release >= 0) {
					t.Fatalf("%d and %d frames, release %g", len(s.Left), len(s.Right), s.Release)
				}
				if level := rms(s.Left) + rms(s.Right); !(level < 1e5) {
					t.Fatalf("level %g", level)
				}
			}
		}
	})
}

// timGM is Debian's timgm6mb-soundfont.
const timGM = "/usr/share/sounds/sf2/TimGM6mb.sf2"

// The notes of a real bank sound, are over within their time, and have the names of General MIDI.
func TestRealBank(t *testing.T) {
	data, err := os.ReadFile(timGM)
	if err != nil {
		t.Skipf("no %s: the package timgm6mb-soundfont has it", timGM)
	}
	b := open(t, data)
	for _, row := range []struct {
		patch bank.Patch
		key   uint8
		class bool
	}{{piano, 60, false}, {bank.Patch{Program: 33}, 36, false}, {kit, 38, false}, {kit, 42, true}, {kit, 46, true},
		{bank.Patch{Program: 40, Drums: true}, 38, false}, {bank.Patch{Program: 53}, 60, false}} {
		n := b.Note(row.patch, row.key, 100)
		s := b.Sound(n, forever)
		if n.Patch != row.patch || len(s.Left) < 2400 || rms(s.Left) < 1e-3 || (s.Class != 0) != row.class {
			t.Errorf("%v: %d frames, level %g, class %d", n, len(s.Left), rms(s.Left), s.Class)
		}
	}
}
