package serve

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
)

// changedPushed is pushed with other chords, and so other notes in every bar.
var changedPushed = strings.Replace(strings.Replace(pushed, "| F | G | C | Am |", "| Dm | Bb | Gm | A7 |", 1),
	"| C | Am | F | G |", "| Eb | Cm | Ab | Bb |", 1)

// A save may come at any moment: what is played is the old bed's bars up to a line and the new bed's from there
// on, no note twice and none lost, though pushed hits come before their bars. It is so where scheduled notes
// can be called back, and with MIDI, where they cannot.
func TestPageSwapsAtAnyMoment(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	saved(t, s, pushed, "old")
	call[int](w, "next", "old")
	saved(t, s, changedPushed, "new")
	call[int](w, "next", "new")
	w.file("turn.js")
	saved(t, s, strings.NewReplacer("  push \"2\" {}\n", "", "  push \"4\" {}\n", "", "  push \"3\" {}\n", "").
		Replace(changedPushed), "plain")
	call[int](w, "next", "plain")
	type wrong struct {
		At, Line   float64
		Lost, More []string
	}
	for _, beds := range [][2]int{{0, 1}, {0, 2}, {2, 0}} {
		for _, recalls := range []bool{true, false} {
			got := call[struct {
				Moments, Lines, Early int
				Wrong                 []wrong
			}](w, "everyMoment", recalls, 1_000_000, 9_000_000, 57_000, beds[0], beds[1])
			what := fmt.Sprintf("from bed %d to %d, recalls %v", beds[0], beds[1], recalls)
			t.Logf("%s: %d moments, %d lines, %d notes before them", what, got.Moments, got.Lines, got.Early)
			if got.Moments < 100 || got.Lines < 4 || got.Early < got.Moments {
				t.Errorf("%s: the moments say too little: %+v", what, got)
			}
			for _, x := range got.Wrong[:min(5, len(got.Wrong))] {
				t.Errorf("%s: saved at %.0f, line at %.0f: lost %v, too much %v", what, x.At, x.Line, x.Lost, x.More)
			}
		}
	}
}

const placed = `title = "Places"
tempo = 120
section "verse" {
  energy = 2
  chords = "%s"
}
section "chorus" {
  energy = 4
  chords = "%s"
}
section "bridge" {
  energy = 3
  chords = "| Ab | Eb |"
}
form {
%s}
`

type walk struct {
	Recalls bool     `json:"recalls"`
	Bed     int      `json:"bed"`
	Start   int      `json:"start"`
	Until   int      `json:"until"`
	Loop    []int    `json:"loop,omitempty"`
	At      [][]any  `json:"at"`
	want    []string // bars heard, bed section ordinal bar
	loop    []int    // at the end
}

// The place in the form is kept when a save brings other bars: what follows the bar that plays is what follows
// it in the new form. A bar is two seconds long.
func TestPageKeepsThePlace(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	verse, chorus := "| C | Am | F | G |", "| F | G | C | Am |"
	form := "  play \"verse\" {}\n  play \"chorus\" {}\n  play \"verse\" {}\n"
	for i, text := range []string{
		0: fmt.Sprintf(placed, verse, chorus, form),
		1: fmt.Sprintf(placed, "| Dm | Em | C | Am | F | G |", chorus, form), // two bars before all others
		2: fmt.Sprintf(placed, "| Dm | Em | C | Am | F | G |", "| F | G | C | Am | Dm |", form),
		3: fmt.Sprintf(placed, verse, chorus, "  play \"verse\" {}\n  play \"verse\" {}\n"),
		4: fmt.Sprintf(placed, "| C | Am |", chorus, form),
		5: fmt.Sprintf(placed, verse, chorus, "  play \"bridge\" {}\n"+form),
	} {
		// Each is a change of the first.
		if i > 2 {
			saved(t, s, fmt.Sprintf(placed, verse, chorus, form), "again")
			call[int](w, "next", "again")
		}
		saved(t, s, text, fmt.Sprint(i))
		if bed := call[int](w, "next", fmt.Sprint(i)); bed != i {
			t.Fatal(bed)
		}
	}
	w.file("turn.js")
	// A bed is decided on before it is heard: the loop is shown in the bars that are.
	if got := call[[]string](w, "loops", 5, 6); !slices.Equal(got, []string{"0 5 6", "1 7 8"}) {
		t.Errorf("loops: %q", got)
	}
	for name, x := range map[string]walk{
		"two bars more before it": {Start: 4, Until: 6_000_000, At: [][]any{{2_500_000, "offer", 1}},
			want: []string{"0 chorus 0 0", "0 chorus 0 1", "1 chorus 0 2"}},
		"over two saves": {Start: 4, Until: 8_500_000, At: [][]any{{2_500_000, "offer", 1}, {2_600_000, "offer", 2}},
			want: []string{"0 chorus 0 0", "0 chorus 0 1", "2 chorus 0 2", "2 chorus 0 3", "2 chorus 0 4"}},
		"its pass is gone": {Start: 4, Until: 6_000_000, At: [][]any{{500_000, "offer", 3}},
			want: []string{"0 chorus 0 0", "3 verse 1 0", "3 verse 1 1"}},
		"its bar is gone": {Start: 2, Until: 4_000_000, At: [][]any{{500_000, "offer", 4}},
			want: []string{"0 verse 0 2", "4 chorus 0 0"}},
		"a pass more before it": {Start: 3, Until: 4_000_000, At: [][]any{{500_000, "offer", 5}},
			want: []string{"0 verse 0 3", "5 chorus 0 0"}},
		"a loop of a pass follows all of it": {Start: 7, Until: 8_000_000, Loop: []int{4, 7},
			At: [][]any{{500_000, "offer", 1}, {600_000, "offer", 2}}, loop: []int{6, 10},
			want: []string{"0 chorus 0 3", "2 chorus 0 4", "2 chorus 0 0", "2 chorus 0 1"}},
		"a loop of bars follows its bars": {Start: 5, Until: 8_000_000, Loop: []int{5, 6},
			At: [][]any{{500_000, "offer", 1}}, loop: []int{7, 8},
			want: []string{"0 chorus 0 1", "1 chorus 0 2", "1 chorus 0 1", "1 chorus 0 2"}},
		"a loop that is gone": {Start: 5, Until: 6_000_000, Loop: []int{5, 6}, At: [][]any{{500_000, "offer", 3}},
			loop: []int{4, 7}, want: []string{"0 chorus 0 1", "3 verse 1 0", "3 verse 1 1"}},
		"a loop of a pass that is gone": {Start: 7, Until: 11_000_000, Loop: []int{4, 7},
			At: [][]any{{500_000, "offer", 3}}, loop: []int{4, 7}, want: []string{"0 chorus 0 3", "3 verse 1 0",
				"3 verse 1 1", "3 verse 1 2", "3 verse 1 3", "3 verse 1 0"}},
		"a loop elsewhere": {Start: 0, Until: 8_000_000, At: [][]any{{500_000, "loop", 5, 6}}, loop: []int{5, 6},
			want: []string{"0 verse 0 0", "0 chorus 0 1", "0 chorus 0 2", "0 chorus 0 1"}},
		"a loop called off": {Start: 1, Until: 8_000_000, Loop: []int{0, 1}, At: [][]any{{2_500_000, "loop", nil}},
			want: []string{"0 verse 0 1", "0 verse 0 0", "0 verse 0 1", "0 verse 0 2"}},
		"a loop elsewhere, and a save": {Start: 0, Until: 6_000_000, At: [][]any{{500_000, "loop", 5, 6},
			{600_000, "offer", 1}}, loop: []int{7, 8}, want: []string{"0 verse 0 0", "1 chorus 0 1", "1 chorus 0 2"}},
		"at once": {Start: 4, Until: 4_000_000, At: [][]any{{1_000_000, "offer", 1}, {1_100_000, "now"}},
			want: []string{"0 chorus 0 0", "1 chorus 0 0", "1 chorus 0 1"}},
		"in the last bar, which is the last no more": {Start: 11, Until: 3_500_000, At: [][]any{{500_000, "offer", 5}},
			want: []string{"0 verse 1 3"}},
	} {
		for _, recalls := range []bool{true, false} {
			x.Recalls = recalls
			got := call[struct {
				Seen []string
				Loop []int
			}](w, "walk", x)
			if !slices.Equal(got.Seen, x.want) || !slices.Equal(got.Loop, x.loop) {
				t.Errorf("%s (recalls %v): heard %q, loop %v; want %q, %v", name, recalls, got.Seen, got.Loop, x.want,
					x.loop)
			}
		}
	}
}

// Who takes a change back and tries another comes to a bed that was there before: a place is followed by the
// save that led there.
func TestPageKeepsThePlaceBackAndForth(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	form := "  play \"verse\" {}\n  play \"chorus\" {}\n"
	first := fmt.Sprintf(placed, "| C | Am |", "| F | G |", form)
	for i, text := range []string{first, fmt.Sprintf(placed, "| C | Am | F |", "| F | G |", form), first,
		fmt.Sprintf(placed, "| Dm | Em | C | Am |", "| F | G |", form), first} {
		saved(t, s, text, fmt.Sprint(i))
		call[int](w, "next", fmt.Sprint(i))
	}
	for _, x := range []struct {
		from, to int
		want     []int
	}{{1, 0, []int{0, 1, -1, 2, 3}}, {2, 0, []int{-1, -1, 0, 1, 2, 3}}, {0, 2, []int{2, 3, 4, 5}}} {
		got := eval[[]int](w, fmt.Sprintf("T.places.between(T.beds[%d], T.beds[%d])", x.from, x.to))
		if !slices.Equal(got, x.want) {
			t.Errorf("bars of bed %d are %v in bed %d, want %v", x.from, got, x.to, x.want)
		}
	}
}

// Faster and slower while it plays, the count-in, and the end.
func TestPagePaceCountInAndEnd(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	saved(t, s, pushed, "4/4")
	call[int](w, "next", "4/4")
	saved(t, s, "title = \"Seven\"\nmeter = \"7/8\"\ntempo = 120\nsection \"a\" {\n  energy = 2\n"+
		"  chords = \"| C | F | G | C |\"\n}\nform {\n  play \"a\" {}\n}\n", "7/8")
	call[int](w, "next", "7/8")
	w.file("turn.js")
	for _, pace := range []float64{0.5, 0.8, 1.5} {
		got := call[struct {
			Notes, Same     int
			On, Off, Pulses float64
		}](w, "paced", true, 4_321_000, pace)
		// Each change rounds to a microsecond.
		if got.Notes != got.Same || got.Notes < 100 || max(got.On, got.Off, got.Pulses) > 3 {
			t.Errorf("pace %v: %+v", pace, got)
		}
	}
	type counted struct {
		Clicks, Keys []int
		Early        int
	}
	quarter := 60_000.0 / 132
	four := call[counted](w, "counted", 3)
	for i, at := range four.Clicks {
		if want := -(4 - float64(i)) * quarter; math.Abs(float64(at)-want) > 1 {
			t.Errorf("click %d of four at %d ms, want %.0f", i, at, want)
		}
	}
	if !slices.Equal(four.Keys, []int{84, 72, 72, 72}) || four.Early == 0 {
		t.Errorf("count-in: %+v", four)
	}
	if own := call[counted](w, "counted", 0); !slices.Equal(own.Clicks, []int{0, 455, 909, 1364}) {
		t.Errorf("the song's own count-in: %+v", own)
	}
	// 7/8 at 120 quarters a minute has seven eighths of a quarter of a second, felt as the meter's beats are.
	seven := call[counted](w, "counted", 2, 1)
	if len(seven.Clicks) < 2 || seven.Clicks[0] != -1750 || seven.Keys[0] != 84 {
		t.Errorf("count-in of 7/8: %+v", seven)
	}
	end := call[struct {
		End, Stopped, Tail float64
		Notes, Own         int
	}](w, "ended")
	if end.Stopped < end.End+end.Tail || end.Stopped > end.End+end.Tail+50_000 || end.Notes != end.Own {
		t.Errorf("the end: %+v", end)
	}
}
