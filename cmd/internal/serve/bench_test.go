package serve

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
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

// chunkNotes are the notes of a chunk as the page reads them.
type chunkNotes struct {
	Notes []string
	Parts [][]int64 // six numbers a note: start, length, key, velocity, index in Notes, bar
}

// asked are the addresses of a chunk's notes in the bars before one, each for as long as it is held: as the page asks.
func (c *chunkNotes) asked(id string, before int64) []string {
	held := map[string]int64{}
	first := map[string]int64{}
	for _, flat := range c.Parts {
		for ; len(flat) > 0; flat = flat[6:] {
			name := c.Notes[flat[4]]
			held[name] = max(held[name], flat[1])
			if at, ok := first[name]; flat[5] < before && (!ok || flat[0] < at) {
				first[name] = flat[0]
			}
		}
	}
	var out []string
	for _, name := range slices.SortedFunc(maps.Keys(first), func(a, b string) int {
		return cmp.Or(cmp.Compare(first[a], first[b]), strings.Compare(a, b))
	}) {
		i := slices.IndexFunc(bank.Holds[:], func(h int) bool { return int64(h)*1e6 >= held[name] })
		if i < 0 {
			i = len(bank.Holds) - 1
		}
		out = append(out, fmt.Sprintf("/note/%s/%s?hold=%d", id, name, bank.Holds[i]))
	}
	return out
}

// fetchAll gets notes as a page does, so many at a time, and says how many bytes they were.
func (b *browser) fetchAll(paths []string, atOnce int) int {
	b.t.Helper()
	next := make(chan string, len(paths))
	for _, p := range paths {
		next <- p
	}
	close(next)
	var all sync.WaitGroup
	var sent atomic.Int64
	for range atOnce {
		all.Go(func() {
			for p := range next {
				status, _, body := b.get(p)
				if status != 200 || len(body) < header {
					b.t.Errorf("%s: %d", p, status)
				}
				sent.Add(int64(len(body)))
			}
		})
	}
	all.Wait()
	return int(sent.Load())
}

// atOnce is how many notes a page fetches at one time, ahead how many bars it has the notes of before it plays.
const (
	atOnce = 4
	ahead  = 2
)

// banks are those that are measured, each with nothing rendered yet: the sketch, and a SoundFont of 6 MB where it is.
func banks(b *testing.B) map[string]func() bank.Bank {
	out := map[string]func() bank.Bank{"sketch": func() bank.Bank { return sketch.New() }}
	const path = "/usr/share/sounds/sf2/TimGM6mb.sf2"
	if _, err := os.Stat(path); err != nil {
		b.Logf("no %s: the sketch alone", path)
		return out
	}
	out["TimGM6mb"] = func() bank.Bank {
		found, err := soundbank.Find(path)
		if err != nil {
			b.Fatal(err)
		}
		return found.Bank
	}
	return out
}

// BenchmarkSaveToNote is from a save that was found to be whole to the sound of what it has changed, as a page has
// it: built, told, the changed pass fetched, its first note, and all notes of its first two bars, after which the page
// plays it. One chord of the example changes each time, and the bank has rendered nothing. Reported are the
// milliseconds up to each, and the build's share of all.
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
	for name, fresh := range banks(b) {
		b.Run(name, func(b *testing.B) { saveToNote(b, song, texts, fresh) })
	}
}

func saveToNote(b *testing.B, song string, texts []string, fresh func() bank.Bank) {
	cache := &groove.Cache{}
	s := serving(b, func(o *Options) { o.Sounds = page.Sounds{Bank: fresh()} })
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
	var built, wire, note, ready time.Duration
	b.ResetTimer()
	for i := range b.N {
		b.StopTimer()
		s.Sounds.Bank = fresh()
		runtime.GC()
		b.StartTimer()
		start := time.Now()
		res := build(texts[i%2])
		built += time.Since(start)
		s.Good(res.Timeline, res.Performance, "saved", nil)
		state := stream.until("saved")
		wire += time.Since(start)
		if len(state.Changed) == 0 || len(state.Changed) == len(state.Chunks) {
			b.Fatal(state.Changed)
		}
		_, _, body := tab.get("/pass/" + state.Chunks[state.Changed[0]].Hash)
		var chunk chunkNotes
		if err := json.Unmarshal([]byte(body), &chunk); err != nil {
			b.Fatal(err)
		}
		notes := chunk.asked(s.Sounds.Bank.ID(), ahead)
		tab.fetchAll(notes[:1], 1)
		note += time.Since(start)
		tab.fetchAll(notes[1:], atOnce)
		ready += time.Since(start)
	}
	report := func(d time.Duration, unit string) { b.ReportMetric(d.Seconds()*1000/float64(b.N), unit) }
	report(built, "build-ms")
	report(wire, "told-ms")
	report(note, "note-ms")
	report(ready, "bars-ms")
	b.ReportMetric(float64(built)/float64(note), "build/note")
	b.ReportMetric(float64(built)/float64(ready), "build/bars")
}

// BenchmarkAllNotes is all the notes of the example as a browser asks for them, rendered and sent.
func BenchmarkAllNotes(b *testing.B) {
	_, tl, set := songfiletest.Example(b, filepath.Join("..", "..", "..", "examples", "lanterns.song.hcl"))
	perf := groove.Perform(tl, set)
	for name, fresh := range banks(b) {
		b.Run(name, func(b *testing.B) {
			s := serving(b, func(o *Options) { o.Sounds = page.Sounds{Bank: fresh()} })
			s.Good(tl, perf, "", nil)
			tab := open(b, s)
			var song chunkNotes // all chunks as one
			for _, k := range s.story.chunks {
				var c chunkNotes
				if err := json.Unmarshal(k.value, &c); err != nil {
					b.Fatal(err)
				}
				song.add(&c)
			}
			paths := song.asked(s.Sounds.Bank.ID(), math.MaxInt64)
			bytes := 0
			for b.Loop() {
				b.StopTimer()
				s.Sounds.Bank = fresh()
				runtime.GC()
				b.StartTimer()
				bytes = tab.fetchAll(paths, atOnce)
			}
			b.ReportMetric(float64(len(paths)), "notes")
			b.ReportMetric(float64(bytes)/1e6, "MB")
		})
	}
}

// add puts another chunk's notes behind those of a chunk.
func (c *chunkNotes) add(other *chunkNotes) {
	for _, flat := range other.Parts {
		moved := slices.Clone(flat)
		for i := 4; i < len(moved); i += 6 {
			moved[i] += int64(len(c.Notes))
		}
		c.Parts = append(c.Parts, moved)
	}
	c.Notes = append(c.Notes, other.Notes...)
}
