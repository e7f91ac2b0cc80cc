package serve

import (
	"strings"
	"testing"
)

// pushed is a song with hits that are pushed over bar lines.
const pushed = `title = "Over the line"
tempo = 132
count_in = 1
section "verse" {
  energy = 3
  chords = "| C | Am | F | G |"
  push "2" {}
  push "4" {}
}
section "chorus" {
  energy = 4
  chords = "| F | G | C | Am |"
  push "3" {}
}
form {
  play "verse" {}
  play "chorus" {}
  play "verse" {}
}
`

type difference struct{ Before, After, Peak float64 }

type swapped struct {
	Bar, Missing       int
	Line, Start, First float64
	Joined, Alone      difference
}

// What is heard over a swap is, to the sample, the old bed's bars up to a bar line and the new bed's from there
// on, as if both were put together and rendered in one piece: though the page has the old ones scheduled
// already. The same scheduler and outlet play as in the page; the clock is an offline context's.
func TestPageSwapsToTheSample(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	saved(t, s, pushed, "old")
	call[int](w, "next", "old")
	saved(t, s, strings.Replace(strings.Replace(pushed, "| F | G | C | Am |", "| Dm | Bb | Gm | A7 |", 1),
		"| C | Am | F | G |", "| Eb | Cm | Ab | Bb |", 1), "new")
	call[int](w, "next", "new")
	w.file("swap.js")
	// 32-bit floats of up to some thirty voices are added in another order.
	const rounding = 2e-7
	for _, at := range []int{2_400_000, 3_600_000, 5_290_000, 5_450_000, 7_000_000} {
		got := call[swapped](w, "swapAt", at, 12)
		t.Logf("saved at %.2f s: bar %d from %.3f s, %.1g and %.1g off", float64(at)/1e6, got.Bar, got.Line/1e6,
			got.Joined.Before, got.Joined.After)
		if got.Missing > 0 || got.Joined.Before > rounding || got.Joined.After > rounding || got.Joined.Peak < 0.1 {
			t.Errorf("saved at %d: not both beds put together at bar %d: %+v", at, got.Bar, got)
		}
		if got.Alone.Before > rounding || got.Alone.After < 0.05 {
			t.Errorf("saved at %d: the first bed is not heard up to the line and the second from there on: %+v", at,
				got)
		}
		if wait := got.Line - float64(at); wait < 0 || wait > 2*4*60e6/132+50_000 {
			t.Errorf("saved at %d: the new bed comes at %.0f", at, got.Line)
		}
	}
}
