package audio

import (
	"fmt"
	"runtime"
	"testing"
	"time"

	"plinth/render/audio/bank"
	"plinth/render/audio/sketch"
	"plinth/render/audio/soundfont"
)

// BenchmarkMix is a whole example on one core, its notes being in the bank's cache: seconds of music a second.
func BenchmarkMix(b *testing.B) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	tim, _ := timBank(b)
	song, _ := example(b, "lanterns")
	m := mix(b, song, tim, Options{})
	for b.Loop() {
		m = mix(b, song, tim, Options{})
	}
	seconds := float64(len(m.Mix.Left)) / bank.Rate
	b.ReportMetric(seconds*float64(b.N)/b.Elapsed().Seconds(), "x-real-time")
}

// BenchmarkOneShots renders the notes of an example, each for as long as it is heard, by a bank that has none yet, on
// one core and on all: seconds of music a second, and how many times as long all of each note takes in the same run.
func BenchmarkOneShots(b *testing.B) {
	song, _ := example(b, "lanterns")
	run := func(name string, fresh func() bank.Bank) {
		for _, cores := range []int{1, runtime.NumCPU()} {
			b.Run(fmt.Sprintf("%s/cores=%d", name, cores), func(b *testing.B) {
				defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
				var stems []Stem
				var from bank.Bank
				prepare := func() {
					from, stems = fresh(), nil
					for i := range song.Parts {
						stems = append(stems, plan(&song.Parts[i], song.Parts[i].Notes, from))
					}
					runtime.GC()
				}
				for b.Loop() {
					b.StopTimer()
					prepare()
					b.StartTimer()
					for i := range stems {
						stems[i].render(from, nil)
					}
				}
				b.StopTimer()
				each := b.Elapsed().Seconds() / float64(b.N)
				notes, seconds := 0, 0.0
				for _, s := range stems {
					for _, n := range s.notes {
						notes++
						seconds += float64(len(from.Sound(n, 0).Left)) / bank.Rate
					}
				}
				prepare()
				begun := time.Now()
				for _, s := range stems {
					parallel(len(s.notes), func() func(int) {
						return func(i int) { from.Sound(s.notes[i], bank.MaxFrames) }
					})
				}
				b.ReportMetric(float64(notes), "notes")
				b.ReportMetric(seconds/each, "x-real-time")
				b.ReportMetric(time.Since(begun).Seconds()/each, "whole/heard")
			})
		}
	}
	run("sketch", func() bank.Bank { return sketch.New() })
	_, data := timBank(b)
	run("TimGM6mb", func() bank.Bank {
		tim, err := soundfont.Open(data, "TimGM6mb.sf2")
		if err != nil {
			b.Fatal(err)
		}
		return tim
	})
}
