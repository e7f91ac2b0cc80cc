package audio

import (
	"fmt"
	"runtime"
	"testing"

	"plinth/render/audio/bank"
	"plinth/render/audio/sketch"
	"plinth/render/audio/soundfont"
)

// BenchmarkMix is a whole example on one core, its notes being in the bank's cache: seconds of music a second.
func BenchmarkMix(b *testing.B) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	tim, _ := timBank(b)
	song, _ := example(b, "lanterns")
	var m *Mixed
	for b.Loop() {
		m = mix(b, song, tim, Options{})
	}
	seconds := float64(len(m.Mix.Left)) / bank.Rate
	b.ReportMetric(seconds*float64(b.N)/b.Elapsed().Seconds(), "x-real-time")
}

// BenchmarkOneShots renders the notes of an example, each as long as it is heard, by a bank that has none yet, on
// all cores and on one; and, to compare, all of each note.
func BenchmarkOneShots(b *testing.B) {
	_, data := timBank(b)
	song, _ := example(b, "lanterns")
	banks := map[string]func() bank.Bank{
		"sketch": func() bank.Bank { return sketch.New() },
		"TimGM6mb": func() bank.Bank {
			tim, err := soundfont.Open(data, "TimGM6mb.sf2")
			if err != nil {
				b.Fatal(err)
			}
			return tim
		},
	}
	for name, fresh := range banks {
		for _, cores := range []int{1, runtime.NumCPU()} {
			b.Run(fmt.Sprintf("%s/cores=%d", name, cores), func(b *testing.B) {
				defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
				notes, frames := 0, 0
				for b.Loop() {
					b.StopTimer()
					from := fresh()
					b.StartTimer()
					notes, frames = 0, 0
					for i := range song.Parts {
						s := plan(&song.Parts[i], song.Parts[i].Notes, from)
						s.render(from, nil)
						for _, n := range s.notes {
							notes++
							frames += len(from.Sound(n, 0).Left)
						}
					}
				}
				b.ReportMetric(float64(notes), "notes")
				b.ReportMetric(float64(frames)/bank.Rate, "seconds-of-sound")
			})
		}
	}
}
