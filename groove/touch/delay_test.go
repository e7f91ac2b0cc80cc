package touch_test

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/touch"
)

// Friberg and Sundström 2002 (abstract): the soloist's beats come after the ride
// and the off-beats together, so that the soloist's ratio is smaller.
func TestPianoSwingsLess(t *testing.T) {
	set := groovetest.Set(func(f *feel.Feel) {
		f.Swing = feel.Swing{Mode: "tempo", Unit: "eighth"}
		for i := range f.Levels {
			f.Levels[i].Drums = groovetest.Rows("ride", "x-x-x-x-x-x-x-x-")
		}
	})
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|C", Energy: 3, BPM: 120})
	tl.Looseness = 400
	p := playing(tl, set)
	on := p.Delay(0, 500_000)
	if on <= 0 || on > touch.MaxDelayUS {
		t.Errorf("on the beat the piano is %d microseconds late", on)
	}
	if off := p.Delay(480, 500_000); off != 0 {
		t.Errorf("on the off-beat the piano is %d microseconds late", off)
	}
	s := p.SwingIn(0)
	long := 500_000 * s.Long / s.Pair
	drums, piano := float64(long)/float64(500_000-long), float64(long-on)/float64(500_000-long+on)
	if piano >= drums || piano >= 2 {
		t.Errorf("at 120 bpm the drums swing %.2f and the piano %.2f; published: the soloist under 2, the drummer over",
			drums, piano)
	}
}
