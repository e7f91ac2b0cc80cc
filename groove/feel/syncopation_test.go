package feel

import (
	"encoding/csv"
	"os"
	"reflect"
	"strconv"
	"testing"

	"plinth/songspec/meter"
)

// TestLHLAgainstTable: column LHL_per_note_bar_limited of
// testdata/reference/syncopation_examples.csv (its README row gives the source).
func TestLHLAgainstTable(t *testing.T) {
	f, err := os.Open("../../testdata/reference/syncopation_examples.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 24 || rows[0][3] != "LHL_per_note_bar_limited" {
		t.Fatalf("the table has %d rows and column 3 is %q; want 24 and LHL_per_note_bar_limited", len(rows),
			rows[0][3])
	}
	weights := Weights(meter.Common, 16)
	for _, r := range rows[1:] {
		on := make([]bool, 16)
		for i, c := range r[1] {
			on[i] = c == 'x'
		}
		want, err := strconv.Atoi(r[3])
		if err != nil {
			t.Fatal(err)
		}
		if got := LHL(on, weights); got != want {
			t.Errorf("%s %s: LHL %d, want %d", r[0], r[1], got, want)
		}
	}
}

func TestWeights(t *testing.T) {
	parse := func(s string) meter.Meter {
		m, err := meter.Parse(s)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	for _, c := range []struct {
		name   string
		meter  string
		grid   int
		want   []int
		reason string
	}{
		{"4/4 sixteenths", "4/4", 16, []int{0, -4, -3, -4, -2, -4, -3, -4, -1, -4, -3, -4, -2, -4, -3, -4},
			"the weights that the LHL column was computed with"},
		{"4/4 eighths", "4/4", 8, []int{0, -3, -2, -3, -1, -3, -2, -3},
			"every second step of the above, without its lowest level"},
		{"4/4 triplets", "4/4", 12, []int{0, -3, -3, -2, -3, -3, -1, -3, -3, -2, -3, -3},
			"halves miss the grid, so thirds"},
		{"12/8", "12/8", 12, []int{0, -3, -3, -2, -3, -3, -1, -3, -3, -2, -3, -3}, "four dotted beats, then eighths"},
		{"6/8", "6/8", 12, []int{0, -3, -2, -3, -2, -3, -1, -3, -2, -3, -2, -3},
			"two dotted beats, eighths, sixteenths"},
		{"3/4", "3/4", 6, []int{0, -2, -1, -2, -1, -2}, "no half bar in three"},
		{"2/4", "2/4", 8, []int{0, -3, -2, -3, -1, -3, -2, -3}, "the half bar is the beat"},
		{"5/4", "5/4", 10, []int{0, -2, -1, -2, -1, -2, -1, -2, -1, -2}, "five beats alike"},
		{"7/8", "7/8", 14, []int{0, -3, -2, -3, -1, -3, -2, -3, -1, -3, -2, -3, -2, -3},
			"customary groups 2+2+3, eighths, sixteenths"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Weights(parse(c.meter), c.grid); !reflect.DeepEqual(got, c.want) {
				t.Errorf("got %v\nwant %v (%s)", got, c.want, c.reason)
			}
		})
	}
}

// TestVoicesTable: every voice is in the General MIDI percussion range 35 to 81
// and no word stands twice.
func TestVoicesTable(t *testing.T) {
	seen := map[string]bool{}
	for _, v := range Voices() {
		if v.Key < 35 || v.Key > 81 {
			t.Errorf("%s: key %d is not in the General MIDI percussion map (35 to 81)", v.Word, v.Key)
		}
		if seen[v.Word] {
			t.Errorf("%s stands twice", v.Word)
		}
		seen[v.Word] = true
		if got, ok := VoiceNamed(v.Word); !ok || got != v {
			t.Errorf("VoiceNamed(%q) = %v, %v", v.Word, got, ok)
		}
	}
}

func TestClash(t *testing.T) {
	row := func(word, steps string) Row {
		v, ok := VoiceNamed(word)
		if !ok {
			t.Fatalf("no voice %s", word)
		}
		r := Row{Voice: v}
		for _, c := range steps {
			s := Stroke{}
			switch c {
			case 'x':
				s.Touch = Normal
			case '~':
				s.Touch = Sound
			case 'f':
				s = Stroke{Touch: Normal, Flam: true}
			}
			r.Steps = append(r.Steps, s)
		}
		return r
	}
	for _, c := range []struct {
		name  string
		rows  []Row
		clash bool
	}{
		{"hat and snare", []Row{row("hat", "x"), row("snare", "x")}, false},
		{"three hands", []Row{row("hat", "x"), row("snare", "x"), row("tambourine", "x")}, true},
		{"two feet beside two hands", []Row{row("ride", "x"), row("snare", "x"), row("kick", "x"),
			row("hat_foot", "x")}, false},
		{"flam takes both hands", []Row{row("hat", "x"), row("snare", "f")}, true},
		{"flam alone", []Row{row("snare", "f"), row("kick", "x")}, false},
		{"sweep keeps a hand", []Row{row("sweep", "~"), row("ride", "x"), row("tap", "x")}, true},
		{"open and closed hat", []Row{row("hat", "x"), row("hat_open", "x")}, true},
		{"stick and foot on the hat", []Row{row("hat", "x"), row("hat_foot", "x")}, true},
	} {
		if got := Clash(c.rows, 0); (got != "") != c.clash {
			t.Errorf("%s: %q, clash expected: %v", c.name, got, c.clash)
		}
	}
}
