package timeline

import "testing"

// A message names a bar by both of its numbers, as the file and as the section have it.
func TestBarWords(t *testing.T) {
	p := Pass{Section: "chorus", Ordinal: 1, FirstBar: 41, Bars: make([]Bar, 8)}
	for _, row := range []struct {
		first, ordinal, bar, number int
		at, want                    string
	}{
		{41, 1, 7, 0, "", `bar 48, bar 8 of "chorus" (2)`},
		{41, 0, 7, 0, " count 1", `bar 48 count 1, bar 8 of "chorus"`},
		{1, 0, 7, 0, " count 2&", `bar 8 count 2& of "chorus"`},
		{41, 1, 3, 7, "", `bar 44, bar 7 of "chorus" (2)`}, // played from the middle of the section
	} {
		p.FirstBar, p.Ordinal, p.Bars[row.bar].Number = row.first, row.ordinal, row.number
		if got := p.BarWords(row.bar, row.at); got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}
