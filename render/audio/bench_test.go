package audio

import (
	"runtime"
	"testing"

	"plinth/render/audio/bank"
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

// BenchmarkNotes renders the notes of an example, each to its end, by a bank that has none yet, on all cores and
// on one.
func BenchmarkNotes(b *testing.B) {
	_, data := timBank(b)
	song, _ := example(b, "lanterns")
	for name, cores := range map[string]int{"one": 1, "all": runtime.NumCPU()} {
		b.Run(name, func(b *testing.B) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
			notes, frames := 0, 0
			for b.Loop() {
				b.StopTimer()
				tim, err := soundfont.Open(data, "TimGM6mb.sf2")
				if err != nil {
					b.Fatal(err)
				}
				b.StartTimer()
				notes, frames = 0, 0
				for i := range song.Parts {
					s := plan(&song.Parts[i], song.Parts[i].Notes, tim)
					sounds := make([]bank.Sound, len(s.notes))
					parallel(len(s.notes), func() func(int) {
						return func(i int) { sounds[i] = tim.Sound(s.notes[i]) }
					})
					for _, x := range sounds {
						frames += len(x.Left)
					}
					notes += len(sounds)
				}
			}
			b.ReportMetric(float64(notes), "notes")
			b.ReportMetric(float64(frames)/bank.Rate, "seconds-of-sound")
		})
	}
}
