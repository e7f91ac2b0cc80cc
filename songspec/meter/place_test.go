package meter

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// spoken writes moments as "bar: count" to compare.
func spoken(at []At, bars []Meter) string {
	var out []string
	for _, a := range at {
		out = append(out, fmt.Sprintf("%d:%s", a.Bar+1, bars[a.Bar].CountAt(a.Tick)))
	}
	return strings.Join(out, " ")
}

func bars(t *testing.T, s string) []Meter {
	t.Helper()
	var out []Meter
	for _, f := range strings.Split(s, ",") {
		m, err := Parse(strings.TrimSpace(f))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, m)
	}
	return out
}

func TestPlaces(t *testing.T) {
	four := "4/4, 4/4, 4/4, 4/4, 4/4, 4/4, 4/4, 4/4"
	for _, row := range []struct{ name, reason, place, bars, want string }{
		{"backbeat", "without bars it is every bar", "2 4", "4/4, 4/4", "1:2 1:4 2:2 2:4"},
		{"one bar", "a bar and its counts", "7: 1 2& 4", four, "7:1 7:2& 7:4"},
		{"two bars", "bars are parted by commas", "4, 8: 4&", four, "4:4& 8:4&"},
		{"range", "both ends belong to it", "2-4: 1", four, "2:1 3:1 4:1"},
		{"last", "the last bar by its word", "last: 3", four, "8:3"},
		{"range to last", "last is a number like others", "7-last: 1", four, "7:1 8:1"},
		{"sixteenths", "e and & and a", "1: 1 1e 1& 1a", "4/4", "1:1 1:1e 1:1& 1:1a"},
		{"triplets", "one-trip-let", "1: 2 2t 2l", "4/4", "1:2 1:2t 1:2l"},
		{"eighths of 12/8", "in compound meters the counts are the eighths", "1: 4 10 12", "12/8", "1:4 1:10 1:12"},
		{"sixteenth of 6/8", "& halves the eighth", "1: 4&", "6/8", "1:4&"},
		{"seven", "7/8 counts eighths too", "1: 5 7", "7/8 2+2+3", "1:5 1:7"},
		{"cut time", "2/2 counts halves", "1: 2&", "2/2", "1:2&"},
		{"odd bar in a range", "a count that the odd bar lacks is passed over", "1-3: 4", "4/4, 2/4, 4/4", "1:4 3:4"},
		{"odd bar in every bar", "likewise", "2 4", "4/4, 2/4", "1:2 1:4 2:2"},
		{"sorted", "whatever the order written", "2, 1: 4 2", "4/4, 4/4", "1:2 1:4 2:2 2:4"},
		{"no doubles", "a place named twice is one place", "1, 1-2: 2 2", "4/4, 4/4", "1:2 2:2"},
		{"blanks", "they do not matter", "  1 ,2 :  1   3 ", "4/4, 4/4", "1:1 1:3 2:1 2:3"},
		{"commas between counts", "as people write them", "2, 4", "4/4", "1:2 1:4"},
	} {
		t.Run(row.name, func(t *testing.T) {
			bs := bars(t, row.bars)
			p, err := ParsePlace(row.place)
			if err != nil {
				t.Fatal(err)
			}
			at, err := p.Where(bs, bs[0])
			if err != nil {
				t.Fatal(err)
			}
			if got := spoken(at, bs); got != row.want {
				t.Errorf("%s: got %s, want %s", row.reason, got, row.want)
			}
		})
	}
}

func TestCountTicks(t *testing.T) {
	// Common practice, no single source: 960 ticks a quarter, so an eighth is 480,
	// a sixteenth 240, a triplet eighth 320.
	for _, row := range []struct {
		count, meter, reason string
		want                 int64
	}{
		{"1", "4/4", "the bar line", 0},
		{"2", "4/4", "a quarter in", 960},
		{"2&", "4/4", "the eighth after it", 1440},
		{"3e", "4/4", "the sixteenth after it", 2160},
		{"4a", "4/4", "the last sixteenth", 3600},
		{"1t", "4/4", "the second of a triplet", 320},
		{"1l", "4/4", "the third of a triplet", 640},
		{"4", "12/8", "the second dotted quarter", 1440},
		{"12", "12/8", "the last eighth", 5280},
		{"4&", "6/8", "a sixteenth", 1680},
		{"2", "2/2", "a half in", 1920},
		{"7", "7/8", "the last eighth", 2880},
	} {
		p, err := ParsePlace(row.count)
		if err != nil {
			t.Fatal(err)
		}
		m := bars(t, row.meter)[0]
		got, ok := p.Counts[0].Tick(m)
		if !ok || got != row.want {
			t.Errorf("%s in %s (%s): got %d %v, want %d", row.count, row.meter, row.reason, got, ok, row.want)
		}
		if name := m.CountAt(got); name != row.count {
			t.Errorf("%s in %s is called %s", row.count, row.meter, name)
		}
	}
}

func TestEveryCountIsWhole(t *testing.T) {
	for _, den := range []int{1, 2, 4, 8, 16, 32} {
		unit := Meter{Num: 4, Den: den}.UnitTicks()
		for _, s := range subdivisions {
			if unit*s.num%s.den != 0 {
				t.Errorf("%c of 1/%d is no whole number of ticks", s.letter, den)
			}
		}
	}
}

func TestPlaceErrors(t *testing.T) {
	for _, row := range []struct{ name, place, bars, part, says string }{
		{"empty", "", "4/4", "", "empty place"},
		{"no counts", "4:", "4/4", "4:", "no count"},
		{"no bars", ": 1", "4/4", "", "bar number missing"},
		{"half missing", "1,: 1", "4/4", "", "bar number missing"},
		{"bar 0", "0: 1", "4/4", "0", "not a bar"},
		{"word", "frist: 1", "4/4", "frist", "not a bar"},
		{"leading zero", "04: 1", "4/4", "04", "not a bar"},
		{"backwards", "5-3: 1", "4/4", "5-3", "wrong way"},
		{"last first", "last-2: 1", "4/4, 4/4", "last-2", "wrong way"},
		{"bar outside", "1, 9: 1", "4/4, 4/4", "9", "bar 9 is outside"},
		{"range outside", "1-9: 1", "4/4, 4/4", "1-9", "bar 9 is outside"},
		{"count outside", "2 5", "4/4", "5", "no count 5 in bar 1"},
		{"count outside everywhere", "1-2: 5", "4/4, 4/4", "5", "no count 5"},
		{"count outside a named odd bar", "2: 4", "4/4, 2/4", "4", "no count 4 in bar 2, which is in 2/4"},
		{"count 0", "0", "4/4", "0", "not a count"},
		{"plus", "1 2+", "4/4", "2+", "not a count"},
		{"letters", "2x", "4/4", "2x", "not a count"},
		{"far too large", "99999999999999999999", "4/4", "99999999999999999999", "not a count"},
		{"range for a count", "1-2", "4/4", "1-2", "not a count"},
	} {
		t.Run(row.name, func(t *testing.T) {
			bs := bars(t, row.bars)
			p, err := ParsePlace(row.place)
			if err == nil {
				_, err = p.Where(bs, bs[0])
			}
			var pe *PlaceError
			if !errors.As(err, &pe) {
				t.Fatalf("got %v", err)
			}
			if !strings.Contains(pe.Msg, row.says) || row.place[pe.Off:pe.End] != row.part || pe.Help == "" {
				t.Errorf("got %q at %q (%s)", pe.Msg, row.place[pe.Off:pe.End], pe.Help)
			}
		})
	}
}

// What bars are called elsewhere is written as it stands here, and can be read then.
func TestLikeBars(t *testing.T) {
	for _, row := range []struct {
		text, open, closed string
	}{
		{"5 to 8", "5-8", "5-8"},
		{"5..8", "5-8", "5-8"},
		{"5–8", "5-8", "5-8"},
		{"bars 5 - 8", "5 - 8", "5 - 8"},
		{"m. 4", "4", "4"},
		{"-4", "1-4", "1-4"},
		{"first", "1", "1"},
		{"7 to end", "7-last", "7-last"},
		{"3 and 7", "3, 7", "3, 7"},
		{"all", "1-last", "1-last"},
		{"7--", "7-", "7-last"},
		{"5 8", "", ""}, // two bars, or four?
		{"verse", "", ""},
	} {
		open, closed := likeBars(row.text, true), likeBars(row.text, false)
		if open != row.open || closed != row.closed {
			t.Errorf("%q is like %q and %q, want %q and %q", row.text, open, closed, row.open, row.closed)
		}
	}
}

func TestRitBars(t *testing.T) {
	for _, row := range []struct {
		place string
		want  string
	}{
		{"7-8", "[[6 7]]"},
		{"last", "[[7 7]]"},
		{"7-last", "[[6 7]]"},
		{"8, 2-3", "[[1 2] [7 7]]"},
	} {
		p, err := ParseBars(row.place)
		if err != nil {
			t.Fatal(err)
		}
		runs, err := p.Runs(8)
		if got := fmt.Sprint(runs); err != nil || got != row.want {
			t.Errorf("%s: got %s %v, want %s", row.place, got, err, row.want)
		}
	}
	for _, bad := range []string{"", "1: 2", "x", "9"} {
		p, err := ParseBars(bad)
		if err == nil {
			_, err = p.Runs(8)
		}
		if err == nil {
			t.Errorf("%q was taken", bad)
		}
	}
}

func FuzzPlace(f *testing.F) {
	for _, s := range []string{"2 4", "4, 8: 4&", "5-8: 1t 1l", "last: 3", "7: 1 2& 4", "1-last: 12", "", ":", "1,:",
		"9: 9", "04", "2+", "-", "last-last: 1e"} {
		f.Add(s, 4, 4, 3)
		f.Add(s, 12, 8, 8)
	}
	f.Fuzz(func(t *testing.T, s string, num, den, n int) {
		m, err := Parse(fmt.Sprintf("%d/%d", num, den))
		if err != nil || n < 1 || n > 40 {
			t.Skip()
		}
		bs := make([]Meter, n)
		for i := range bs {
			bs[i] = m
		}
		p, err := ParsePlace(s)
		var at []At
		if err == nil {
			at, err = p.Where(bs, m)
		}
		if err != nil {
			var pe *PlaceError
			if !errors.As(err, &pe) || pe.Off < 0 || pe.Off > pe.End || pe.End > len(s) || pe.Msg == "" ||
				pe.Help == "" {
				t.Fatalf("%q: %#v", s, err)
			}
			return
		}
		if len(at) == 0 {
			t.Fatalf("%q stands nowhere", s)
		}
		for i, a := range at {
			if a.Bar < 0 || a.Bar >= n || a.Tick < 0 || a.Tick >= m.BarTicks() {
				t.Fatalf("%q: outside: %v", s, a)
			}
			if i > 0 && (at[i-1].Bar > a.Bar || at[i-1].Bar == a.Bar && at[i-1].Tick >= a.Tick) {
				t.Fatalf("%q: not in order: %v", s, at)
			}
			c, err := ParsePlace(m.CountAt(a.Tick))
			if err != nil {
				t.Fatal(err)
			}
			if tick, ok := c.Counts[0].Tick(m); !ok || tick != a.Tick {
				t.Fatalf("%q: %s is not %d", s, m.CountAt(a.Tick), a.Tick)
			}
		}
	})
}

// FuzzRanges: bars that can be read are in the section, or are refused.
func FuzzRanges(f *testing.F) {
	for _, s := range []string{"5-8", "5-", "last", "3, 7-8", "1-4, 7-", "1-last", "2-last, 3-", "0-", "-", "1-,2",
		"8-5"} {
		f.Add(s, 8)
		f.Add(s, 1)
	}
	f.Fuzz(func(t *testing.T, s string, bars int) {
		p, err := ParseRanges(s)
		if err != nil || bars < 1 || bars > 1000 {
			return
		}
		runs, err := p.Runs(bars)
		if err == nil && len(runs) != len(p.Bars) {
			t.Fatalf("%q has %d ranges in %d", s, len(runs), len(p.Bars))
		}
		for _, run := range runs {
			if err == nil && (run[0] < 0 || run[1] < run[0] || run[1] >= bars) {
				t.Fatalf("%q of %d bars: %v", s, bars, runs)
			}
		}
	})
}
