package groove

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec/timeline"
)

// How hard the drummer strikes what the form asks for: common practice, no single
// source.

// loudest is the highest velocity of a key among notes, 0 when it is not there.
func loudest(notes []Note, key uint8) uint8 {
	var out uint8
	for _, n := range notes {
		if n.Key == key {
			out = max(out, n.Velocity)
		}
	}
	return out
}

// Brushes wash over the crash: it opens a section, answers a push and ends the song
// hardly louder than the ride is brushed, and no kick thumps under it. A kit of brushes
// that the song file asks for is the same as the feel's own.
func TestBrushesWashTheCrash(t *testing.T) {
	const most = 8 // velocities over the loudest stroke of the time
	for _, kit := range []string{"", "brushes"} {
		name := "brushes-ballad"
		if kit != "" {
			name = "waltz"
		}
		set := library.Builtin()
		for energy := 4; energy <= 5; energy++ {
			f := set.Feels[name]
			tl := song(t, section{name: "a", chords: "C|F", energy: 2, feel: name, meter: f.Meters[0]},
				section{name: "b", chords: "C|F|G|C", energy: energy, feel: name, meter: f.Meters[0], change: func(p *timeline.Pass) {
					event(p, timeline.Push, 1, quarter*5/2, nil)
				}})
			tl.Drums.Kit = kit
			notes := drumsOf(tl, 1, set)
			var time uint8
			for _, n := range notes {
				if n.Key != crashVoice.Key && n.Key != snareVoice.Key {
					time = max(time, n.Velocity)
				}
			}
			if crash := loudest(notes, crashVoice.Key); crash == 0 || int(crash) > int(time)+most {
				t.Errorf("%s at %d: a crash of %d beside %d", name, energy, crash, time)
			}
			if kick := loudest(notes, kickVoice.Key); kit == "" && int(kick) > int(loudest(notes, 51)) {
				t.Errorf("%s at %d: a kick of %d under a ride of %d", name, energy, kick, loudest(notes, 51))
			}
		}
	}
}

// The crash that opens the last chorus is the song's: where the band rises to 5 it is
// louder than at 4 by more than a band grows anyway, and louder than any crash of a
// push inside a section.
func TestOpeningCrashIsTheLoudest(t *testing.T) {
	set := testSet(nil)
	var opens [6]uint8
	for energy := 4; energy <= 5; energy++ {
		tl := song(t, section{name: "a", chords: "C|F", energy: 3}, section{name: "b", chords: "C|F|G|C", energy: energy, change: func(p *timeline.Pass) {
			event(p, timeline.Push, 1, 3*quarter+quarter/2, nil)
		}}, section{name: "c", chords: "C", energy: 1})
		notes := drumsOf(tl, 1, set)
		opens[energy] = loudest(within(notes, 0, 1), crashVoice.Key)
		if push := loudest(within(notes, 1, 4*bar44), crashVoice.Key); push == 0 || push+8 > opens[energy] {
			t.Errorf("energy %d: a push's crash of %d, the opening's %d", energy, push, opens[energy])
		}
	}
	if grown := uint8(bandLift.At(5) - bandLift.At(4)); opens[5] < opens[4]+grown+4 {
		t.Errorf("the chorus at 5 opens with %d, at 4 with %d", opens[5], opens[4])
	}
}

// On the last chord nothing ticks: what the drummer strikes there rings, or is a kick.
func TestEndingDoesNotTick(t *testing.T) {
	set := library.Builtin()
	for _, name := range library.Names() {
		f := set.Feels[name]
		if len(f.Meters) == 0 {
			continue
		}
		for energy := 1; energy <= 5; energy++ {
			tl := song(t, section{name: "a", chords: "C|F|G|C", energy: energy, feel: name, meter: f.Meters[0]})
			last := tl.Passes[0].Bars[3].Start
			notes := within(drumsOf(tl, 0, set), last-quarter/8, tl.End)
			if len(onsets(notes, 42)) > 0 || len(f.Levels[energy-1].Drums) > 0 && len(onsets(notes, 36)) != 1 {
				t.Errorf("%s at %d ends with %v", name, energy, notes)
			}
		}
	}
	if f := set.Feels["ballad-eighths"]; f.Levels[1].Drums[0].Voice.Word != "hat" || f.Levels[1].Drums[0].Steps[0].Touch == feel.Rest {
		t.Fatal("no feel has a hat on 1 to be left out")
	}
}

// Where the song stops dead after the first beat of its last bar, that beat is the last
// hit: each of the three strikes it as hard as anything in the bars before, and no
// cymbal rings into the silence. Where the stop is elsewhere, or the song goes on,
// nothing is made of it.
func TestSongStopsOnAHit(t *testing.T) {
	set := library.Builtin()
	stop := func(bar int, at int64) func(p *timeline.Pass) {
		return func(p *timeline.Pass) { event(p, timeline.Stop, bar, at, nil) }
	}
	for _, name := range []string{"ballad-eighths", "waltz", "march", "swing", "slow-twelve", "brushes-ballad"} {
		f := set.Feels[name]
		m := f.Meters[0]
		for _, row := range []struct {
			name string
			next bool
			bar  int
			at   int64
			hit  bool
		}{
			{"the end", false, 3, m.TempoTicks(), true},
			{"a bar before", false, 2, m.TempoTicks(), false},
			{"late in the bar", false, 3, m.BarTicks() - m.TempoTicks()/2, false},
			{"another section", true, 3, m.TempoTicks(), false},
		} {
			sections := []section{{name: "a", chords: "C|F|C|C", energy: 5, feel: name, meter: m, change: stop(row.bar, row.at)}}
			if row.next {
				sections = append(sections, section{name: "b", chords: "C", energy: 1, feel: name, meter: m})
			}
			tl := song(t, sections...)
			if got := NewPlan(tl, &tl.Passes[0], set).FinalHit() >= 0; got != row.hit {
				t.Errorf("%s, %s: a last hit: %t", name, row.name, got)
			}
			if !row.hit {
				continue
			}
			last := tl.Passes[0].Bars[3].Start
			for who, notes := range PerformPass(tl, &tl.Passes[0], set).Notes {
				var hit, rest uint8
				for _, n := range notes {
					switch {
					case n.Tick >= last-quarter/8:
						hit = max(hit, n.Velocity)
						if k := kindOf(n.Key); who == int(timeline.Drums) && (k == kindRide || k == kindCrash) {
							t.Errorf("%s: a cymbal rings into the silence", name)
						}
					case n.Tick > tl.Passes[0].Bars[2].Start && who != int(timeline.Drums):
						rest = max(rest, n.Velocity)
					}
				}
				if hit < rest || hit < 76 {
					t.Errorf("%s, %s: the last hit at %d, before it %d", name, timeline.Player(who), hit, rest)
				}
			}
		}
	}
}

// A fill that the song file writes before a softer section leads down to it: its
// hands stay under the chorus's backbeat. Before a section as strong they do not.
func TestFillLeadsDown(t *testing.T) {
	set := library.Builtin()
	for _, row := range []struct {
		feel     string
		from, to int
		down     bool
	}{
		{"ballad-eighths", 5, 2, true},
		{"ballad-eighths", 4, 3, true},
		{"ballad-eighths", 5, 5, false},
		{"slow-twelve", 4, 3, true},
		{"slow-twelve", 4, 4, false},
	} {
		f := set.Feels[row.feel]
		for take := 1; take <= 6; take++ {
			half := f.Meters[0].BarTicks() / 2
			tl := song(t, section{name: "a", chords: "C|F", energy: row.from, feel: row.feel, meter: f.Meters[0], bpm: 70, change: func(p *timeline.Pass) {
				event(p, timeline.Fill, 1, half, nil)
			}}, section{name: "b", chords: "C", energy: row.to, feel: row.feel, meter: f.Meters[0], bpm: 70})
			tl.Take = take
			join(tl)
			line := tl.Passes[0].Bars[1].Start
			notes := drumsOf(tl, 0, set)
			var fill uint8
			for _, n := range within(notes, line+half-quarter/8, 2*line) {
				if v := limbOfKey(n.Key); v == feel.Hand {
					fill = max(fill, n.Velocity)
				}
			}
			backbeat := loudest(within(notes, 0, line), snareVoice.Key)
			if down := fill < backbeat-10; fill == 0 || down != row.down {
				t.Errorf("%s, %d to %d, take %d: a fill up to %d after a backbeat of %d", row.feel, row.from, row.to, take, fill, backbeat)
			}
		}
	}
}

// limbOfKey is what plays a key of the kit.
func limbOfKey(key uint8) feel.Limb {
	for _, v := range feel.Voices() {
		if v.Key == key {
			return v.Limb
		}
	}
	return feel.Hand
}
