package groove

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// long is a pass of n bars that change chord now and then.
func long(n, energy int) section {
	bars := make([]string, n)
	for i := range bars {
		bars[i] = [4]string{"C", "Am", "F", "G"}[i%4]
	}
	return section{name: "long", chords: strings.Join(bars, "|"), energy: energy}
}

// strays are the displacements from the grid, in ms, of the strokes of one key at
// energy 3: bar by bar, in order, with the mean of each place in the bar taken out.
func strays(t *testing.T, tl *timeline.Timeline, key uint8) (ms []float64, ticks []int64) {
	t.Helper()
	set := testSet(nil)
	exact := *tl
	exact.Looseness = 0
	a := PerformPass(&exact, &tl.Passes[0], set).Notes[timeline.Drums]
	b := PerformPass(tl, &tl.Passes[0], set).Notes[timeline.Drums]
	grid, played := onsets(a, key), onsets(b, key)
	if len(grid) != len(played) {
		t.Fatalf("%d strokes on the grid, %d played", len(grid), len(played))
	}
	c := NewClock(tl.Passes[0].Tempos)
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

// table reads a CSV of testdata/reference, its header left out.
func table(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open("../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %v, %d rows", name, err, len(rows))
	}
	return rows[1:]
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The bounds are those of the design: at looseness 0.4 the spread lies between 0.4
// and 1.0 of the drummers' median; it is correlated in time, with the slope of its
// spectrum between white (0) and 1/f (-1); at looseness 1 it stays within what the
// loosest tenth of drummers do. Source: drummers_within_performance.csv.
func TestTimingSpreadAgainstDrummers(t *testing.T) {
	keys := map[string]uint8{"hat_closed": 42, "kick": 36, "snare": 38}
	checked := 0
	for _, row := range table(t, "drummers_within_performance.csv") {
		key, ok := keys[row[0]]
		if !ok {
			continue
		}
		checked++
		median, loosest := number(t, row[1]), number(t, row[3])
		var sd, lag, slopes float64
		const takes = 10
		for take := 1; take <= takes; take++ {
			tl := song(t, long(64, 3))
			tl.Looseness, tl.Take = 400, take
			x, _ := strays(t, tl, key)
			d := deviation(x)
			if d < 0.4*median || d > median {
				t.Errorf("%s, take %d: spread %.1f ms is not between 0.4 and 1.0 of the drummers' %.1f", row[0], take, d, median)
			}
			sd, lag, slopes = sd+d/takes, lag+lagOne(x)/takes, slopes+slope(x)/takes
			tl.Looseness = 1000
			x, _ = strays(t, tl, key)
			if d := deviation(x); d > loosest {
				t.Errorf("%s, take %d: at looseness 1 the spread %.1f ms is over the drummers' %.1f", row[0], take, d, loosest)
			}
		}
		t.Logf("%s: spread %.1f ms, %.2f of the drummers' %s; lag-1 %.2f (theirs %s); slope %.2f",
			row[0], sd, sd/median, row[1], lag, row[4], slopes)
		if slopes <= -1 || slopes >= 0 {
			t.Errorf("%s: slope %.2f is not between white and 1/f", row[0], slopes)
		}
		if lag < number(t, row[5]) || lag > number(t, row[6]) {
			t.Errorf("%s: correlation from stroke to stroke %.2f is outside the drummers' %s to %s", row[0], lag, row[5], row[6])
		}
	}
	if checked != len(keys) {
		t.Fatalf("%d of %d instruments found in the table", checked, len(keys))
	}
}

func TestLoosenessZeroIsTheGrid(t *testing.T) {
	set := testSet(func(f *feel.Feel) { f.LagMS = map[string]int{"snare": 20, "bass": -15, "piano": 30} })
	tl := song(t, section{name: "a", chords: "C|Am F|G|C", energy: 5, bpm: 137}, section{name: "b", chords: "F|G", energy: 2})
	for i := range tl.Passes {
		for who, notes := range PerformPass(tl, &tl.Passes[i], set).Notes {
			for _, n := range notes {
				if n.Tick%(quarter/4) != 0 {
					t.Errorf("pass %d, %s: a note at %d is off the sixteenths", i, timeline.Player(who), n.Tick)
				}
			}
		}
	}
}

// The drummers' range at a tempo goes from the lowest to the highest of the swung
// performances (ratio over 1.15: the dataset's straight ones are left out) within
// 15 % of the tempo and of the nearest on either side, together with the band from
// 5 to 95 % of the bin of swing_drummers_by_tempo.csv. The measured tempi end at 290.
func TestSwingRatioWithinDrummers(t *testing.T) {
	rows := table(t, "swing_drummers.csv")
	bins := table(t, "swing_drummers_by_tempo.csv")
	for bpm := 60.0; bpm <= 290; bpm += 5 {
		low, high := math.Inf(1), math.Inf(-1)
		add := func(r float64) { low, high = min(low, r), max(high, r) }
		under, over := -1, -1
		for i, r := range rows {
			ratio, at := number(t, r[1]), number(t, r[0])
			if ratio <= 1.15 {
				continue
			}
			if math.Abs(at-bpm) <= 0.15*bpm {
				add(ratio)
			}
			if at <= bpm {
				under = i
			}
			if at >= bpm && over < 0 {
				over = i
			}
		}
		for _, i := range []int{under, over} {
			if i >= 0 {
				add(number(t, rows[i][1]))
			}
		}
		for _, b := range bins {
			if bpm >= number(t, b[0]) && bpm < number(t, b[1])+1 {
				for _, p := range []float64{number(t, b[2]), number(t, b[4])} {
					add(p / (1 - p))
				}
			}
		}
		got := float64(swingRatio(int64(bpm))) / 1000
		if got < low-0.005 || got > high+0.005 {
			t.Errorf("%.0f bpm: ratio %.2f, drummers %.2f to %.2f", bpm, got, low, high)
		}
	}
}

func TestSwingRatioFollowsPublishedTrend(t *testing.T) {
	for _, row := range table(t, "swing_100ms_model.csv") {
		bpm, model := number(t, row[0]), number(t, row[3])
		got := float64(swingRatio(int64(bpm))) / 1000
		if got > 3.5 || got < 1 {
			t.Errorf("%.0f bpm: ratio %.2f is outside the published 1 to 3.5", bpm, got)
		}
		if bpm >= 200 && math.Abs(got-model) > 0.2 {
			t.Errorf("%.0f bpm: ratio %.2f, a short note of 100 ms gives %.2f", bpm, got, model)
		}
	}
	for bpm := int64(100); bpm < 330; bpm++ {
		if swingRatio(bpm+1) > swingRatio(bpm) {
			t.Errorf("the ratio rises from %d bpm", bpm)
		}
	}
}

func TestSwingPlaces(t *testing.T) {
	shuffle := Swing{Pair: 960, Long: 640}
	triplet := Swing{Pair: 960, Long: 700, Triplets: true}
	for _, row := range []struct {
		name     string
		s        Swing
		at, want int64
	}{
		{"straight", Swing{}, 480, 480},
		{"the beat stays", shuffle, 0, 0},
		{"the off-beat of a straight tab", shuffle, 480, 640},
		{"half of the long note", shuffle, 240, 320},
		{"half of the short note", shuffle, 720, 800},
		{"the off-beat of a triplet tab", triplet, 640, 700},
		{"a song file's & in a triplet tab is the off-beat", triplet, 480, 700},
		{"the middle triplet", triplet, 320, 350},
		{"the beat of a triplet tab", triplet, 0, 0},
	} {
		if got := row.s.place(row.at); got != row.want {
			t.Errorf("%s: %d goes to %d, want %d", row.name, row.at, got, row.want)
		}
	}
	for _, s := range []Swing{shuffle, triplet, {Pair: 480, Long: 300}} {
		for at := int64(1); at < s.Pair; at++ {
			if s.place(at) < s.place(at-1) || s.place(at) > s.Pair {
				t.Fatalf("%+v: order is lost at %d", s, at)
			}
		}
	}
}

// Friberg and Sundström 2002 (abstract): the soloist's beats come after the ride
// and the off-beats together, so that the soloist's ratio is smaller.
func TestPianoSwingsLess(t *testing.T) {
	set := testSet(func(f *feel.Feel) {
		f.Swing = feel.Swing{Mode: "tempo", Unit: "eighth"}
		for i := range f.Levels {
			f.Levels[i].Drums = rows("ride", "x-x-x-x-x-x-x-x-")
		}
	})
	tl := song(t, section{name: "a", chords: "C|C", energy: 3, bpm: 120})
	tl.Looseness = 400
	p := NewPlan(tl, &tl.Passes[0], set)
	on := p.pianoDelay(0, 500_000)
	if on <= 0 || on > pianoDelayUS {
		t.Errorf("on the beat the piano is %d microseconds late", on)
	}
	if off := p.pianoDelay(480, 500_000); off != 0 {
		t.Errorf("on the off-beat the piano is %d microseconds late", off)
	}
	s := p.Swing()
	long := 500_000 * s.Long / s.Pair
	drums, piano := float64(long)/float64(500_000-long), float64(long-on)/float64(500_000-long+on)
	if piano >= drums || piano >= 2 {
		t.Errorf("at 120 bpm the drums swing %.2f and the piano %.2f; published: the soloist under 2, the drummer over", drums, piano)
	}
}

func TestClock(t *testing.T) {
	c := NewClock([]timeline.Tempo{{Tick: 0, Micros: 500_000}, {Tick: 960, Micros: 1_000_000}})
	for _, row := range []struct {
		name     string
		tick, us int64
		want     int64
	}{
		{"20 ms at 120", 0, 20_000, 38},
		{"early, at the first tempo", 0, -20_000, -38},
		{"late, at the tempo from there on", 960, 20_000, 19},
		{"early, at the tempo that leads there", 960, -20_000, -38},
	} {
		if got := c.Ticks(row.tick, row.us); got != row.want {
			t.Errorf("%s: %d ticks, want %d", row.name, got, row.want)
		}
	}
	if got := c.Micros(1920); got != 1_500_000 {
		t.Errorf("two quarters take %d microseconds, want 1500000", got)
	}
}
