package groove

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// What keeps a restrained band in proportion to itself: common practice, no single
// source, unless a test says otherwise.

// An accent or a push at a soft energy is a nudge: no more than so much louder than
// the loudest other stroke of its bar. A hard backbeat beside a cross-stick is 45
// over it. The snare drum stays out of it below energy 3.
func TestHitsStayInProportion(t *testing.T) {
	const most = 36
	set := testSet(nil)
	for energy := 1; energy <= 3; energy++ {
		for _, kind := range []timeline.EventKind{timeline.Accent, timeline.Push} {
			for take := 1; take <= 5; take++ {
				tl := song(t, section{name: "a", chords: "C|F|G|C", energy: energy, change: func(p *timeline.Pass) {
					event(p, kind, 1, 3*quarter+quarter/2, nil)
				}}, section{name: "b", chords: "C", energy: energy})
				tl.Take = take
				bar, at := tl.Passes[0].Bars[1], tl.Passes[0].Events[0].Tick
				var hit, rest uint8
				for _, n := range within(PerformPass(tl, &tl.Passes[0], set).Notes[timeline.Drums], bar.Start, bar.Start+bar.Length) {
					switch {
					case n.Tick != at:
						rest = max(rest, n.Velocity)
					case n.Key == snareVoice.Key && !snareDrum.At(energy):
						t.Errorf("energy %d, %v: the snare drum at %d", energy, kind, n.Velocity)
					default:
						hit = max(hit, n.Velocity)
					}
				}
				if hit == 0 || int(hit) > int(rest)+most {
					t.Errorf("energy %d, %v, take %d: a hit of %d beside %d", energy, kind, take, hit, rest)
				}
			}
		}
	}
}

// Loud backbeats are struck by a hand, not copied: no more than a third of them
// have one velocity, and none is over the ceiling that accents need.
func TestLoudStrokesAreNotAllTheSame(t *testing.T) {
	set := testSet(func(f *feel.Feel) {
		f.Levels[4].Drums = rows("snare", "----X-------X---")
	})
	tl := song(t, long(64, 5))
	tl.Looseness = 400
	count, n := map[uint8]int{}, 0
	for _, x := range PerformPass(tl, &tl.Passes[0], set).Notes[timeline.Drums] {
		if x.Key == snareVoice.Key {
			count[x.Velocity]++
			n++
			if x.Velocity > normalCeiling {
				t.Errorf("%d is over %d", x.Velocity, normalCeiling)
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

// A closing fill into energy 3 or 4 is never the longer of its two lengths at a
// slow tempo, and sometimes is at another.
func TestSlowFillsAreShort(t *testing.T) {
	set := testSet(nil)
	for _, row := range []struct {
		bpm, into int
		most      int64 // beats
	}{{60, 3, 1}, {79, 4, 2}, {80, 4, 3}, {120, 3, 2}} {
		longest := int64(0)
		for take := 1; take <= 30; take++ {
			tl := song(t, section{name: "a", chords: "C|F|G|C", energy: 2, bpm: row.bpm},
				section{name: "b", chords: "C", energy: row.into, bpm: row.bpm})
			tl.Take = take
			s := NewPlan(tl, &tl.Passes[0], set).closingSpan()
			longest = max(longest, (s.End-s.Start)/quarter)
		}
		if longest != row.most {
			t.Errorf("at %d into %d: up to %d beats, want %d", row.bpm, row.into, longest, row.most)
		}
	}
}

// The approach that ends a section leads by step, a semitone or a tone, into the
// note that the next section begins with.
func TestLastApproachLeadsIntoTheNextSection(t *testing.T) {
	set := testSet(nil)
	led := 0
	for _, first := range []string{"C", "Bb", "Eb", "F", "D/F#"} {
		for _, next := range []string{"C", "Db", "D", "Eb", "E", "A", "Bb", "B"} {
			for take := 1; take <= 4; take++ {
				tl := song(t, section{name: "a", chords: "C|F|G|" + first, energy: 3}, section{name: "b", chords: next + "|F", energy: 3})
				tl.Take = take
				p := NewPlan(tl, &tl.Passes[0], set)
				a := PerformPass(tl, &tl.Passes[0], set).Notes[timeline.Bass]
				b := PerformPass(tl, &tl.Passes[1], set).Notes[timeline.Bass]
				last := a[len(a)-1]
				bar := p.Pass.Bars[len(p.Pass.Bars)-1]
				if last.Tick < bar.Start+3*quarter || first == "D/F#" || first == next {
					continue // no approach: over a slash bass, or to where it stands
				}
				led++
				if d := abs(int(last.Key) - int(b[0].Key)); d == 0 || d > 2 {
					t.Errorf("%s to %s, take %d: %d leads into %d", first, next, take, last.Key, b[0].Key)
				}
			}
		}
	}
	if led < 100 {
		t.Fatalf("only %d approaches", led)
	}
}

// Where the band rises into a chorus its first chord says so: it is louder than any
// chord of the same bars. Where it stays or steps down nobody makes a beginning of it.
func TestChorusBeginsWithItsChord(t *testing.T) {
	set := testSet(nil)
	for _, row := range []struct {
		before, here int
		strong       bool
	}{{2, 4, true}, {3, 5, true}, {4, 4, false}, {5, 4, false}, {1, 3, false}} {
		tl := song(t, section{name: "a", chords: "C|F", energy: row.before}, section{name: "b", chords: "C|F|G|C", energy: row.here})
		notes := PerformPass(tl, &tl.Passes[1], set).Notes[timeline.Piano]
		var first, rest uint8
		for _, n := range notes {
			if n.Tick == 0 {
				first = max(first, n.Velocity)
			} else {
				rest = max(rest, n.Velocity)
			}
		}
		if strong := first >= rest+8; strong != row.strong {
			t.Errorf("%d to %d: the first chord at %d, the others up to %d", row.before, row.here, first, rest)
		}
	}
}

// And it is struck whole, in every feel, also where the tab has one hand or nothing.
func TestChorusBeginsWhole(t *testing.T) {
	set := library.Builtin()
	for _, name := range library.Names() {
		f := set.Feels[name]
		m := meter.Common
		if len(f.Meters) > 0 {
			m = f.Meters[0]
		}
		for energy := 4; energy <= 5; energy++ {
			tl := song(t, section{name: "a", chords: "C|F", energy: 2, feel: name, meter: m},
				section{name: "b", chords: "C|F|G|C", energy: energy, feel: name, meter: m})
			struck := 0
			for _, n := range PerformPass(tl, &tl.Passes[1], set).Notes[timeline.Piano] {
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
