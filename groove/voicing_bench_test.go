package groove

import (
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// BenchmarkVoicing is the time a change takes: a chart that goes round, as songs
// do; chords that never come again; and one short section, where every chord is
// new and costs its candidates.
func BenchmarkVoicing(b *testing.B) {
	round := strings.TrimSuffix(strings.Repeat("C|G/B|Am7|F Fm6|C/G|G7sus4 G7|C|Bb C7|", 125), "|")
	for _, c := range []struct {
		name string
		pass *timeline.Pass
	}{
		{"round", passOf(b, round, 4)},
		{"new", randomPass(b, rand.New(rand.NewSource(1)), 1000)},
		{"short", passOf(b, "C|G/B|Am7|F Fm6|C/G|G7sus4 G7|C|Bb C7", 4)},
	} {
		p := planOf(c.pass, compFeel("c==============="))
		changes := p.Cues.Changes(timeline.Piano)
		ear := p.listen()
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				p.voicings(changes, ear, nil, nil)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(changes)), "ns/change")
		})
	}
}

// BenchmarkComp is the whole of the pianist's work, by the bar, on short and long
// passes with a push, an accent and a stop in every eight bars.
func BenchmarkComp(b *testing.B) {
	for _, bars := range []int{96, 1000, 10000} {
		round := strings.Repeat("C|G/B|Am7|F Fm6|C/G|G7sus4 G7|C|Bb C7|", bars/8)
		pass := passOf(b, strings.TrimSuffix(round, "|"), 4)
		for bar := 0; bar < bars; bar += 8 {
			ev(pass, timeline.Accent, bar, quarter, quarter)
			push(pass, bar+1, bar44-eighth)
			ev(pass, timeline.Stop, bar+7, 3*quarter, bar44)
		}
		p := planOf(pass, compFeel("c=====c=c===c=u="))
		b.Run(strconv.Itoa(bars), func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				p.pianoOver(nil)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(bars), "ns/bar")
		})
	}
}
