package groove

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

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
	set := testSet(func(f *feel.Feel) {
		for i := range f.Levels {
			f.Levels[i].Drums = rows("hat", "x-x-x-x-x-x-x-x-", "snare", "----X--g----X-g-", "kick", "x-------x-------")
		}
	})
	var backbeats []float64
	for energy := 1; energy <= 5; energy++ {
		tl := song(t, long(32, energy))
		tl.Looseness = 400
		p := NewPlan(tl, &tl.Passes[0], set)
		notes := p.drums()
		v := p.dynamics(timeline.Drums, notes)
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
	tl := song(t, section{name: "a", chords: "C|C|C|C|C|C|C|C", energy: 2, energyTo: 4})
	p := NewPlan(tl, &tl.Passes[0], testSet(nil))
	for bar := 1; bar < 8; bar++ {
		if p.lift(kindPiano, bar) <= p.lift(kindPiano, bar-1) {
			t.Errorf("bar %d is no louder than the bar before: %d, %d", bar+1, p.lift(kindPiano, bar), p.lift(kindPiano, bar-1))
		}
	}
	if p.lift(kindPiano, 0) != bandLift.At(2) || p.lift(kindPiano, 7) != bandLift.At(4) {
		t.Errorf("the ends are %d and %d, want those of energies 2 and 4", p.lift(kindPiano, 0), p.lift(kindPiano, 7))
	}
}

func TestFillSwells(t *testing.T) {
	// Groove MIDI Dataset, 519 fills: the last third is 18 louder than the first.
	var notes []score.Note
	tl := song(t, long(4, 5))
	p := NewPlan(tl, &tl.Passes[0], testSet(nil))
	for i := int64(0); i < 16; i++ {
		n := stroke(snareVoice, i*strokeTicks, (i+1)*strokeTicks, feel.Normal)
		n.Group = 1
		notes = append(notes, n)
	}
	swell := p.fillSwells(notes)
	if swell[0] != -9 || swell[15] != 9 {
		t.Errorf("from %d to %d", swell[0], swell[15])
	}
}

func TestAnswers(t *testing.T) {
	tl := song(t, long(12, 3))
	p := NewPlan(tl, &tl.Passes[0], testSet(nil))
	for _, row := range []struct {
		name    string
		pattern int
	}{{"a bar", 1}, {"two bars", 2}, {"four bars", 4}} {
		for take := 1; take <= 10; take++ {
			tl.Take = take
			n := 0
			for bar := 0; bar < 8; bar++ {
				if p.answers(bar, row.pattern) {
					n++
					if bar < 4 {
						t.Errorf("pattern of %s: bar %d of the first half answers", row.name, bar+1)
					}
				}
			}
			if n != 2 && n != 4 || n%row.pattern != 0 {
				t.Errorf("pattern of %s, take %d: %d bars of eight answer", row.name, take, n)
			}
			if p.answers(8, row.pattern) || p.answers(9, row.pattern) {
				t.Errorf("pattern of %s: the first half of the last four bars answers", row.name)
			}
		}
	}
}

// A fill is no louder than what it leads to: its hands stay within a few units of the
// backbeat of the section that follows, in every feel, into 4 and into 5. Common
// practice, no single source.
func TestFillIsNoLouderThanTheChorus(t *testing.T) {
	const over = 8 // the backbeat strays, too
	set := library.Builtin()
	fills := 0
	for _, name := range []string{"ballad-eighths", "ballad-sixteenths", "slow-twelve", "gospel-six", "backbeat-eighths", "half-time", "waltz"} {
		f := set.Feels[name]
		for _, row := range [][2]int{{3, 4}, {4, 4}, {4, 5}, {5, 5}} {
			for take := 1; take <= 6; take++ {
				tl := song(t, section{name: "a", chords: "C|F", energy: row[0], feel: name, meter: f.Meters[0], bpm: f.TempoLow},
					section{name: "b", chords: "C|F|G|C", energy: row[1], feel: name, meter: f.Meters[0], bpm: f.TempoLow})
				tl.Take = take
				join(tl)
				p := NewPlan(tl, &tl.Passes[0], set)
				var fill uint8
				for _, s := range p.drumFills() {
					for _, n := range within(drumsOf(tl, 0, set), s.Start, s.End) {
						if limbOfKey(n.Key) == feel.Hand {
							fill = max(fill, n.Velocity)
						}
					}
					fills++
				}
				if backbeat := loudest(drumsOf(tl, 1, set), snareVoice.Key); fill > backbeat+over {
					t.Errorf("%s, %d to %d, take %d: a fill of %d into a backbeat of %d", name, row[0], row[1], take, fill, backbeat)
				}
			}
		}
	}
	if fills < 100 {
		t.Fatalf("only %d fills", fills)
	}
}
