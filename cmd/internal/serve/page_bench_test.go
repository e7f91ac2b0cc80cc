package serve

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio/sketch"
	"plinth/render/page"
)

// BenchmarkPageSaveToReady is from a save to the moment at which a page that plays the section that was changed
// has the new bed and all notes of the bars that come next, some of them never rendered before. It is without
// the time in which watch waits for a save to be whole.
func BenchmarkPageSaveToReady(b *testing.B) {
	path := filepath.Join("..", "..", "..", "examples", "lanterns.song.hcl")
	src, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	s, err := Start(Options{Sounds: page.Sounds{Bank: sketch.New(), Sketch: true}, File: "lanterns.song.hcl"})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(s.Close)
	w := engine(bare(b, chromium(b), s))
	save := func(chord, says string) {
		text := strings.Replace(string(src), "| Cm7 ", "| "+chord+" ", 1)
		tl, set, err := songfiletest.ExampleText(path, text)
		if err != nil {
			b.Fatal(err)
		}
		s.Good(tl, groove.Perform(tl, set), says, nil)
	}
	save("Cm7", "first")
	w.do("T.start(), T.until(() => T.engine.progress.needed && T.engine.progress.ready === T.engine.progress.needed)")
	w.do("T.engine.setLoop(4, 11), T.engine.play(4), T.moved(5e5)")
	chords := []string{"C7", "Cmaj7", "D7", "F#m7", "A", "B9", "Em7"}
	var sum time.Duration
	for i := range b.N {
		says := fmt.Sprint("save ", i)
		start := time.Now()
		save(chords[i%len(chords)], says)
		w.do("T.ready('" + says + "')")
		sum += time.Since(start)
		w.do("T.until(() => T.engine.bed.state.says === '" + says + "')")
	}
	b.ReportMetric(float64(sum.Milliseconds())/float64(b.N), "ms/ready")
	if left := eval[map[string]int](w, "T.engine.left"); left["missing"] > 0 {
		b.Logf("left out: %v", left)
	}
}

// BenchmarkPagePlaying is what a page that plays costs its process, in per cent of a core: the main thread, the
// worker that ticks, and the thread that makes the sound. It reads Linux's /proc, where a tick is a hundredth of a
// second.
func BenchmarkPagePlaying(b *testing.B) {
	if _, err := os.Stat("/proc/self/task"); err != nil {
		b.Skip(err)
	}
	s, err := Start(Options{Sounds: page.Sounds{Bank: sketch.New(), Sketch: true}, File: "lanterns.song.hcl"})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(s.Close)
	_, tl, set := songfiletest.Example(b, filepath.Join("..", "..", "..", "examples", "lanterns.song.hcl"))
	s.Good(tl, groove.Perform(tl, set), "song", nil)
	browser := chromium(b)
	w := opened(b, browser, s, look{width: 1400, height: 900})
	w.until(`document.querySelector("#coming").hidden`)
	w.press(" ")
	time.Sleep(5 * time.Second)
	const long = 20 * time.Second
	for range b.N {
		before := threads(b, "AudioOutputDevi")
		time.Sleep(long)
		for name, ticks := range threads(b, "AudioOutputDevi") {
			unit := map[string]string{"AudioOutputDevi": "%sound", "DedicatedWorker": "%worker"}[name]
			if strings.HasPrefix(name, "chrom") {
				unit = "%main"
			}
			if unit != "" {
				b.ReportMetric(float64(ticks-before[name])/long.Seconds(), unit)
			}
		}
	}
}

// threads is how long the threads of the processes that we started have run so far, in ticks, by their names: of
// those processes that have a thread of a name.
func threads(b *testing.B, having string) map[string]int {
	b.Helper()
	paths, err := filepath.Glob("/proc/[0-9]*/stat")
	if err != nil {
		b.Fatal(err)
	}
	parent := map[string]string{}
	for _, path := range paths {
		if _, fields := stat(path); fields != nil {
			parent[filepath.Base(filepath.Dir(path))] = fields[1]
		}
	}
	out := map[string]int{}
	for id := range parent {
		up := id
		for up != "" && up != strconv.Itoa(os.Getpid()) {
			up = parent[up]
		}
		tasks, _ := filepath.Glob("/proc/" + id + "/task/*/stat")
		ticks := map[string]int{}
		for _, task := range tasks {
			if name, fields := stat(task); fields != nil {
				user, _ := strconv.Atoi(fields[11])
				system, _ := strconv.Atoi(fields[12])
				ticks[name] += user + system
			}
		}
		if _, has := ticks[having]; has && up != "" {
			out = ticks
		}
	}
	return out
}

// stat is the name of a process or thread, and what /proc says behind it (proc(5)): its state, its parent …
func stat(path string) (name string, fields []string) {
	text, err := os.ReadFile(path)
	if err != nil {
		return "", nil
	}
	from, to := bytes.IndexByte(text, '('), bytes.LastIndexByte(text, ')')
	return string(text[from+1 : to]), strings.Fields(string(text[to+1:]))
}
