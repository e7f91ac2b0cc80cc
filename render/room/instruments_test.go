package room

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// The table in code is the table of the reference file: comfortable ranges of
// every orchestral instrument in it, none left out (source: see
// testdata/reference/README.md).
func TestInstruments(t *testing.T) {
	in, err := os.Open(filepath.Join("..", "..", "testdata", "reference", "instrument_ranges.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	rows, err := csv.NewReader(in).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	// The band's own and the singers are not the orchestra.
	other := map[string]bool{"piano": true, "guitar steel/nylon": true, "electric guitar": true,
		"bass guitar 4-string": true, "bass guitar 5-string": true,
		"soprano": true, "mezzo-soprano": true, "alto": true, "tenor": true, "baritone": true, "bass voice": true}
	short := map[string]string{"clarinet Bb": "clarinet", "bass clarinet Bb": "bass clarinet", "horn in F": "horn",
		"trumpet Bb": "trumpet", "trombone tenor": "trombone"}
	var want []instrument
	low, high := 127, 0
	for _, r := range rows[1:] {
		if other[r[0]] {
			continue
		}
		name := r[0]
		if s := short[name]; s != "" {
			name = s
		}
		l, _ := strconv.Atoi(r[3])
		h, _ := strconv.Atoi(r[4])
		want = append(want, instrument{name, l, h})
		low, high = min(low, l), max(high, h)
	}
	if len(want) != len(orchestra) {
		t.Fatalf("%d instruments in the reference, %d here", len(want), len(orchestra))
	}
	for i, w := range want {
		if orchestra[i] != w {
			t.Errorf("%+v, the reference has %+v", orchestra[i], w)
		}
	}
	if low != compassLow || high != compassHigh {
		t.Errorf("the compass is %d to %d, the reference's %d to %d", compassLow, compassHigh, low, high)
	}
}
