package drummer

import (
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// grooveSection is a section of a feel of the library at the low end of its tempo.
func grooveSection(set string, name, chords string, energy int) groovetest.Section {
	f := library.Builtin().Feels[set]
	m := meter.Common
	if len(f.Meters) > 0 {
		m = f.Meters[0]
	}
	return groovetest.Section{Name: name, Chords: chords, Energy: energy, Feel: set, Meter: m, BPM: f.TempoLow}
}

// The song ends on a kick and a cymbal, both at the beat on which bass and piano strike the
// last chord, nothing after them, and neither is louder than the bar before: in every feel, at
// every energy, with sticks and with brushes. Design of the band.
func TestSongEndsOnASoftCymbal(t *testing.T) {
	set := library.Builtin()
	ends := 0
	for _, name := range library.Names() {
		for energy := 1; energy <= 5; energy++ {
			for _, kit := range []string{"", "brushes"} {
				tl := groovetest.Song(t, grooveSection(name, "a", "C|F|G|C", energy))
				tl.Drums.Kit = kit
				if d := drummerOf(tl, 0, set); !d.keepsTime(3) {
					continue
				}
				ends++
				last := tl.Passes[0].Bars[3].Start
				notes := played(tl, 0, set)
				end := groovetest.Within(notes, last, tl.End)
				var loudest uint8
				for _, n := range groovetest.Within(notes, tl.Passes[0].Bars[2].Start, last) {
					loudest = max(loudest, n.Velocity)
				}
				if len(end) != 2 || end[0].Key != kickVoice.Key ||
					kindOf(end[1].Key) != kindRide && kindOf(end[1].Key) != kindCrash {
					t.Fatalf("%s at %d, kit %q: ends with %v", name, energy, kit, end)
				}
				for _, n := range end {
					if n.Tick != last || n.Velocity > loudest {
						t.Errorf("%s at %d, kit %q: key %d at %d with %d, before it up to %d", name, energy, kit, n.Key,
							n.Tick-last, n.Velocity, loudest)
					}
				}
			}
		}
	}
	if ends < 200 {
		t.Fatalf("only %d endings", ends)
	}
}

// The last hit before a dead stop is no ending: it stays forceful.
func TestDeadStopStaysForceful(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 4,
		Change: func(p *timeline.Pass) { groovetest.Event(p, timeline.Stop, 3, quarter, nil) }})
	last := tl.Passes[0].Bars[3].Start
	end := groovetest.Within(played(tl, 0, groovetest.Set(nil)), last, tl.End)
	if v := groovetest.Loudest(end, snareVoice.Key); v < 100 {
		t.Errorf("the last hit is struck with %d", v)
	}
}
