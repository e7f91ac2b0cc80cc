package pianist

import (
	"strings"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/score"
)

// Where the chord goes on, the left hand strikes its note again one time of three, and below
// energy 5 one first beat of three is not struck. No take has more strikes than another.
func TestHandsHoldOn(t *testing.T) {
	const figure = "c===3===c===3===/1=======1======="
	strikes := map[int]bool{}
	for take := 1; take <= 12; take++ {
		p := groovetest.PlanOf(groovetest.PassOf(t, strings.Repeat("C|", 11)+"C", 4), groovetest.CompFeel(figure))
		p.Song.Take = take
		left, ones, all := 0, 0, map[int64]bool{}
		for _, n := range comp(p) {
			if n.Voice == score.Left {
				left++
			}
			all[n.At] = true
		}
		for at := range all {
			if at%bar44 == 0 {
				ones++
			}
		}
		if left < 7 || left > 10 || ones < 8 || ones > 12 {
			t.Errorf("take %d: in 12 bars of one chord the left hand strikes %d times, and %d first beats are struck",
				take, left, ones)
		}
		strikes[len(all)] = true
	}
	if len(strikes) > 3 {
		t.Errorf("the takes have so many numbers of strikes: %v", strikes)
	}
	pass := groovetest.PassOf(t, strings.Repeat("C|F|", 4)+"G", 4)
	notes := comp(groovetest.PlanOf(pass, groovetest.CompFeel(figure)))
	for bar := range int64(9) {
		if len(soundingAt(notes, bar*bar44)) < 3 {
			t.Errorf("bar %d: the new chord is not struck", bar+1)
		}
	}
}

// One held note of four is let go early, and keeps its written length; hits, pushes and what
// rings are not.
func TestHandsLetGo(t *testing.T) {
	p := groovetest.PlanOf(groovetest.PassOf(t, strings.Repeat("C|F|", 16)+"G", 4),
		groovetest.CompFeel("c=======c======="))
	early, all := 0, 0
	for _, n := range played(p) {
		all++
		switch {
		case n.Value == 0, n.Value == n.Held:
		case n.Value-n.Held != quarter/4:
			t.Errorf("%+v is let go %d ticks early", n, n.Value-n.Held)
		default:
			early++
		}
	}
	if early*6 < all || early*3 > all {
		t.Errorf("%d of %d notes are let go early", early, all)
	}
}
