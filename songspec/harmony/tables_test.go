package harmony

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The tables are copies of published or computed values. testdata/reference/README.md has the
// source of each.
const referenceDir = "../../testdata/reference"

// table is the rows of a CSV table as maps by column name. It fails if there are fewer rows
// than there should be.
func table(t testing.TB, name string, atLeast int) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(referenceDir, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = r[i]
		}
		out = append(out, m)
	}
	if len(out) < atLeast {
		t.Fatalf("%s has %d rows, want at least %d", name, len(out), atLeast)
	}
	return out
}

// ints reads "0 4 7".
func ints(t testing.TB, s string) []int {
	t.Helper()
	var out []int
	for _, f := range strings.Fields(s) {
		n, err := strconv.Atoi(f)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, n)
	}
	return out
}

// agreedSymbols is every chord suffix that tonal 6.4.3 and chord-symbol 4.0.0
// read as the same pitch classes.
func agreedSymbols(t testing.TB) map[string][]int {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(referenceDir, "chord_symbols_agreed.json"))
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Symbols map[string][]int `json:"symbols"`
	}
	if err := json.Unmarshal(b, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Symbols) != 171 {
		t.Fatalf("%d agreed symbols, want 171", len(file.Symbols))
	}
	return file.Symbols
}

// aliases splits a cell of spellings; the empty suffix is written "".
func aliases(cell string) []string {
	var out []string
	for _, s := range strings.Split(cell, "|") {
		s = strings.TrimSpace(s)
		if s == `""` {
			out = append(out, "")
		} else if s != "" {
			out = append(out, s)
		}
	}
	return out
}

func sorted[K comparable, V any](m map[K]V, less func(a, b K) int) []K {
	keys := make([]K, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, less)
	return keys
}

func mustChord(t testing.TB, s string) Chord {
	t.Helper()
	c, err := ParseChord(s)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return c
}

func mustKey(t testing.TB, s string) Key {
	t.Helper()
	k, err := ParseKey(s)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func mustName(t testing.TB, s string) Name {
	t.Helper()
	n, err := ParseName(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}
