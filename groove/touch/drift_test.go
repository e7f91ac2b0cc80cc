package touch_test

import (
	"math"
	"testing"

	"plinth/groove/drummer"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/groove/touch"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// drums are those of the first pass as they are played.
func drums(tl *timeline.Timeline, set *feel.Set) []touch.Note {
	p := plan.New(tl, &tl.Passes[0], set)
	var d drummer.Drummer
	d.Prepare(p)
	var play touch.Playing
	play.Prepare(p)
	return play.Play(timeline.Drums, &d, d.Play(nil).Notes)
}

// strays are the displacements from the grid, in ms, of the strokes of one key at
// energy 3: bar by bar, in order, with the mean of each place in the bar taken out.
func strays(t *testing.T, tl *timeline.Timeline, key uint8) (ms []float64, ticks []int64) {
	t.Helper()
	set := groovetest.Set(nil)
	exact := *tl
	exact.Looseness = 0
	a := drums(&exact, set)
	b := drums(tl, set)
	grid, played := groovetest.Onsets(a, key), groovetest.Onsets(b, key)
	if len(grid) != len(played) {
		t.Fatalf("%d strokes on the grid, %d played", len(grid), len(played))
	}
	c := timeline.NewClock(tl.Passes[0].Tempos)
	sum, n := map[int64]float64{}, map[int64]float64{}
	for i := range grid {
		d := float64(c.Micros(played[i])-c.Micros(grid[i])) / 1000
		ms = append(ms, d)
		at := grid[i] % (4 * quarter)
		sum[at] += d
		n[at]++
	}
	for i := range ms {
		at := grid[i] % (4 * quarter)
		ms[i] -= sum[at] / n[at]
	}
	return ms, grid
}

func deviation(x []float64) float64 {
	mean, sum := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(len(x)))
}

func lagOne(x []float64) float64 {
	s, c := 0.0, 0.0
	for i := range x {
		s += x[i] * x[i]
		if i > 0 {
			c += x[i] * x[i-1]
		}
	}
	return c / s
}

// slope is that of the spectrum, log power against log frequency, by least squares
// over all frequencies up to half the sampling rate.
func slope(x []float64) float64 {
	n := len(x)
	var sx, sy, sxx, sxy, m float64
	for k := 1; k < n/2; k++ {
		var re, im float64
		for i, v := range x {
			a := 2 * math.Pi * float64(k) * float64(i) / float64(n)
			re += v * math.Cos(a)
			im += v * math.Sin(a)
		}
		lx, ly := math.Log(float64(k)), math.Log(re*re+im*im)
		sx, sy, sxx, sxy, m = sx+lx, sy+ly, sxx+lx*lx, sxy+lx*ly, m+1
	}
	return (m*sxy - sx*sy) / (m*sxx - sx*sx)
}

// The bounds are those of the design: at looseness 0.4 the spread lies between 0.4
// and 1.0 of the drummers' median; it is correlated in time, with the slope of its
// spectrum between white (0) and 1/f (-1); at looseness 1 it stays within what the
// loosest tenth of drummers do. Source: drummers_within_performance.csv.
func TestTimingSpreadAgainstDrummers(t *testing.T) {
	keys := map[string]uint8{"hat_closed": 42, "kick": 36, "snare": 38}
	checked := 0
	for _, row := range groovetest.Table(t, "drummers_within_performance.csv") {
		key, ok := keys[row[0]]
		if !ok {
			continue
		}
		checked++
		median, loosest := groovetest.Number(t, row[1]), groovetest.Number(t, row[3])
		var sd, lag, slopes float64
		const takes = 10
		for take := 1; take <= takes; take++ {
			tl := groovetest.Song(t, groovetest.Long(64, 3))
			tl.Looseness, tl.Take = 400, take
			x, _ := strays(t, tl, key)
			d := deviation(x)
			if d < 0.4*median || d > median {
				t.Errorf("%s, take %d: spread %.1f ms is not between 0.4 and 1.0 of the drummers' %.1f", row[0], take,
					d, median)
			}
			sd, lag, slopes = sd+d/takes, lag+lagOne(x)/takes, slopes+slope(x)/takes
			tl.Looseness = 1000
			x, _ = strays(t, tl, key)
			if d := deviation(x); d > loosest {
				t.Errorf("%s, take %d: at looseness 1 the spread %.1f ms is over the drummers' %.1f", row[0], take, d,
					loosest)
			}
		}
		t.Logf("%s: spread %.1f ms, %.2f of the drummers' %s; lag-1 %.2f (theirs %s); slope %.2f",
			row[0], sd, sd/median, row[1], lag, row[4], slopes)
		if slopes <= -1 || slopes >= 0 {
			t.Errorf("%s: slope %.2f is not between white and 1/f", row[0], slopes)
		}
		if lag < groovetest.Number(t, row[5]) || lag > groovetest.Number(t, row[6]) {
			t.Errorf("%s: correlation from stroke to stroke %.2f is outside the drummers' %s to %s", row[0], lag,
				row[5], row[6])
		}
	}
	if checked != len(keys) {
		t.Fatalf("%d of %d instruments found in the table", checked, len(keys))
	}
}
