package guide

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// artSong is a song of lieder-dev as a timeline of one pass, and its guide.
type artSong struct {
	name  string
	tl    *timeline.Timeline
	guide []byte
}

// artSongs are the songs of lieder-dev (OpenScore Lieder, CC0), with the chords of their analyses
// (When in Rome, CC BY-SA 4.0).
func artSongs(t testing.TB) (out []artSong) {
	t.Helper()
	data := os.Getenv("PLINTH_DATA")
	if data == "" {
		t.Skip("PLINTH_DATA is not set")
	}
	dirs, err := filepath.Glob(filepath.Join(data, "lieder-dev", "*"))
	if err != nil || len(dirs) != 38 {
		t.Fatalf("%d songs in lieder-dev, %v", len(dirs), err)
	}
	for _, dir := range dirs {
		text, err := os.ReadFile(filepath.Join(dir, "truth.json"))
		if err != nil {
			t.Fatal(err)
		}
		src, err := os.ReadFile(filepath.Join(dir, "guide.mid"))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, artSong{filepath.Base(dir), artTimeline(t, text), src})
	}
	return out
}

// artTimeline is an analysis as a timeline. Its augmented sixth chords are left out, like what has
// no symbol.
func artTimeline(t testing.TB, text []byte) *timeline.Timeline {
	t.Helper()
	var s struct {
		Meters []struct {
			Bar   int
			Meter string
		}
		Bars []struct {
			Q    float64
			Tick int64
		}
		Chords []struct {
			Bar                 int
			Pos, Dur            float64
			Root, Quality, Bass string
			Seventh             any
		}
	}
	if err := json.Unmarshal(text, &s); err != nil {
		t.Fatal(err)
	}
	p := timeline.Pass{Section: "song", FirstBar: 1, EnergyFrom: 2, EnergyTo: 2}
	m := meter.Common
	for i, b := range s.Bars {
		for len(s.Meters) > 0 && s.Meters[0].Bar <= i+1 {
			var err error
			if m, err = meter.Parse(s.Meters[0].Meter); err != nil {
				t.Fatal(err)
			}
			s.Meters = s.Meters[1:]
		}
		length := int64(b.Q * meter.TicksPerQuarter)
		p.Bars = append(p.Bars, timeline.Bar{Start: 2 * b.Tick, Length: length, Meter: m}) // 480 a quarter
		p.Length = 2*b.Tick + length
	}
	p.Meter = p.Bars[0].Meter
	suffix := map[string]map[any]string{"maj": {nil: "", 10.0: "7", 11.0: "maj7"}, "min": {nil: "m", 10.0: "m7"},
		"dim": {nil: "dim", 9.0: "dim7", 10.0: "m7b5"}, "aug": {nil: "aug", 10.0: "7#5", 11.0: "maj7#5"}}
	for _, c := range s.Chords {
		word, ok := suffix[c.Quality][c.Seventh]
		if !ok || c.Bar < 1 || c.Bar > len(p.Bars) {
			continue
		}
		if c.Bass != c.Root {
			word += "/" + c.Bass
		}
		chord, err := harmony.ParseChord(c.Root + word)
		if err != nil {
			t.Fatal(err)
		}
		start := p.Bars[c.Bar-1].Start + int64(c.Pos*meter.TicksPerQuarter)
		p.Chords = append(p.Chords, timeline.Span{Start: start,
			End: min(p.Length, start+int64(c.Dur*meter.TicksPerQuarter)), Chord: chord})
	}
	return &timeline.Timeline{Passes: []timeline.Pass{p}, End: p.Length, Tempos: []timeline.Tempo{{Micros: 600_000}},
		Vocals: []timeline.Vocal{{Path: "guide.mid", From: 1}}}
}
