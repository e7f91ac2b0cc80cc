package library

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plinth/groove/feel"
)

// TestKitInvariants holds the kit of level 3 to testdata/reference/drum_feels.csv,
// which names a source for each row. Rules:
//
//	only    the voices play these steps and no others
//	has     they play at least these
//	none    they do not play
//	louder  each of these steps is louder than every other step of the row
//	soft    nothing is louder than soft
//	dense   at least so many strokes a bar
//
// Steps are counted over the row as long as it is in the groove; where the
// table's go over one bar, they hold in each bar.
func TestKitInvariants(t *testing.T) {
	f, err := os.Open("../../testdata/reference/drum_feels.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, r := range rows[1:] {
		name, rule := r[1], r[3]
		seen[r[0]] = true
		t.Run(name+"/"+strings.ReplaceAll(r[2], " ", "+")+"/"+rule, func(t *testing.T) {
			fl := Builtin().Feels[name]
			if fl == nil {
				t.Fatalf("no groove %s", name)
			}
			touch := rowOf(&fl.Levels[2], strings.Fields(r[2]))
			var want []int
			for _, s := range strings.Fields(r[4]) {
				n, err := strconv.Atoi(s)
				if err != nil {
					t.Fatal(err)
				}
				want = append(want, n)
			}
			span := fl.Grid
			if len(want) > 0 && rule != "dense" && want[len(want)-1] >= fl.Grid {
				span = 2 * fl.Grid
			}
			for from := 0; from < len(touch); from += span {
				holdRule(t, rule, touch[from:from+span], want, r[5])
			}
		})
	}
	// The table of handbook feels that the library can be held to is whole.
	if len(seen) != 20 {
		t.Errorf("the table has %d handbook feels, want 20", len(seen))
	}
}

// rowOf is the loudest touch of the voices at each step.
func rowOf(lv *feel.Level, voices []string) []feel.Touch {
	out := make([]feel.Touch, len(lv.Bass))
	for _, r := range lv.Drums {
		if !slices.Contains(voices, r.Voice.Word) {
			continue
		}
		for i, s := range r.Steps {
			if s.Touch > feel.Sound {
				out[i] = max(out[i], s.Touch)
			}
		}
	}
	return out
}

func holdRule(t *testing.T, rule string, row []feel.Touch, want []int, source string) {
	t.Helper()
	in := map[int]bool{}
	for _, w := range want {
		in[w] = true
	}
	strokes := 0
	for i, touch := range row {
		on := touch != feel.Rest
		if on {
			strokes++
		}
		bad := false
		switch rule {
		case "only":
			bad = on != in[i]
		case "has":
			bad = in[i] && !on
		case "none":
			bad = on
		case "soft":
			bad = touch > feel.Soft
		case "louder":
			for j, other := range row {
				bad = bad || (in[i] && !in[j] && other >= touch)
			}
		case "dense":
		default:
			t.Fatalf("unknown rule %q", rule)
		}
		if bad {
			t.Errorf("step %d breaks the rule %q %v (%s)", i, rule, want, source)
		}
	}
	if rule == "dense" && strokes < want[0] {
		t.Errorf("%d strokes, want %d (%s)", strokes, want[0], source)
	}
}
