package touch_test

import (
	"testing"

	"plinth/groove/drummer"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/pianist"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// playing is the first pass of a song, ready to be played.
func playing(tl *timeline.Timeline, set *feel.Set) *touch.Playing {
	var play touch.Playing
	play.Prepare(plan.New(tl, &tl.Passes[0], set))
	return &play
}

// meanVelocity is the mean over the strokes of one key at some places in the bar, a
// whole pass at looseness 0.4.
func meanVelocity(notes []score.Note, velocities []uint8, key uint8, at func(tick int64) bool) float64 {
	sum, n := 0.0, 0.0
	for i, note := range notes {
		if note.Key == key && at(note.At%(4*quarter)) {
			sum += float64(velocities[i])
			n++
		}
	}
	return sum / max(1, n)
}

// Groove MIDI Dataset: in one performance the closed hat's off-beats are 0.75 as loud
// as its beats (median; 10 to 90 %: 0.32 to 1.62), ghosts are under 45, a rock
// backbeat has a median of 122; the bed's own comes to 110 and more at energy 5.
func TestTouchAgainstDrummers(t *testing.T) {
	set := groovetest.Set(func(f *feel.Feel) {
		for i := range f.Levels {
			f.Levels[i].Drums = groovetest.Rows("hat", "x-x-x-x-x-x-x-x-", "snare", "----X--g----X-g-",
				"kick", "x-------x-------")
		}
	})
	var backbeats []float64
	for energy := 1; energy <= 5; energy++ {
		tl := groovetest.Song(t, groovetest.Long(32, energy))
		tl.Looseness = 400
		p := playing(tl, set)
		var d drummer.Drummer
		d.Prepare(p.Plan)
		notes := d.Play(nil).Notes
		v := p.Dynamics(timeline.Drums, &d, notes)
		beat := func(tick int64) bool { return tick%quarter == 0 && tick > 0 }
		off := func(tick int64) bool { return tick%quarter == quarter/2 }
		ratio := meanVelocity(notes, v, 42, off) / meanVelocity(notes, v, 42, beat)
		if ratio < 0.70 || ratio > 0.85 {
			t.Errorf("energy %d: the hat's off-beats are %.2f as loud as its beats", energy, ratio)
		}
		backbeats = append(backbeats, meanVelocity(notes, v, 38, beat))
		for i, n := range notes {
			if n.Touch == feel.Ghost && v[i] >= 45 {
				t.Errorf("energy %d: a ghost at %d", energy, v[i])
			}
		}
	}
	t.Logf("backbeat by energy: %.0f", backbeats)
	for i := 1; i < len(backbeats); i++ {
		if backbeats[i] <= backbeats[i-1] {
			t.Errorf("energy %d is no louder than %d: %.0f, %.0f", i+1, i, backbeats[i], backbeats[i-1])
		}
	}
	if backbeats[4] < 110 || backbeats[4] > 122 {
		t.Errorf("the backbeat at energy 5 is %.0f", backbeats[4])
	}
}

func TestMovingEnergyGrowsBarByBar(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|C|C|C|C|C|C|C", Energy: 2, EnergyTo: 4})
	p := playing(tl, groovetest.Set(nil))
	lift := func(bar int) int { return p.Level(timeline.Piano, &pianist.Pianist{}, bar) }
	for bar := 1; bar < 8; bar++ {
		if lift(bar) <= lift(bar-1) {
			t.Errorf("bar %d is no louder than the bar before: %d, %d", bar+1, lift(bar), lift(bar-1))
		}
	}
	if lift(0) != plan.BandLift.At(2) || lift(7) != plan.BandLift.At(4) {
		t.Errorf("the ends are %d and %d, want those of energies 2 and 4", lift(0), lift(7))
	}
}

// Loud backbeats are struck by a hand, not copied: no more than a third of them
// have one velocity, and none is over the ceiling that accents need.
func TestLoudStrokesAreNotAllTheSame(t *testing.T) {
	const snare = 38 // General MIDI percussion map
	set := groovetest.Set(func(f *feel.Feel) {
		f.Levels[4].Drums = groovetest.Rows("snare", "----X-------X---")
	})
	tl := groovetest.Song(t, groovetest.Long(64, 5))
	tl.Looseness = 400
	count, n := map[uint8]int{}, 0
	for _, x := range drums(tl, set) {
		if x.Key == snare {
			count[x.Velocity]++
			n++
			if x.Velocity > touch.NormalCeiling {
				t.Errorf("%d is over %d", x.Velocity, touch.NormalCeiling)
			}
		}
	}
	for v, times := range count {
		if 3*times > n {
			t.Errorf("%d of %d backbeats are at %d", times, n, v)
		}
	}
	if n < 100 {
		t.Fatalf("only %d backbeats", n)
	}
}
