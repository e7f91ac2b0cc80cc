package meter

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// A stretch begins at its first count and ends with the felt beat of its last one.
func TestStretches(t *testing.T) {
	four := bars(t, "4/4, 4/4, 4/4")
	for _, row := range []struct {
		place string
		in    []Meter
		want  string
	}{
		{"2-3", four, "[{{1 0} {2 3840}}]"},
		{"last, 1", four, "[{{0 0} {0 3840}} {{2 0} {2 3840}}]"},
		{"1: 3 - 2: 4", four, "[{{0 1920} {1 3840}}]"},
		{"1:3-2:4", four, "[{{0 1920} {1 3840}}]"},
		{" 2: 1  -  2: 2& ", four, "[{{1 0} {1 1920}}]"}, // 2& lies in the second beat
		{"1: 4& - last: 1", four, "[{{0 3360} {2 960}}]"},
		{"3: 4 - 3: 4", four, "[{{2 2880} {2 3840}}]"},
		{"1: 4 - 2: 7", bars(t, "6/8, 12/8"), "[{{0 1440} {1 4320}}]"}, // a count of 12/8 is an eighth, a beat three
		{"1: 2 - 2: 1", bars(t, "2/2, 2/2"), "[{{0 1920} {1 1920}}]"},
		{"1: 1 - 1: 4", bars(t, "7/8"), "[{{0 0} {0 1920}}]"}, // 2+2+3
	} {
		p, err := ParseStretch(row.place)
		if err != nil {
			t.Fatal(err)
		}
		got, err := p.Stretches(row.in)
		if err != nil || fmt.Sprint(got) != row.want {
			t.Errorf("%q: %v %v, want %s", row.place, got, err, row.want)
		}
	}
}

// What is no stretch is refused where it is wrong, with the words to write.
func TestStretchMistakes(t *testing.T) {
	const form = `From one count to another is written "7: 3 - 8: 4", each with its bar; whole bars are "7-8".`
	for _, row := range []struct{ place, at, says string }{
		{"2: 1", "2: 1", form},
		{"1-2: 3", "1", form},
		{"7: 3 4", "7: 3 4", form},
		{"1: 3 4 - 2: 1", "1: 3 4", form},
		{"1: 3 - 2-3: 1", "2-3: 1", form},
		{"1: 3 - 4", "4",
			`Each count has its bar: "1: 3 - 1: 4" ends with count 4 of that bar, "1: 3 - 4: 1" with bar 4.`},
		{"2: 3 - 2", "2", `Each count has its bar: "2: 3 - 2: 2".`},
		{"1: 3 - 8", "8", `Each count has its bar. If bar 8 is meant, write "1: 3 - 8: 1".`},
		{"1: 3 to 2: 1", "1: 3 to 2: 1", `Write "1: 3 - 2: 1".`},
		{"1: 3, 2: 1", "1: 3, 2: 1", `Write "1: 3 - 2: 1".`},
		{"1: 3 -- 2: 1", "1: 3 -- 2: 1", `Write "1: 3 - 2: 1".`},
		{"1.3 - 2.1&", "1.3 - 2.1&", `Write "1: 3 - 2: 1&".`},
		{"1-", "1-", `Write "1-last".`},
		{"1: 3 – 2: 1", "–", `The dash is the plain hyphen: "1: 3 - 2: 1".`},
		{"2: 1 - 1: 3", "2: 1 - 1: 3", `What comes first stands first: "1: 3 - 2: 1".`},
		{"1: 3 - 2: 5", "5", "The counts of 4/4 are 1 to 4"},
		{"1: 3 - 9: 1", "9", "The section has 2 bars"},
		{"1: x - 2: 1", "x", "Counts are spoken ones"},
		{"1: 3 - 2: 1 - 2: 4", "2: 1 - 2: 4", form},
		{":-:", "", "In front of the colon stands the bar"},
	} {
		p, err := ParseStretch(row.place)
		if err == nil {
			_, err = p.Stretches([]Meter{Common, Common})
		}
		var pe *PlaceError
		if !errors.As(err, &pe) {
			t.Errorf("%q: %v", row.place, err)
			continue
		}
		if at := row.place[pe.Off:pe.End]; at != row.at || !strings.HasPrefix(pe.Help, row.says) {
			t.Errorf("%q: %s at %q: %s", row.place, pe.Msg, at, pe.Help)
		}
	}
}

// FuzzStretch: what is read lies in its bars and goes forward.
func FuzzStretch(f *testing.F) {
	for _, s := range []string{"7-8", "last", "1: 3 - 2: 4", "1:3-2:4", "1: 4& - last: 1", "-", ":-:", "1: 3 – 2: 1",
		"last: 1 - last: 1", "1: 3 - 4", "2: 1"} {
		f.Add(s, 4, 4, 3)
		f.Add(s, 12, 8, 8)
	}
	f.Fuzz(func(t *testing.T, s string, num, den, n int) {
		m := Meter{Num: num, Den: den}
		if _, err := Parse(m.String()); err != nil || n < 1 || n > 100 {
			t.Skip()
		}
		p, err := ParseStretch(s)
		var pe *PlaceError
		if err != nil {
			if !errors.As(err, &pe) || pe.Off < 0 || pe.Off > pe.End || pe.End > len(s) {
				t.Fatalf("%q: %v", s, err)
			}
			return
		}
		in := make([]Meter, n)
		for i := range in {
			in[i] = m
		}
		stretches, err := p.Stretches(in)
		if err != nil && (!errors.As(err, &pe) || pe.Off < 0 || pe.Off > pe.End || pe.End > len(s)) {
			t.Fatalf("%q: %v", s, err)
		}
		for _, x := range stretches {
			if compareAt(x.From, x.To) >= 0 || x.To.Bar >= n || x.To.Tick > m.BarTicks() || x.From.Tick < 0 {
				t.Fatalf("%q: %v", s, x)
			}
		}
	})
}
