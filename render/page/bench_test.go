package page

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// long is a song of n bars, twenty a pass.
func long(n int) string {
	chart := strings.Repeat("| Eb | Bb/D | Cm7 | Ab / Abm6 / ", 5)
	var b strings.Builder
	for i, name := range []string{"verse", "chorus"} {
		fmt.Fprintf(&b, "section %q {\n  energy = %d\n  chords = %q\n  push \"4: 4&\" {}\n}\n", name, 2*i+2, chart+"|")
	}
	b.WriteString("form {\n")
	for range n / 40 {
		b.WriteString("  play \"verse\" {}\n  play \"chorus\" {}\n")
	}
	return b.String() + "}\n"
}

// BenchmarkState is from a finished build to the state as it is sent, with all its chunks.
func BenchmarkState(b *testing.B) {
	run := func(name string, tl *timeline.Timeline, perf *groove.Performance) {
		b.Run(name, func(b *testing.B) {
			old := NewBed(tl, perf, sounds)
			b.ResetTimer()
			for range b.N {
				bed := NewBed(tl, perf, sounds)
				went, changed := Changes(old, bed)
				state := State{Rev: 2, OK: true, Bed: bed, Changed: changed}
				if state.JSON(&Since{1, went}) == nil || len(changed) > 0 {
					b.Fatal(changed)
				}
				old = bed
			}
		})
	}
	_, tl, set := songfiletest.Example(b, filepath.Join("..", "..", "examples", "lanterns.song.hcl"))
	run("lanterns", tl, groove.Perform(tl, set))
	tl, set, err := songfiletest.ExampleText("t.song.hcl", long(10000))
	if err != nil {
		b.Fatal(err)
	}
	run("bars=10000", tl, groove.Perform(tl, set))
}
