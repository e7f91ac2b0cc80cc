package guide

import (
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// Two singers of one file are each laid on the song, and every pass has what both sing.
func TestPlaceDuet(t *testing.T) {
	tl := song(t, "C", 60, 0, verse)
	tl.Vocals = []timeline.Vocal{{Name: "Nell", Path: "duet.mid", Track: "High", From: 1},
		{Name: "Tom", Path: "duet.mid", Track: "Low", From: 1, Transpose: -12}}
	src := file(1, line("High", 0, [3]int{72, 0, 480}, [3]int{74, 960, 480}), line("Low", 1, [3]int{60, 480, 480}))
	for i := range tl.Vocals {
		if p := apply(t, tl, i, src); len(p) != 0 {
			t.Errorf("%s: %+v", tl.Vocals[i].Name, p)
		}
	}
	want := []timeline.SungNote{{Length: 960, Key: 72}, {Tick: 960, Length: 960, Key: 48, Singer: 1},
		{Tick: 1920, Length: 960, Key: 74}}
	for i, n := range tl.Passes[0].Sung {
		if len(tl.Passes[0].Sung) != 3 || n != want[i] {
			t.Fatalf("sung %+v, want %+v", tl.Passes[0].Sung, want)
		}
	}
	if who := Singers(tl, &tl.Passes[0]); strings.Join(who, " ") != "Nell Tom" {
		t.Errorf("%v sing", who)
	}
	// The same track for both, once by name and once as the likeliest.
	tl.Vocals[1].Track = ""
	if p := apply(t, tl, 1, file(0, line("High", 0, [3]int{72, 0, 480}))); len(p) != 1 ||
		p[0].Summary != "The same voice twice" {
		t.Errorf("the same track: %+v", p)
	}
}

// Faults of playing and exporting are told once, and not where the song file accepts them. Notes
// that cannot be are told all the same.
func TestRough(t *testing.T) {
	both := cat(meta(0, 3, "Vocal"), meta(0, 0x51, "\x07\xA1\x20"), ev(480, 0x90, 60, 9), ev(0, 0x90, 64, 9),
		ev(480, 0x90, 60, 0), ev(0, 0x90, 64, 0), ev(0, 0x80, 50, 0), ev(0, 0x90, 67, 9))
	for _, tt := range []struct {
		rough     bool
		transpose int
		want      string
	}{
		{false, 0, "Sloppy guide file, Two notes at once, The guide's tempo is not the song's"},
		{true, 0, ""},
		{true, 36, ""},
	} {
		tl := song(t, "C", 60, 0, verse)
		tl.Vocals[0].Rough, tl.Vocals[0].Transpose = tt.rough, tt.transpose
		var got []string
		for _, p := range apply(t, tl, 0, file(0, both)) {
			got = append(got, p.Summary)
		}
		if strings.Join(got, ", ") != tt.want {
			t.Errorf("rough %v: %q, want %q", tt.rough, got, tt.want)
		}
	}
	tl := song(t, "C", 60, 0, verse)
	tl.Vocals[0].Rough, tl.Vocals[0].Transpose = true, 36
	if p := apply(t, tl, 0, file(0, line("Vocal", 0, [3]int{100, 0, 480}, [3]int{60, 480, 480}))); len(p) != 1 ||
		!strings.Contains(p[0].Detail, "transpose = 36, 1 note of the guide would lie beyond") {
		t.Errorf("beyond MIDI: %+v", p)
	}
	// One note in eleven that is struck anew before it is let go is no fault.
	again := cat(ev(0, 0x90, 60, 9), ev(240, 0x90, 60, 9), ev(10, 0x80, 60, 0), ev(100, 0x80, 60, 0))
	for range 9 {
		again = cat(again, ev(100, 0x90, 62, 9), ev(100, 0x80, 62, 0))
	}
	if p := apply(t, song(t, "C", 60, 0, verse), 0, file(0, again)); len(p) != 0 {
		t.Errorf("a note struck anew: %+v", p)
	}
}
