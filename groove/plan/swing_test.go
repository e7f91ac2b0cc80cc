package plan_test

import (
	"math"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/songspec/meter"
)

// The drummers' range at a tempo goes from the lowest to the highest of the swung
// performances (ratio over 1.15: the dataset's straight ones are left out) within
// 15 % of the tempo and of the nearest on either side, together with the band from
// 5 to 95 % of the bin of swing_drummers_by_tempo.csv. The measured tempi end at 290.
func TestSwingRatioWithinDrummers(t *testing.T) {
	rows := groovetest.Table(t, "swing_drummers.csv")
	bins := groovetest.Table(t, "swing_drummers_by_tempo.csv")
	for bpm := 60.0; bpm <= 290; bpm += 5 {
		low, high := math.Inf(1), math.Inf(-1)
		add := func(r float64) { low, high = min(low, r), max(high, r) }
		under, over := -1, -1
		for i, r := range rows {
			ratio, at := groovetest.Number(t, r[1]), groovetest.Number(t, r[0])
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
				add(groovetest.Number(t, rows[i][1]))
			}
		}
		for _, b := range bins {
			if bpm >= groovetest.Number(t, b[0]) && bpm < groovetest.Number(t, b[1])+1 {
				for _, p := range []float64{groovetest.Number(t, b[2]), groovetest.Number(t, b[4])} {
					add(p / (1 - p))
				}
			}
		}
		got := float64(plan.SwingRatio(meter.BPM(1000*bpm))) / 1000
		if got < low-0.005 || got > high+0.005 {
			t.Errorf("%.0f bpm: ratio %.2f, drummers %.2f to %.2f", bpm, got, low, high)
		}
	}
}

func TestSwingRatioFollowsPublishedTrend(t *testing.T) {
	for _, row := range groovetest.Table(t, "swing_100ms_model.csv") {
		bpm, model := groovetest.Number(t, row[0]), groovetest.Number(t, row[3])
		got := float64(plan.SwingRatio(meter.BPM(1000*bpm))) / 1000
		if got > 3.5 || got < 1 {
			t.Errorf("%.0f bpm: ratio %.2f is outside the published 1 to 3.5", bpm, got)
		}
		if bpm >= 200 && math.Abs(got-model) > 0.2 {
			t.Errorf("%.0f bpm: ratio %.2f, a short note of 100 ms gives %.2f", bpm, got, model)
		}
	}
	for bpm := 100; bpm < 330; bpm++ {
		if plan.SwingRatio(meter.Whole(bpm+1)) > plan.SwingRatio(meter.Whole(bpm)) {
			t.Errorf("the ratio rises from %d bpm", bpm)
		}
	}
}

func TestSwingPlaces(t *testing.T) {
	shuffle := plan.Swing{Pair: 960, Long: 640}
	triplet := plan.Swing{Pair: 960, Long: 700, Triplets: true}
	for _, row := range []struct {
		name     string
		s        plan.Swing
		at, want int64
	}{
		{"straight", plan.Swing{}, 480, 480},
		{"the beat stays", shuffle, 0, 0},
		{"the off-beat of a straight tab", shuffle, 480, 640},
		{"half of the long note", shuffle, 240, 320},
		{"half of the short note", shuffle, 720, 800},
		{"the off-beat of a triplet tab", triplet, 640, 700},
		{"a song file's & in a triplet tab is the off-beat", triplet, 480, 700},
		{"the middle triplet", triplet, 320, 350},
		{"the beat of a triplet tab", triplet, 0, 0},
	} {
		if got := row.s.Place(row.at); got != row.want {
			t.Errorf("%s: %d goes to %d, want %d", row.name, row.at, got, row.want)
		}
	}
	for _, s := range []plan.Swing{shuffle, triplet, {Pair: 480, Long: 300}} {
		for at := int64(1); at < s.Pair; at++ {
			if s.Place(at) < s.Place(at-1) || s.Place(at) > s.Pair {
				t.Fatalf("%+v: order is lost at %d", s, at)
			}
		}
	}
}
