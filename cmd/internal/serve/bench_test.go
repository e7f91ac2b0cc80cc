package serve

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/soundbank"
	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio/bank"
	"plinth/render/audio/sketch"
	"plinth/render/page"
)

// stages are where the time of a save goes.
type stages struct{ build, wire, note time.Duration }

// BenchmarkSaveToNote is from a save that was found to be whole to the sound of the first note of the pass that
// it changed, as a page has it: built, told, its pass fetched, and a note of it that was never rendered. One
// chord of the example changes each time. Reported are the milliseconds up to the state on the wire and to the
// note, and both as multiples of the build in the same run.
func BenchmarkSaveToNote(b *testing.B) {
	song, err := filepath.Abs(filepath.Join("..", "..", "..", "examples", "lanterns.song.hcl"))
	if err != nil {
		b.Fatal(err)
	}
	src, err := os.ReadFile(song)
	if err != nil {
		b.Fatal(err)
	}
	texts := []string{string(src), strings.Replace(string(src), "| Cm7 ", "| C7 ", 1)}
	b.Run("sketch", func(b *testing.B) { saveToNote(b, song, texts, sketch.New()) })
	b.Run("found", func(b *testing.B) { // the system's SoundFont
		if found, err := soundbank.Find(""); err == nil && !found.Sketch {
			saveToNote(b, song, texts, found.Bank)
		} else {
			b.Skip("there is no SoundFont here")
		}
	})
}

func saveToNote(b *testing.B, song string, texts []string, sounds bank.Bank) {
	cache := &groove.Cache{}
	s := serving(b, func(o *Options) { o.Sounds = page.Sounds{Bank: sounds} })
	tab := open(b, s)
	build := func(text string) *bed.Result {
		res, err := bed.Build(bed.Request{Song: song, Cache: cache, ReadFile: func(p string) ([]byte, error) {
			if p == song {
				return []byte(text), nil
			}
			return os.ReadFile(p)
		}})
		if err != nil || res.Failed() {
			b.Fatal(err, res.Diags)
		}
		return res
	}
	stream := tab.listen("")
	res := build(texts[1])
	s.Good(res.Timeline, res.Performance, "first", nil)
	stream.until("first")
	var sum stages
	b.ResetTimer()
	for i := range b.N {
		b.StopTimer()
		if _, ok := sounds.(*sketch.Bank); ok {
			s.Sounds.Bank = sketch.New() // which keeps nothing yet
		}
		b.StartTimer()
		start := time.Now()
		res := build(texts[i%2])
		sum.build += time.Since(start)
		built := time.Now()
		s.Good(res.Timeline, res.Performance, "saved", nil)
		state := stream.until("saved")
		sum.wire += time.Since(built)
		if len(state.Changed) == 0 || len(state.Changed) == len(state.Chunks) {
			b.Fatal(state.Changed)
		}
		_, _, body := tab.get("/pass/" + state.Chunks[state.Changed[0]].Hash)
		var chunk struct{ Notes []string }
		if err := json.Unmarshal([]byte(body), &chunk); err != nil {
			b.Fatal(err)
		}
		name := chunk.Notes[len(chunk.Notes)/2]
		if status, _, sound := tab.get("/note/" + sounds.ID() + "/" + name + "?hold=2"); status != 200 || len(sound) < 1000 {
			b.Fatal(status, len(sound))
		}
		sum.note += time.Since(start)
	}
	n := float64(b.N)
	b.ReportMetric(sum.wire.Seconds()*1000/n, "wire-ms")
	b.ReportMetric(sum.note.Seconds()*1000/n, "note-ms")
	b.ReportMetric(float64(sum.wire)/float64(sum.build), "wire/build")
	b.ReportMetric(float64(sum.note)/float64(sum.build), "note/build")
}

// BenchmarkAllNotes is all the notes of the example as a browser asks for them, six at a time, rendered and
// sent, with the system's SoundFont.
func BenchmarkAllNotes(b *testing.B) {
	found, err := soundbank.Find("")
	if err != nil || found.Sketch {
		b.Skip("there is no SoundFont here")
	}
	_, tl, set := songfiletest.Example(b, filepath.Join("..", "..", "..", "examples", "lanterns.song.hcl"))
	s := serving(b, func(o *Options) { o.Sounds = page.Sounds{Bank: found.Bank} })
	s.Good(tl, groove.Perform(tl, set), "", nil)
	tab := open(b, s)
	bytes := 0
	for range b.N {
		names := make(chan string, len(s.story.notes))
		for n := range s.story.notes {
			names <- n
		}
		close(names)
		var all sync.WaitGroup
		var sent atomic.Int64
		for range 6 {
			all.Go(func() {
				for n := range names {
					_, _, body := tab.get("/note/" + found.ID() + "/" + n + "?hold=12")
					sent.Add(int64(len(body)))
				}
			})
		}
		all.Wait()
		bytes = int(sent.Load())
	}
	b.ReportMetric(float64(len(s.story.notes)), "notes")
	b.ReportMetric(float64(bytes)/1e6, "MB")
}
