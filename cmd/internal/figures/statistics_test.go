package main

import (
	"math"
	"testing"
)

func TestStatistics(t *testing.T) {
	a, b := set[int]{1: true, 2: true, 3: true}, set[int]{2: true, 3: true, 4: true, 5: true}
	groups := map[int64][]float64{0: {1, 1}, 1: {5, 5}}
	for name, c := range map[string][2]float64{
		"jaccard":                {jaccard(a, b), 2. / 5},
		"jaccard of nothing":     {jaccard(set[int]{}, set[int]{}), 1},
		"shared":                 {shared(a, b), 4. / 7},
		"median of three":        {median([]float64{9, 1, 2}), 2},
		"median of four":         {median([]float64{9, 1, 2, 4}), 3},
		"variance":               {variance([]float64{1, 1, 5, 5}), 4},
		"variance among groups":  {amongGroups(groups, []float64{1, 1, 5, 5}), 4},
		"among groups of a kind": {amongGroups(map[int64][]float64{0: {1, 5}, 1: {5, 1}}, []float64{1, 5, 5, 1}), 0},
		"robust SD":              {robustSD([]float64{10, 12, 14, 16, 90}), 1.4826 * 2},
		"decibels":               {decibels(100), 20},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%s: %v, want %v", name, c[0], c[1])
		}
	}
	if !math.IsNaN(median(nil)) || !math.IsNaN(mean(nil)) || !math.IsNaN(greatest(nil)) {
		t.Error("nothing has a median, a mean or a greatest value")
	}
}
