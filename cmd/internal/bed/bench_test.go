package bed

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"gitlab.com/gomidi/midi/v2"
	"gitlab.com/gomidi/midi/v2/smf"

	"plinth/groove"
	render "plinth/render/midi"
	"plinth/songspec"
)

// ballad is a song of n bars, a hundred at a time: verses, choruses and a tighter
// bridge, written out in a chart of its own for each, with what happens in songs.
func ballad(n int) string {
	var b strings.Builder
	b.WriteString("title = \"Lanterns, again and again\"\nkey = \"Eb\"\ntempo = 72\n\n")
	for _, s := range []struct {
		name, feel, energy string
		lines              int
		events             string
	}{
		{"verse", "ballad-eighths", "2", 4, "push \"4: 4&\" {}\n  accent \"7: 1 3\" {}\n  fill \"20: 4\" {}"},
		{"chorus", "ballad-eighths", "[3, 5]", 4,
			"push \"4: 4&\" {}\n  push \"24: 2&\" {}\n  accent \"7: 1 3\" { weight = 2 }\n  hold \"40: 1\" { " +
				"beats = 1 }"},
		{"bridge", "tight-sixteenths", "3", 2,
			"accent \"1-4: 2 4\" {}\n  stop \"10: 3\" {}\n  accent \"19: 1 2&\" { alone = true }"},
	} {
		fmt.Fprintf(&b, "section %q {\n  feel   = %q\n  energy = %s\n  chords = <<-EOT\n", s.name, s.feel, s.energy)
		for range s.lines {
			b.WriteString("    | Eb | Bb/D | Cm7 | Ab / Abm6 / |\n    | Eb/Bb | Bb7sus4 Bb7 | Eb | % | Ab | Bb7 |\n")
		}
		fmt.Fprintf(&b, "  EOT\n  %s\n}\n\n", s.events)
	}
	b.WriteString("form {\n")
	for range n / 100 {
		b.WriteString("  play \"verse\" {}\n  play \"chorus\" {}\n  play \"bridge\" {}\n")
	}
	b.WriteString("}\n")
	return b.String()
}

// sizes are the songs that are measured: the long example and three lengths of a ballad.
var sizes = []struct {
	name string
	bars int // 0: the example
}{{"example", 0}, {"bars=100", 100}, {"bars=1000", 1000}, {"bars=10000", 10000}}

// request is a song of that many bars. The example's own groove file is read with it.
func request(b *testing.B, bars int) Request {
	if bars > 0 {
		src := []byte(ballad(bars))
		return Request{Song: "long.song.hcl", ReadFile: func(string) ([]byte, error) { return src, nil }}
	}
	song := filepath.Join("..", "..", "..", "examples", "high-water.song.hcl")
	held := map[string][]byte{}
	req := Request{Song: song, ReadFile: func(path string) ([]byte, error) {
		if data, ok := held[path]; ok {
			return data, nil
		}
		data, err := os.ReadFile(path)
		held[path] = data
		return data, err
	}}
	built(b, req)
	return req
}

func built(b *testing.B, req Request) *Result {
	res, err := Build(req)
	if err != nil || res.Failed() {
		b.Fatal(err, res.Diags)
	}
	return res
}

// eachSong runs a benchmark on every size, after building the song once, and reports the
// time a bar too.
func eachSong(b *testing.B, run func(b *testing.B, req Request, res *Result)) {
	for _, s := range sizes {
		b.Run(s.name, func(b *testing.B) {
			req := request(b, s.bars)
			res := built(b, req)
			b.ReportAllocs()
			run(b, req, res)
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(res.Timeline.SongBars()), "ns/bar")
		})
	}
}

func BenchmarkParse(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, res *Result) {
		for b.Loop() {
			if _, diags := songspec.Parse(req.Song, res.Sources[req.Song]); diags.HasErrors() {
				b.Fatal(diags)
			}
		}
	})
}

func BenchmarkResolve(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, res *Result) {
		for b.Loop() {
			b.StopTimer() // a File is resolved once
			file, _ := songspec.Parse(req.Song, res.Sources[req.Song])
			b.StartTimer()
			if _, diags := file.Resolve(songspec.Env{}); diags.HasErrors() {
				b.Fatal(diags)
			}
		}
	})
}

func BenchmarkPerform(b *testing.B) {
	eachSong(b, func(b *testing.B, _ Request, res *Result) {
		for b.Loop() {
			groove.Perform(res.Timeline, res.Feels)
		}
	})
}

func BenchmarkWrite(b *testing.B) {
	eachSong(b, func(b *testing.B, _ Request, res *Result) {
		for b.Loop() {
			if _, err := render.Write(res.Timeline, res.Performance); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkWhole(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, _ *Result) {
		for b.Loop() {
			built(b, req)
		}
	})
}

// noteEvent is an event of a track before it is written.
type noteEvent struct {
	delta         uint32
	on            bool
	channel       uint8
	key, velocity uint8
	other         []byte // when it is no note
}

// floor is the work that no program of this kind can avoid: HCL's parser reads the same
// texts, and gomidi writes the same events.
func floor(b *testing.B, res *Result) func() {
	song, err := smf.ReadFrom(bytes.NewReader(res.Outputs[0].Data))
	if err != nil {
		b.Fatal(err)
	}
	tracks := make([][]noteEvent, len(song.Tracks))
	for i, t := range song.Tracks {
		for _, ev := range t {
			e := noteEvent{delta: ev.Delta}
			switch m := midi.Message(ev.Message); {
			case m.GetNoteOn(&e.channel, &e.key, &e.velocity):
				e.on = true
			case m.GetNoteOff(&e.channel, &e.key, &e.velocity):
			default:
				e.other = ev.Message
			}
			tracks[i] = append(tracks[i], e)
		}
	}
	return func() {
		for name, text := range res.Sources {
			if _, diags := hclsyntax.ParseConfig(text, name, hcl.InitialPos); diags.HasErrors() {
				b.Fatal(diags)
			}
		}
		out := smf.NewSMF1()
		out.TimeFormat, out.NoRunningStatus = song.TimeFormat, true
		for _, events := range tracks {
			// Appended rather than with Track.Add, which is slower by far.
			track := make(smf.Track, 0, len(events))
			for _, e := range events {
				m := smf.Message(e.other)
				switch {
				case e.other != nil:
				case e.on:
					m = smf.Message(midi.NoteOn(e.channel, e.key, e.velocity))
				default:
					m = smf.Message(midi.NoteOffVelocity(e.channel, e.key, e.velocity))
				}
				track = append(track, smf.Event{Delta: e.delta, Message: m})
			}
			if err := out.Add(track); err != nil {
				b.Fatal(err)
			}
		}
		var buf bytes.Buffer
		if _, err := out.WriteTo(&buf); err != nil || buf.Len() != len(res.Outputs[0].Data) {
			b.Fatalf("%d bytes instead of %d, %v", buf.Len(), len(res.Outputs[0].Data), err)
		}
	}
}

func BenchmarkFloor(b *testing.B) {
	eachSong(b, func(b *testing.B, _ Request, res *Result) {
		do := floor(b, res)
		for b.Loop() {
			do()
		}
	})
}

// stopwatch times the same work again and again: its sum, and its fastest run, which other
// programs on the machine disturb least.
type stopwatch struct {
	all, best time.Duration
	n         int
}

func (s *stopwatch) time(do func()) {
	start := time.Now()
	do()
	d := time.Since(start)
	if s.n == 0 || d < s.best {
		s.best = d
	}
	s.all += d
	s.n++
}

// over reports how many times as long as another it took.
func (s *stopwatch) over(b *testing.B, other *stopwatch, scale float64, unit string) {
	b.ReportMetric(float64(s.all)/float64(s.n)/(float64(other.all)/float64(other.n))*scale, unit)
	b.ReportMetric(float64(s.best)/float64(other.best)*scale, "best-"+unit)
}

// BenchmarkRatio is the time of a build over that of the floor. Both are timed in turn, so
// that other work of the machine slows both.
func BenchmarkRatio(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, res *Result) {
		var whole, least stopwatch
		do := floor(b, res)
		for b.Loop() {
			whole.time(func() { built(b, req) })
			least.time(do)
		}
		whole.over(b, &least, 1, "whole/floor")
	})
}

// BenchmarkLength is the time a bar takes in a song of 10,000 bars over that in a song of
// 100: no part may grow faster than the song.
func BenchmarkLength(b *testing.B) {
	short, long := request(b, 100), request(b, 10000)
	var hundred, all stopwatch
	for b.Loop() {
		for range 10 {
			hundred.time(func() { built(b, short) })
		}
		all.time(func() { built(b, long) })
	}
	all.over(b, &hundred, 1.0/100, "bar/bar")
}
