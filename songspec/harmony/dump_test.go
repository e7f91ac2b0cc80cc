package harmony

import (
	"encoding/json"
	"os"
	"slices"
	"testing"
)

// TestDumpChords is the Go half of .ci/crosscheck-chords.mjs. It reads a JSON list of chord
// suffixes from the file PLINTH_CHORDS_IN, and writes each of them with its sorted pitch
// classes over C to the file PLINTH_CHORDS_OUT; null if plinth refuses it.
func TestDumpChords(t *testing.T) {
	in, out := os.Getenv("PLINTH_CHORDS_IN"), os.Getenv("PLINTH_CHORDS_OUT")
	if in == "" || out == "" {
		t.Skip("PLINTH_CHORDS_IN and PLINTH_CHORDS_OUT are not set: only .ci/crosscheck-chords.mjs sets them")
	}
	b, err := os.ReadFile(in)
	if err != nil {
		t.Fatal(err)
	}
	var suffixes []string
	if err := json.Unmarshal(b, &suffixes); err != nil {
		t.Fatal(err)
	}
	if len(suffixes) < 300 {
		t.Fatalf("%d suffixes to compare; the two dictionaries alone have more than 300", len(suffixes))
	}
	suffixes = append(suffixes, commonSpellings...)
	got := map[string][]int{}
	for _, s := range suffixes {
		got[s] = nil
		if c, err := ParseChord("C" + s); err == nil && c.Bass == c.Root {
			got[s] = sortedPCs(c)
		}
	}
	b, err = json.MarshalIndent(got, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(out, b, 0o644); err != nil {
		t.Fatal(err)
	}
}

func sortedPCs(c Chord) []int {
	var pcs []int
	for _, tone := range c.Tones() {
		pcs = append(pcs, mod12(c.Root.PC()+int(tone.Semitones)))
	}
	slices.Sort(pcs)
	return slices.Compact(pcs)
}
