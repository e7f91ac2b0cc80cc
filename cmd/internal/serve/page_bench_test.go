package serve

import (
	"fmt"
	"os"
	"path/filepath"
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
