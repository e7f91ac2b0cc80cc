package groove_test

import (
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// What keeps a restrained band in proportion to itself: common practice, no single
// source, unless a test says otherwise.

// The approach that ends a section leads by step, a semitone or a tone, into the
// note that the next section begins with.
func TestLastApproachLeadsIntoTheNextSection(t *testing.T) {
	set := groovetest.Set(nil)
	led := 0
	for _, first := range []string{"C", "Bb", "Eb", "F", "D/F#"} {
		for _, next := range []string{"C", "Db", "D", "Eb", "E", "A", "Bb", "B"} {
			for take := 1; take <= 4; take++ {
				tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|" + first, Energy: 3},
					groovetest.Section{Name: "b", Chords: next + "|F", Energy: 3})
				tl.Take = take
				passes := groove.Perform(tl, set).Passes
				a, b := passes[0].Notes[timeline.Bass], passes[1].Notes[timeline.Bass]
				last := a[len(a)-1]
				bars := tl.Passes[0].Bars
				bar := bars[len(bars)-1]
				if last.Tick < bar.Start+3*quarter || first == "D/F#" || first == next {
					continue // no approach: over a slash bass, or to where it stands
				}
				led++
				if d := int(last.Key) - int(b[0].Key); d == 0 || d > 2 || d < -2 {
					t.Errorf("%s to %s, take %d: %d leads into %d", first, next, take, last.Key, b[0].Key)
				}
			}
		}
	}
	if led < 100 {
		t.Fatalf("only %d approaches", led)
	}
}

// A chorus into which the band rises begins with its whole chord, in every feel, also where
// the tab has one hand or nothing.
func TestChorusBeginsWhole(t *testing.T) {
	set := library.Builtin()
	for _, name := range library.Names() {
		f := set.Feels[name]
		m := meter.Common
		if len(f.Meters) > 0 {
			m = f.Meters[0]
		}
		for energy := 4; energy <= 5; energy++ {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F", Energy: 2, Feel: name, Meter: m},
				groovetest.Section{Name: "b", Chords: "C|F|G|C", Energy: energy, Feel: name, Meter: m})
			struck := 0
			for _, n := range groove.Perform(tl, set).Passes[1].Notes[timeline.Piano] {
				if n.Tick < quarter/4 {
					struck++
				}
			}
			if struck < 3 {
				t.Errorf("%s at %d: %d notes on the first beat of the chorus", name, energy, struck)
			}
		}
	}
}
