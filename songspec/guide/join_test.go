package guide

import (
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// TestJoin: the files of one name are one singer, in the passes too, and others keep their own. In 4/4 at
// 480 a quarter a bar of the files has 1920 ticks, and one of the song 3840.
func TestJoin(t *testing.T) {
	bars := func(from, to int) (out [][3]int) { // a whole note a bar
		for bar := from; bar < to; bar++ {
			out = append(out, [3]int{60 + bar, 1920 * bar, 1920})
		}
		return out
	}
	for _, row := range []struct {
		name  string
		first [][3]int
		from  int // where the last file begins
		last  [][3]int
		doubt string
	}{
		{"one after the other", bars(0, 3), 5, bars(0, 3), ""},
		{"over a bar", bars(0, 4), 4, bars(0, 3), ""},
		{"over two bars", bars(0, 5), 4, bars(0, 4), `From bar 4 to bar 5 "verse.mid" and "chorus.mid" both sing`},
		{"in a gap of the other", append(bars(0, 2), bars(6, 8)...), 4, bars(0, 2), ""},
	} {
		tl := song(t, "C", 60, 0, verse, chorus)
		tl.Vocals = []timeline.Vocal{{Name: "Joss", Path: "verse.mid", From: 1},
			{Name: "Tom", Path: "tom.mid", From: 1},
			{Name: "joss", Path: "chorus.mid", From: row.from, Range: "C4 to C5", RangeLow: 60, RangeHigh: 72}}
		apply(t, tl, 0, file(0, line("Vocal", 0, row.first...)))
		apply(t, tl, 1, file(0, line("Vocal", 0, [3]int{50, 0, 480})))
		apply(t, tl, 2, file(0, line("Vocal", 0, row.last...)))
		stay, doubts := Join(tl)
		if fmt.Sprint(stay) != "[0 1]" || len(tl.Vocals) != 2 || len(tl.Vocals[0].Also) != 1 ||
			tl.Vocals[0].Also[0].Path != "chorus.mid" || tl.Vocals[0].RangeHigh != 72 {
			t.Fatalf("%s: %v stay: %+v", row.name, stay, tl.Vocals)
		}
		if n := len(tl.Vocals[0].Notes); n != len(row.first)+len(row.last) {
			t.Errorf("%s: %d notes", row.name, n)
		}
		for i, n := range tl.Vocals[0].Notes {
			if n.Singer != 0 || i > 0 && n.Tick < tl.Vocals[0].Notes[i-1].Tick {
				t.Errorf("%s: note %d is %+v", row.name, i, n)
			}
		}
		if a, b := Singers(tl, &tl.Passes[0]), Singers(tl, &tl.Passes[1]); strings.Join(a, " ") != "Joss Tom" ||
			strings.Join(b, " ") != "Joss" {
			t.Errorf("%s: %v and %v sing", row.name, a, b)
		}
		got := ""
		for _, p := range doubts[2] {
			got += p.Detail
		}
		if len(doubts[0])+len(doubts[1]) > 0 || got == "" != (row.doubt == "") || !strings.HasPrefix(got, row.doubt) {
			t.Errorf("%s: %v, want %q", row.name, doubts, row.doubt)
		}
	}
}
