package groove_test

import (
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/songspec/timeline"
)

// How hard the drummer strikes what the form asks for: common practice, no single
// source.

// General MIDI percussion keys.
const kickKey, snareKey, crashKey = 36, 38, 49

// cymbals are the keys of the rides and crashes.
var cymbals = []uint8{49, 51, 52, 53, 55, 57, 59}

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
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: "C|F", Energy: 2, Feel: name, Meter: f.Meters[0]},
				groovetest.Section{Name: "b", Chords: "C|F|G|C", Energy: energy, Feel: name, Meter: f.Meters[0],
					Change: func(p *timeline.Pass) {
						groovetest.Event(p, timeline.Push, 1, quarter*5/2, nil)
					}})
			tl.Drums.Kit = kit
			notes := drumsOf(tl, 1, set)
			var time uint8
			for _, n := range notes {
				if n.Key != crashKey && n.Key != snareKey {
					time = max(time, n.Velocity)
				}
			}
			if crash := groovetest.Loudest(notes, crashKey); crash == 0 || int(crash) > int(time)+most {
				t.Errorf("%s at %d: a crash of %d beside %d", name, energy, crash, time)
			}
			if kick := groovetest.Loudest(notes, kickKey); kit == "" && int(kick) > int(groovetest.Loudest(notes, 51)) {
				t.Errorf("%s at %d: a kick of %d under a ride of %d", name, energy, kick, groovetest.Loudest(notes, 51))
			}
		}
	}
}

// The crash that opens the last chorus is the song's: where the band rises to 5 it is
// louder than at 4 by more than a band grows anyway, and louder than any crash of a
// push inside a section.
func TestOpeningCrashIsTheLoudest(t *testing.T) {
	set := groovetest.Set(nil)
	var opens [6]uint8
	for energy := 4; energy <= 5; energy++ {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F", Energy: 3},
			groovetest.Section{Name: "b", Chords: "C|F|G|C", Energy: energy, Change: func(p *timeline.Pass) {
				groovetest.Event(p, timeline.Push, 1, 3*quarter+quarter/2, nil)
			}}, groovetest.Section{Name: "c", Chords: "C", Energy: 1})
		notes := drumsOf(tl, 1, set)
		opens[energy] = groovetest.Loudest(groovetest.Within(notes, 0, 1), crashKey)
		if push := groovetest.Loudest(groovetest.Within(notes, 1, 4*groovetest.Bar44), crashKey); push == 0 ||
			push+8 > opens[energy] {
			t.Errorf("energy %d: a push's crash of %d, the opening's %d", energy, push, opens[energy])
		}
	}
	if grown := uint8(plan.BandLift.At(5) - plan.BandLift.At(4)); opens[5] < opens[4]+grown+4 {
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
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: energy, Feel: name, Meter: f.Meters[0]})
			last := tl.Passes[0].Bars[3].Start
			notes := groovetest.Within(drumsOf(tl, 0, set), last-quarter/8, tl.End)
			if len(groovetest.Onsets(notes, 42)) > 0 || len(f.Levels[energy-1].Drums) > 0 &&
				len(groovetest.Onsets(notes, 36)) != 1 {
				t.Errorf("%s at %d ends with %v", name, energy, notes)
			}
		}
	}
	if f := set.Feels["ballad-eighths"]; f.Levels[1].Drums[0].Voice.Word != "hat" ||
		f.Levels[1].Drums[0].Steps[0].Touch == feel.Rest {
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
		return func(p *timeline.Pass) { groovetest.Event(p, timeline.Stop, bar, at, nil) }
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
			{"the end", false, 3, m.PlayedBeat(), true},
			{"a bar before", false, 2, m.PlayedBeat(), false},
			{"late in the bar", false, 3, m.BarTicks() - m.PlayedBeat()/2, false},
			{"another section", true, 3, m.PlayedBeat(), false},
		} {
			sections := []groovetest.Section{{Name: "a", Chords: "C|F|C|C", Energy: 5, Feel: name, Meter: m,
				Change: stop(row.bar, row.at)}}
			if row.next {
				sections = append(sections, groovetest.Section{Name: "b", Chords: "C", Energy: 1, Feel: name, Meter: m})
			}
			tl := groovetest.Song(t, sections...)
			if got := plan.New(tl, &tl.Passes[0], set).FinalHit() >= 0; got != row.hit {
				t.Errorf("%s, %s: a last hit: %t", name, row.name, got)
			}
			if !row.hit {
				continue
			}
			last := tl.Passes[0].Bars[3].Start
			for who, notes := range groove.Perform(tl, set).Passes[0].Notes {
				var hit, rest uint8
				for _, n := range notes {
					switch {
					case n.Tick >= last-quarter/8:
						hit = max(hit, n.Velocity)
						if who == int(timeline.Drums) && slices.Contains(cymbals, n.Key) {
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
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: "C|F", Energy: row.from, Feel: row.feel, Meter: f.Meters[0],
					BPM: 70, Change: func(p *timeline.Pass) {
						groovetest.Event(p, timeline.Fill, 1, half, nil)
					}},
				groovetest.Section{Name: "b", Chords: "C", Energy: row.to, Feel: row.feel, Meter: f.Meters[0], BPM: 70})
			tl.Take = take
			groovetest.Join(tl)
			line := tl.Passes[0].Bars[1].Start
			notes := drumsOf(tl, 0, set)
			var fill uint8
			for _, n := range groovetest.Within(notes, line+half-quarter/8, 2*line) {
				if v := groovetest.LimbOfKey(n.Key); v == feel.Hand {
					fill = max(fill, n.Velocity)
				}
			}
			backbeat := groovetest.Loudest(groovetest.Within(notes, 0, line), snareKey)
			if down := fill < backbeat-10; fill == 0 || down != row.down {
				t.Errorf("%s, %d to %d, take %d: a fill up to %d after a backbeat of %d",
					row.feel, row.from, row.to, take, fill, backbeat)
			}
		}
	}
}
