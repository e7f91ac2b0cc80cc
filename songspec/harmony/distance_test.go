package harmony

import (
	"strconv"
	"testing"
)

func up(pcs []int, by int) []int {
	out := make([]int, len(pcs))
	for i, p := range pcs {
		out[i] = p + by
	}
	return out
}

// Source: voice_leading_min.csv, by exhaustive search in the taxicab metric of
// Tymoczko 2006. Both minima of all pairs.
func TestDistance(t *testing.T) {
	rows := table(t, "voice_leading_min.csv", 1404)
	for _, r := range rows {
		from, to, by := tablePCs(t, r["from_quality(root 0)"]), tablePCs(t, r["to_quality"]), atoi(t, r["to_root_up_semitones"])
		b := up(to, by)
		if got, want := Distance(from, b), atoi(t, r["min_total_any_doubling"]); got != want || Distance(b, from) != want {
			t.Errorf("%s to %s up %d: %d, back %d, want %d", r["from_quality(root 0)"], r["to_quality"], by, got, Distance(b, from), want)
		}
		if got, ok := DistanceOneToOne(from, b); !ok || got != atoi(t, r["min_total_bijective"]) {
			t.Errorf("%s to %s up %d one to one: %d, want %s", r["from_quality(root 0)"], r["to_quality"], by, got, r["min_total_bijective"])
		}
	}
	if len(rows) != 1404 {
		t.Errorf("%d rows checked, want 1404", len(rows))
	}
}

// Source: voice_leading_min_3to4.csv, computed likewise.
func TestDistanceThreeToFour(t *testing.T) {
	rows := table(t, "voice_leading_min_3to4.csv", 648)
	for _, r := range rows {
		a, b := tablePCs(t, r["triad(root 0)"]), tablePCs(t, r["seventh"])
		b = up(b, atoi(t, r["seventh_root_up_semitones"]))
		want := atoi(t, r["min_total_any_doubling"])
		if got := Distance(a, b); got != want || Distance(b, a) != want {
			t.Errorf("%v to %v: %d, back %d, want %d", a, b, got, Distance(b, a), want)
		}
		// With one tone of the triad doubled, the bijection of four to four.
		if atoi(t, r["min_total_one_triad_note_doubled"]) < want {
			t.Errorf("%v to %v: the table's minima are in disorder", a, b)
		}
		if _, ok := DistanceOneToOne(a, b); ok {
			t.Errorf("%v to %v: three notes cannot go one to one to four", a, b)
		}
	}
	if len(rows) != 648 {
		t.Errorf("%d rows checked, want 648", len(rows))
	}
}

// Published anchors beside the tables.
func TestDistanceAnchors(t *testing.T) {
	for _, r := range []struct {
		name, a, b string
		want       int
	}{
		{"C to F (musicMCT documentation)", "C", "F", 3},
		{"Cmaj7 to Emaj7 with doubling (Tymoczko 2006, supplement, fig. S12)", "Cmaj7", "Emaj7", 3},
		{"Cm7 to F7 (table)", "Cm7", "F7", 3},
		{"parallel (Cohn, from memory)", "C", "Cm", 1},
		{"leading-tone exchange (Cohn, from memory)", "C", "Em", 1},
		{"relative (Cohn, from memory)", "C", "Am", 2},
		{"hexatonic pole (Cohn, from memory)", "C", "Abm", 3},
		{"half-diminished to dominant (Tristan, from memory)", "Fm7b5", "E7", 2},
		{"nothing moves", "C6", "Am7", 0},
	} {
		t.Run(r.name, func(t *testing.T) {
			if got := Distance(mustChord(t, r.a).PCs(), mustChord(t, r.b).PCs()); got != r.want {
				t.Errorf("%s to %s: %d, want %d", r.a, r.b, got, r.want)
			}
		})
	}
	if Distance(nil, []int{0}) != 0 || Distance([]int{0, 12, -12}, []int{6}) != 6 {
		t.Error("an empty set is no motion, octaves are one pitch class")
	}
	all := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}
	if Distance(all, all) != 0 {
		t.Error("twelve notes to themselves is no motion")
	}
}

// tablePCs are the pitch classes of the table's quality names.
func tablePCs(t *testing.T, quality string) []int {
	suffix, ok := map[string]string{"maj": "", "min": "m"}[quality]
	if !ok {
		suffix = quality
	}
	return mustChord(t, "C"+suffix).PCs()
}

func atoi(t *testing.T, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}
