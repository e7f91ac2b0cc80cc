package pianist

import (
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"plinth/groove/groovetest"
	"plinth/songspec/timeline"
)

// BenchmarkVoicing is the time a change takes: a chart that goes round, as songs
// do; chords that never come again; and one short section, where every chord is
// new and costs its candidates.
func BenchmarkVoicing(b *testing.B) {
	round := strings.TrimSuffix(strings.Repeat("C|G/B|Am7|F Fm6|C/G|G7sus4 G7|C|Bb C7|", 125), "|")
	for _, row := range []struct {
		name string
		pass *timeline.Pass
	}{
		{"round", groovetest.PassOf(b, round, 4)},
		{"new", randomPass(b, rand.New(rand.NewSource(1)), 1000)},
		{"short", groovetest.PassOf(b, "C|G/B|Am7|F Fm6|C/G|G7sus4 G7|C|Bb C7", 4)},
	} {
		p := groovetest.PlanOf(row.pass, groovetest.CompFeel("c==============="))
		var c Pianist
		c.Prepare(p)
		b.Run(row.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				c.chooseVoicings(nil)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(c.changes)), "ns/change")
		})
	}
}

// BenchmarkComp is the whole of the pianist's work, by the bar, on short and long
// passes with a push, an accent and a stop in every eight bars.
func BenchmarkComp(b *testing.B) {
	for _, bars := range []int{96, 1000, 10000} {
		round := strings.Repeat("C|G/B|Am7|F Fm6|C/G|G7sus4 G7|C|Bb C7|", bars/8)
		pass := groovetest.PassOf(b, strings.TrimSuffix(round, "|"), 4)
		for bar := 0; bar < bars; bar += 8 {
			groovetest.AddEvent(pass, timeline.Accent, bar, quarter, quarter)
			groovetest.AddPush(pass, bar+1, bar44-eighth)
			groovetest.AddEvent(pass, timeline.Stop, bar+7, 3*quarter, bar44)
		}
		p := groovetest.PlanOf(pass, groovetest.CompFeel("c=====c=c===c=u="))
		var c Pianist
		heard := nobody()
		b.Run(strconv.Itoa(bars), func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				c.Prepare(p)
				c.Play(heard)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(bars), "ns/bar")
		})
	}
}
