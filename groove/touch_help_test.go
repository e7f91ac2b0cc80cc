package groove_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// touchFeels are feels of several kinds, with which the tests of touch measure.
var touchFeels = []string{"backbeat-eighths", "ballad-eighths", "ballad-sixteenths", "shuffle", "swing", "half-time"}

// fourChords is a chart of some bars, a multiple of four.
func fourChords(bars int) string { return "| " + strings.Repeat("C | Am | F | G | ", bars/4) }

// taken is a song in a feel, at a tempo that suits it, as it is played in a take.
func taken(t *testing.T, feel string, take int, sections string) (*timeline.Timeline, *groove.Performance) {
	t.Helper()
	set := library.Builtin()
	f := set.Feels[feel]
	tl := songfiletest.Song(t, fmt.Sprintf("take = %d\nfeel = %q\ntempo = %d\n%s", take, feel,
		(f.TempoLow+f.TempoHigh)/2, sections))
	return tl, groove.Perform(tl, set)
}

// struck calls do for each note of a player in a pass, with the note that it plays.
func struck(perf *groove.Performance, pass int, who timeline.Player, do func(velocity float64, n *score.Note)) {
	part := &perf.Passes[pass]
	for _, n := range part.Notes[who] {
		do(float64(n.Velocity), &part.Score.Parts[who].Notes[n.Meant])
	}
}

// barMeans are the mean velocities of a player in each bar of a pass.
func barMeans(tl *timeline.Timeline, perf *groove.Performance, pass int, who timeline.Player) []float64 {
	sum, many := make([]float64, len(tl.Passes[pass].Bars)), make([]float64, len(tl.Passes[pass].Bars))
	struck(perf, pass, who, func(v float64, n *score.Note) {
		bar := tl.Passes[pass].BarAt(n.At)
		sum[bar], many[bar] = sum[bar]+v, many[bar]+1
	})
	for bar := range sum {
		sum[bar] /= max(1, many[bar])
	}
	return sum
}

// barPowers are the sums of the squares of a player's velocities, bar by bar.
func barPowers(tl *timeline.Timeline, perf *groove.Performance, pass int, who timeline.Player) []float64 {
	sum := make([]float64, len(tl.Passes[pass].Bars))
	struck(perf, pass, who, func(v float64, n *score.Note) { sum[tl.Passes[pass].BarAt(n.At)] += v * v })
	return sum
}

// meanOf is the mean of figures.
func meanOf(x ...float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// variance is that of figures.
func variance(x []float64) float64 {
	mean, sum := meanOf(x...), 0.0
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return sum / float64(len(x))
}

// median is the middle one of figures.
func median(x []float64) float64 {
	x = slices.Sorted(slices.Values(x))
	return x[len(x)/2]
}

// robust is a standard deviation that single figures far away hardly change.
func robust(x []float64) float64 {
	middle := median(x)
	var off []float64
	for _, v := range x {
		off = append(off, math.Abs(v-middle))
	}
	return 1.4826 * median(off)
}

// added are figures added to others, index by index.
func added(sum, x []float64) []float64 {
	if sum == nil {
		return slices.Clone(x)
	}
	for i := range sum {
		sum[i] += x[i]
	}
	return sum
}
