package audio

import (
	"math"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"plinth/render/audio/bank"
	"plinth/render/heard"
	"plinth/songspec/timeline"
)

// testBank has a steady sound of 1 for every note, as long as seconds says. Keys from 40 to 49 on drums are a class.
type testBank struct{ seconds, release float64 }

func (testBank) Name() string { return "test" }
func (testBank) ID() string   { return "test" }
func (testBank) Note(p bank.Patch, key, velocity uint8) bank.Note {
	return bank.Note{Patch: p, Key: key}
}
func (b testBank) Sound(n bank.Note, _ int) bank.Sound {
	s := newStereo(int(b.seconds * bank.Rate))
	for i := range s.Left {
		s.Left[i], s.Right[i] = 1, 0.5
	}
	out := bank.Sound{Left: s.Left, Right: s.Right, Release: b.release}
	if n.Drums && n.Key/10 == 4 {
		out.Class = 1
	}
	return out
}

const (
	drums = heard.Who(timeline.Drums)
	bass  = heard.Who(timeline.Bass)
	piano = heard.Who(timeline.Piano)
)

// second is a second in microseconds.
const second = 1_000_000

// song has two bars of two seconds, the first in front, and parts with a program each.
func song(parts ...heard.Part) *heard.Song {
	for i := range parts {
		parts[i].Sounds = []heard.Sound{{}}
	}
	return &heard.Song{End: 4 * second, Lead: 1, Parts: parts,
		Bars: []heard.Bar{{At: 0, End: 2 * second, Pass: -1}, {At: 2 * second, End: 4 * second}}}
}

// band is a song for all, with a click.
func band() *heard.Song {
	note := func(at int64, key uint8, bar int32) heard.Note {
		return heard.Note{At: at, Length: second / 2, Key: key, Velocity: 90, Bar: bar}
	}
	return song(
		heard.Part{Who: drums, Name: "Drums", Drums: true, Notes: []heard.Note{note(2*second, 42, 1),
			note(3*second, 46, 1)}},
		heard.Part{Who: bass, Name: "Bass", Notes: []heard.Note{note(2*second, 30, 1), note(2_700_000, 31, 1)}},
		heard.Part{Who: piano, Name: "Piano", Notes: []heard.Note{note(2*second, 60, 1), note(2*second, 64, 1)}},
		heard.Part{Who: heard.Click, Name: "Click", Notes: []heard.Note{note(0, 76, 0), note(second, 77, 0),
			note(2*second, 76, 1), note(3*second, 77, 1)}},
		heard.Part{Who: heard.Guide, Name: "Ida", Notes: []heard.Note{note(2*second, 67, 1)}},
	)
}

func mix(t testing.TB, s *heard.Song, b bank.Bank, o Options) *Mixed {
	t.Helper()
	m, err := Mix(s, b, o)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// The stems add up to the mix, and its peak is -1 dBFS to the last bit of 24.
func TestStemsAddUp(t *testing.T) {
	m := mix(t, band(), testBank{0.3, 0.05}, Options{})
	sum := newStereo(len(m.Mix.Left))
	var names []string
	for i, s := range m.Stems {
		stem := m.Stem(i)
		if len(stem.Left) != len(sum.Left) {
			t.Fatalf("%s has %d frames of %d", s.Name, len(stem.Left), len(sum.Left))
		}
		sum.add(stem, 1)
		names = append(names, s.Name)
	}
	if want := []string{"Drums", "Bass", "Piano", "Click", "Ida"}; !reflect.DeepEqual(names, want) {
		t.Errorf("stems %q", names)
	}
	for i := range sum.Left {
		left, right := float64(sum.Left[i]-m.Mix.Left[i]), float64(sum.Right[i]-m.Mix.Right[i])
		if math.Abs(left) > 1e-6 || math.Abs(right) > 1e-6 {
			t.Fatalf("frame %d: the stems are %g and %g, the mix is %g and %g", i, sum.Left[i], sum.Right[i],
				m.Mix.Left[i], m.Mix.Right[i])
		}
	}
	if got, want := sample(m.Mix.peak()), int32(math.Round(math.Pow(10, -1.0/20)*8388607)); got != want {
		t.Errorf("the peak is %d, expected %d", got, want)
	}
}

// A mix is the same whatever the number of cores.
func TestCores(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one := mix(t, band(), testBank{2, 0.05}, Options{})
	runtime.GOMAXPROCS(5)
	if five := mix(t, band(), testBank{2, 0.05}, Options{}); !reflect.DeepEqual(one.Mix, five.Mix) {
		t.Error("five cores mix otherwise than one")
	}
}

// dry is the sound of one part without the reverb.
func dry(p heard.Part, b bank.Bank) *Stereo {
	p.Sounds = []heard.Sound{{}}
	s := plan(&p, p.Notes, b)
	s.render(b, nil)
	out := newStereo(s.end)
	s.dry(out)
	return out
}

// A note has the gain of its touch, (v/127)² (General MIDI's practice), and at its end falls by e in each time
// constant of its release, until it is 80 dB down.
func TestNote(t *testing.T) {
	const release = 0.02
	s := dry(heard.Part{Who: piano, Notes: []heard.Note{{At: second, Length: second / 2, Velocity: 64}}},
		testBank{2, release})
	gain := levels[piano].Gain * math.Pow(64.0/127, 2)
	for _, row := range []struct {
		seconds, want float64
	}{{0.9999, 0}, {1.0001, 1}, {1.4999, 1}, {1.52, math.Exp(-1)}, {1.54, math.Exp(-2)}, {1.6, math.Exp(-5)}} {
		i := int(math.Round(row.seconds * bank.Rate))
		if l, r := float64(s.Left[i]), float64(s.Right[i]); math.Abs(l-gain*row.want) > 1e-6 || math.Abs(r-l/2) > 1e-6 {
			t.Errorf("at %g s: %g and %g, expected %g", row.seconds, l, r, gain*row.want)
		}
	}
	if want := 1.5 + release*math.Log(1e4); math.Abs(float64(len(s.Left))/bank.Rate-want) > 1e-3 {
		t.Errorf("over after %d frames, expected %g s", len(s.Left), want)
	}
}

// A note of a class ends the one before within 5 ms, be its key another; notes that begin together stay, and other
// keys are left alone.
func TestChoke(t *testing.T) {
	at := func(micros int64, key uint8) heard.Note {
		return heard.Note{At: micros, Length: second, Key: key, Velocity: 127}
	}
	level := func(notes ...heard.Note) func(micros int64) float64 {
		s := dry(heard.Part{Who: drums, Drums: true, Notes: notes}, testBank{1, 0.001})
		return func(micros int64) float64 { return float64(s.Left[frameAt(micros)]) / levels[drums].Gain }
	}
	near := func(got, want float64) bool { return math.Abs(got-want) < 1e-5 }
	choked := level(at(0, 46), at(0, 42), at(500_000, 42))
	for micros, want := range map[int64]float64{499_900: 2, 502_500: 2, 505_000: 1, 600_000: 1} {
		if got := choked(micros); !near(got, want) {
			t.Errorf("at %d µs %g sounds, expected %g", micros, got, want)
		}
	}
	if got := level(at(0, 38), at(500_000, 42))(600_000); !near(got, 2) {
		t.Errorf("a key without a class is choked: %g", got)
	}
}

// The click is heard in front of bar 1 alone, but all through the song where it is to be heard alone.
func TestChoice(t *testing.T) {
	if testing.Short() {
		t.Skip("several songs are mixed")
	}
	for name, row := range map[string]struct {
		choice Choice
		want   map[string]int // notes by stem
	}{
		"all":  {Choice{}, map[string]int{"Drums": 2, "Bass": 2, "Piano": 2, "Click": 2, "Ida": 1}},
		"solo": {Choice{Solo: []string{"Piano", "click"}}, map[string]int{"Piano": 2, "Click": 4}},
		"mute": {Choice{Mute: []string{"guide", "click", "pitch"}},
			map[string]int{"Drums": 2, "Bass": 2, "Piano": 2}},
		"by name":     {Choice{Solo: []string{"ida"}}, map[string]int{"Ida": 1}},
		"solo, muted": {Choice{Solo: []string{"bass", "drums"}, Mute: []string{"drums"}}, map[string]int{"Bass": 2}},
	} {
		if err := row.choice.Check(band()); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		got := map[string]int{}
		for _, s := range mix(t, band(), testBank{0.1, 0.01}, Options{Choice: row.choice}).Stems {
			got[s.Name] = len(s.voices)
		}
		if !reflect.DeepEqual(got, row.want) {
			t.Errorf("%s: %v, expected %v", name, got, row.want)
		}
	}
	for _, row := range []struct {
		choice Choice
		want   string
	}{
		{Choice{Mute: []string{"paino"}}, `nobody is called "paino"; is it "piano"? there are drums, bass, piano, ` +
			`click, guide, pitch and Ida`},
		{Choice{Solo: []string{"strings"}}, `nobody is called "strings"; there are drums, bass, piano, click, guide, ` +
			`pitch and Ida`},
		{Choice{Solo: []string{"pitch"}}, "the song gives no starting pitch: a singer who enters in the first two " +
			"bars is given one in the count-in"},
	} {
		if err := row.choice.Check(band()); err == nil || err.Error() != row.want {
			t.Errorf("%v: %v", row.choice, err)
		}
	}
	mute := song(heard.Part{Who: piano, Name: "Piano"})
	if err := (Choice{Solo: []string{"click"}}).Check(mute); err == nil || !strings.Contains(err.Error(), "count_in") {
		t.Errorf("no click: %v", err)
	}
}

// A file is as long as it sounds: tails ring out, and silence behind the last bar line is cut, but none before.
func TestLength(t *testing.T) {
	if testing.Short() {
		t.Skip("several songs are mixed")
	}
	note := heard.Note{At: 2 * second, Length: second, Key: 60, Velocity: 100}
	for name, row := range map[string]struct {
		who      heard.Who
		at       int64
		from, to float64 // seconds of the file
	}{
		"dry, over before the end": {heard.Click, 2 * second, 4, 4},
		"dry, rings over":          {heard.Click, 3_500_000, 4.5, 4.7},
		"the hall rings on":        {piano, 3_500_000, 5.2, 6.6},
	} {
		n := note
		n.At = row.at
		m := mix(t, song(heard.Part{Who: row.who, Notes: []heard.Note{n}}), testBank{12, 0.01}, Options{})
		if got := float64(len(m.Mix.Left)) / bank.Rate; got < row.from || got > row.to {
			t.Errorf("%s: %g s, expected %g to %g", name, got, row.from, row.to)
		}
	}
	silent := mix(t, song(heard.Part{Who: piano}), testBank{1, 0.1}, Options{})
	if len(silent.Mix.Left) != 4*bank.Rate || silent.Mix.peak() != 0 {
		t.Errorf("nobody plays: %d frames, peak %g", len(silent.Mix.Left), silent.Mix.peak())
	}
	long := song()
	long.End = maxMinutes*60*second + second
	if _, err := Mix(long, testBank{}, Options{}); err == nil || !strings.Contains(err.Error(), "30 minutes") {
		t.Errorf("a long song: %v", err)
	}
}

// What is told of the progress rises to 1, also where notes ring on for long behind the song.
func TestProgress(t *testing.T) {
	for _, seconds := range []float64{1, bank.MaxSeconds} {
		last := 0.0
		mix(t, band(), testBank{seconds, 30}, Options{Progress: func(share float64) {
			if share <= last || share > 1 {
				t.Errorf("%g after %g", share, last)
			}
			last = share
		}})
		if last != 1 {
			t.Errorf("it ends at %g", last)
		}
	}
}

// The formulas of the W3C's Web Audio API for a StereoPannerNode with two channels, at hand.
func TestPan(t *testing.T) {
	for _, row := range []struct{ pan, left, right float64 }{
		{0, 0.5, 0.25}, {1, 0, 0.75}, {-1, 0.75, 0}, {0.5, 0.5 * math.Sqrt2 / 2, 0.25 + 0.5*math.Sqrt2/2},
		{-0.5, 0.5 + 0.25*math.Sqrt2/2, 0.25 * math.Sqrt2 / 2},
	} {
		s := &Stereo{[]float32{0.5}, []float32{0.25}}
		Level{Pan: row.pan}.pan(s)
		if math.Abs(float64(s.Left[0])-row.left) > 1e-6 || math.Abs(float64(s.Right[0])-row.right) > 1e-6 {
			t.Errorf("%g: %g and %g, expected %g and %g", row.pan, s.Left[0], s.Right[0], row.left, row.right)
		}
	}
}
