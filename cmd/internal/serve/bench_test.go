package serve

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"plinth/cmd/internal/bed"
	"plinth/groove"
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
	cache := &groove.Cache{}
	s := serving(b, func(o *Options) { o.Sounds = page.Sounds{Bank: sketch.New(), Sketch: true} })
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
		fresh := sketch.New()
		s.Sounds.Bank, s.notes = fresh, newNoteCache(fresh)
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
		if status, _, sound := tab.get("/note/" + fresh.ID() + "/" + name); status != 200 || len(sound) < 1000 {
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
