package groovetest

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
)

// Table reads a CSV of testdata/reference, its header left out. The test must stand in a
// folder of groove: the path is relative.
func Table(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/reference/" + name)
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

// Number reads a figure of a table.
func Number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
