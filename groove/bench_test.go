package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
)

// BenchmarkPerform plays songs of 100, 1,000 and 10,000 bars, as sections of eight
// and as one long section.
func BenchmarkPerform(b *testing.B) {
	set := groovetest.Set(nil)
	for _, bars := range []int{100, 1000, 10000} {
		for _, size := range []int{10, bars} {
			b.Run(fmt.Sprintf("%d_bars_of_%d", bars, size), func(b *testing.B) {
				var all []groovetest.Section
				for n := 0; n < bars; n += size {
					s := groovetest.Long(size, 3)
					s.Name = fmt.Sprint("part ", n/size%7)
					all = append(all, s)
				}
				tl := groovetest.Song(b, all...)
				tl.Looseness = 400
				b.ResetTimer()
				for i := 0; i < b.N; i++ {
					groove.Perform(tl, set)
				}
				b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*bars), "µs/bar")
			})
		}
	}
}
