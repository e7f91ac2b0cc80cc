package harmony

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Source: the harmonic analyses of 38 songs for voice and piano (When in Rome,
// CC BY-SA 4.0, over OpenScore Lieder, CC0), with roots and basses resolved by
// music21. For numerals that people write, root, bass and triad must be the same, except for
// the conventions named here.
func TestLiederNumerals(t *testing.T) {
	dir := os.Getenv("PLINTH_DATA")
	if dir == "" {
		t.Skip("PLINTH_DATA is not set: the folder with lieder-dev")
	}
	files, err := filepath.Glob(filepath.Join(dir, "lieder-dev", "*", "truth.json"))
	if err != nil || len(files) < 30 {
		t.Fatalf("%d analyses found in %s: %v", len(files), dir, err)
	}
	checked, left := 0, map[string]int{}
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var song struct {
			Keys []struct {
				Bar int
				Pos float64
				Key string
			} `json:"local_keys"`
			Chords []struct {
				Bar                     int
				Pos                     float64
				RN, Root, Bass, Quality string
			}
		}
		if err := json.Unmarshal(b, &song); err != nil {
			t.Fatal(err)
		}
		for _, c := range song.Chords {
			k := ""
			for _, l := range song.Keys {
				if l.Bar < c.Bar || l.Bar == c.Bar && l.Pos <= c.Pos {
					k = l.Key
				}
			}
			if why := classical(c.RN); why != "" {
				left[why]++
				continue
			}
			got, numeral, err := ParseEither(c.RN, mustKey(t, k))
			if !numeral && err == nil {
				t.Errorf("%s is read as the letter symbol %s", c.RN, got)
				continue
			}
			if err != nil {
				t.Errorf("%s in %s: %v", c.RN, k, err)
				continue
			}
			if got.Root.PC() != mustName(t, c.Root).PC() || got.Bass.PC() != mustName(t, c.Bass).PC() {
				t.Errorf("%s in %s is %s, want %s over %s", c.RN, k, got, c.Root, c.Bass)
			}
			if !triads[c.Quality](got) && !strings.Contains(c.RN, "54") && !strings.Contains(c.RN, "[no") {
				t.Errorf("%s in %s is %s, which is not %s", c.RN, k, got, c.Quality)
			}
			checked++
		}
	}
	t.Logf("%d numerals alike; left out: %v", checked, left)
	if checked < 2500 {
		t.Errorf("%d numerals checked, want 2500 at least; left out: %v", checked, left)
	}
}

// triads are the qualities of the analyses, by the tones that a chord then has.
var triads = map[string]func(Chord) bool{
	"maj":  func(c Chord) bool { return over(c, 4, 7) },
	"min":  func(c Chord) bool { return over(c, 3, 7) },
	"dim":  func(c Chord) bool { return over(c, 3, 6) },
	"aug":  func(c Chord) bool { return over(c, 4, 8) },
	"aug6": func(c Chord) bool { return over(c, 4, 10) },
}

// over reports whether a chord has all these tones, in semitones above its root.
func over(c Chord, semitones ...int) bool {
	for _, s := range semitones {
		if c.PCSet()&(1<<mod12(c.Root.PC()+s)) == 0 {
			return false
		}
	}
	return true
}

// classical is the name of a notation in the analyses that plinth does not have or reads
// otherwise; "" for all others.
func classical(rn string) string {
	head, _, _ := strings.Cut(rn, "/")
	figure := strings.TrimLeft(head, "b#IViv")
	switch {
	case strings.HasSuffix(head, "6") && named[head].quality == "":
		return "a 6 is an added sixth"
	case head == "Ger7" || head == "Ger43":
		return "an augmented sixth with another bass"
	case head == "V43[b5]":
		return "an altered tone in the bass" // the analyses have the natural one
	case strings.HasSuffix(head, "[add4]") || strings.HasSuffix(head, "[no1]") || strings.HasSuffix(rn, "6/4"):
		return "a 6 is an added sixth"
	case figure == "2" || figure == "o2":
		return "a 2 is an added second"
	}
	return ""
}
