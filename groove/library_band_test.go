package groove_test

import (
	"fmt"
	"os"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// libraryTempos are the tempi a feel is tried at: the ends of its range, and far
// outside it.
func libraryTempos(f *feel.Feel) []int {
	return []int{f.TempoLow, (f.TempoLow + f.TempoHigh) / 2, f.TempoHigh, 40, 300}
}

// Every feel of the library at every energy, in its own meter and in common time:
// what a drummer and a bassist can play, and a bass that is with the kick.
func TestLibraryIsPlayable(t *testing.T) {
	set := library.Builtin()
	if len(set.Feels) == 0 {
		t.Fatal("no feels")
	}
	for _, name := range library.Names() {
		f := set.Feels[name]
		meters := []meter.Meter{meter.Common, {Num: 3, Den: 4}, {Num: 7, Den: 8}}
		if len(f.Meters) > 0 {
			meters = append([]meter.Meter{f.Meters[0]}, meters...)
		}
		for i, m := range meters {
			for _, bpm := range libraryTempos(f) {
				if i > 0 && bpm != f.TempoHigh {
					continue
				}
				for energy := 1; energy <= 5; energy++ {
					tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|Am7|F|G7sus4|Em7|A7|Dm7 G7/F|C",
						Energy: energy, Feel: name, BPM: bpm, Meter: m},
						groovetest.Section{Name: "b", Chords: "F|G|C|Am|F|G|C", Energy: 5, Feel: name, BPM: bpm,
							Meter: m})
					for take := 1; take <= 2; take++ {
						tl.Take, tl.Looseness = take, 1000*(take-1)
						where := fmt.Sprintf("%s, %s, %d bpm, energy %d, take %d", name, m, bpm, energy, take)
						checkBand(t, tl, set, where)
					}
				}
			}
		}
	}
}

func checkBand(t *testing.T, tl *timeline.Timeline, set *feel.Set, where string) {
	t.Helper()
	for i, part := range groove.Perform(tl, set).Passes {
		c := timeline.NewClock(tl.Passes[i].Tempos)
		if fault := groovetest.TooManyLimbs(c, part.Notes[timeline.Drums]); fault != "" {
			t.Errorf("%s: %s", where, fault)
		}
		bass := part.Notes[timeline.Bass]
		if len(bass) == 0 {
			t.Errorf("%s: no bass", where)
		}
		met, all := 0, 0
		for _, k := range groovetest.Onsets(part.Notes[timeline.Drums], 36) {
			all++
			for _, n := range bass {
				// The two are played by two people: a bass struck within 50 ms is with the kick.
				if k > n.Tick-c.Ticks(k, 50_000) && k < n.Tick+n.Length {
					met++
					break
				}
			}
		}
		if met*100 < 80*all {
			t.Errorf("%s, pass %d: %d of %d kicks meet the bass", where, i, met, all)
		}
		for _, n := range bass {
			if n.Key < 28 || n.Key > 55 {
				t.Errorf("%s: bass key %d", where, n.Key)
			}
		}
	}
}

// TestShowBand prints what the drummer and the bassist play, feel by feel, for a
// person to read; it runs only when it is asked for.
func TestShowBand(t *testing.T) {
	if os.Getenv("PLINTH_SHOW") == "" {
		t.Skip("set PLINTH_SHOW=1 to print the parts")
	}
	set := library.Builtin()
	for _, name := range library.Names() {
		f := set.Feels[name]
		m := meter.Common
		if len(f.Meters) > 0 {
			m = f.Meters[0]
		}
		for energy := 1; energy <= 5; energy++ {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|Am7|F|G7sus4|C|E7|Dm7 G7/F|C",
				Energy: energy, Feel: name, Meter: m, BPM: (f.TempoLow + f.TempoHigh) / 2},
				groovetest.Section{Name: "b", Chords: "F", Energy: energy, Feel: name, Meter: m})
			part := groove.Perform(tl, set).Passes[0]
			bars := float64(len(tl.Passes[0].Bars))
			t.Logf("%-18s %d: strokes a bar %.1f, bass %.1f, comp %.1f", name, energy,
				float64(len(part.Notes[timeline.Drums]))/bars,
				float64(len(part.Notes[timeline.Bass]))/bars, float64(len(part.Notes[timeline.Piano]))/bars)
		}
	}
}
