package voicing

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
)

// The table equals the stricter column of testdata/reference/low_interval_limits.csv;
// its sources stand in the README beside it.
func TestLowLimits(t *testing.T) {
	f, err := os.Open("../../testdata/reference/low_interval_limits.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	listed := map[int]int{}
	for _, r := range rows[1:] {
		semis, err1 := strconv.Atoi(r[1])
		limit, err2 := strconv.Atoi(r[4])
		if err1 != nil || err2 != nil {
			t.Fatalf("row %v: %v %v", r, err1, err2)
		}
		strictest := 0
		for _, cell := range r[2:4] {
			if n, err := strconv.Atoi(cell); err == nil {
				strictest = max(strictest, n)
			}
		}
		if strictest != limit {
			t.Errorf("%s: the stricter of %v is %d, not %d", r[0], r[2:4], strictest, limit)
		}
		listed[semis] = limit
	}
	if len(listed) != 15 {
		t.Errorf("the table has %d intervals, not 15: an octave and a unison have no limit", len(listed))
	}
	for semis, limit := range lowLimits {
		if limit != listed[semis] {
			t.Errorf("%d semitones: limit %d, the table says %d", semis, limit, listed[semis])
		}
	}
	for semis, limit := range listed {
		if Muddy(limit, limit+semis) || Muddy(limit+semis, limit) {
			t.Errorf("%d semitones on %d is clear by the table", semis, limit)
		}
		if !Muddy(limit-1, limit-1+semis) {
			t.Errorf("%d semitones on %d is unclear by the table", semis, limit-1)
		}
	}
}
