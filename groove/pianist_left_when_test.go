package groove_test

import (
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/pianist"
	"plinth/songspec/timeline"
)

// Without a chord nothing sounds, and the bass is there again with the next one.
func TestLeftHandNoChord(t *testing.T) {
	for _, name := range []string{"sustain", "ballad-eighths", "backbeat-eighths"} {
		for energy := 1; energy <= 5; energy++ {
			notes := aloneAt(t, "C|N.C.|Am|Am", name, energy, nil)
			for _, n := range notes {
				if n.Tick < 2*groovetest.Bar44-2 && n.Tick+n.Length > groovetest.Bar44+2 {
					t.Errorf("%s at %d: %s sounds under N.C.", name, energy, groovetest.KeyName(int(n.Key)))
				}
			}
			if down := downAt(notes, 2*groovetest.Bar44); len(down) == 0 || down[0]%12 != 9 {
				t.Errorf("%s at %d: under Am lies %v", name, energy, down)
			}
		}
	}
}

// A pushed chord brings its bass along, and both are tied over the bar line: nothing
// is struck there again. A push of the pass before is struck before this one begins.
func TestLeftHandPush(t *testing.T) {
	const bar, eighth = groovetest.Bar44, groovetest.Eighth
	for _, name := range []string{"sustain", "ballad-eighths", "backbeat-eighths", "two-beat", "one-drop"} {
		for energy := 1; energy <= 5; energy++ {
			notes := aloneAt(t, "C|F|G|C", name, energy, func(p *timeline.Pass) {
				groovetest.AddPush(p, 1, bar-eighth)
				g := groovetest.Chord(t, "G")
				p.Before = &timeline.Neighbour{Section: "x", Chord: g, Energy: energy, Feel: name}
				p.Entry = &timeline.Event{Kind: timeline.Push, Tick: -eighth, Target: 0, By: timeline.All}
			})
			for _, at := range []struct {
				push, target int64
				pc           int
			}{{-eighth, 0, 0}, {2*bar - eighth, 2 * bar, 7}} {
				down := downAt(notes, at.push+30)
				if len(down) < 2 || down[0]%12 != at.pc || down[0] > 50 {
					t.Errorf("%s at %d: at the push sounds %v", name, energy, down)
				}
				if held := downAt(notes, at.target); len(down) > 0 && (len(held) == 0 || held[0] != down[0]) {
					t.Errorf("%s at %d: tied over is %v of %v", name, energy, held, down)
				}
				for _, n := range notes {
					if n.Tick > at.push+90 && n.Tick < at.target+90 {
						t.Errorf("%s at %d: %s is struck at %d, on the target %d",
							name, energy, groovetest.KeyName(int(n.Key)), n.Tick, at.target)
					}
				}
			}
		}
	}
}

// A stop is silence for both hands; an accent that names the piano has its bass, one of
// others does not bring it; a held beat has nothing struck in it.
func TestLeftHandEvents(t *testing.T) {
	const bar, eighth = groovetest.Bar44, groovetest.Eighth
	for energy := 1; energy <= 5; energy++ {
		notes := aloneAt(t, "C|F|G|C", "ballad-eighths", energy, func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Stop, 1, 2*quarter, bar)
			groovetest.AddEvent(p, timeline.Accent, 2, quarter+eighth, quarter+eighth)
			e := groovetest.AddEvent(p, timeline.Accent, 3, quarter+eighth/2, quarter+eighth/2)
			e.By = timeline.Only(timeline.Drums)
		})
		for _, n := range notes {
			if n.Tick < 2*bar-2 && n.Tick+n.Length > bar+2*quarter+2 {
				t.Errorf("energy %d: %s sounds in the stop", energy, groovetest.KeyName(int(n.Key)))
			}
		}
		low, other := 128, false
		for _, n := range notes {
			if n.Tick > 2*bar+quarter+eighth-120 && n.Tick < 2*bar+quarter+eighth+60 {
				low = min(low, int(n.Key))
			}
			other = other || n.Tick > 3*bar+quarter+60 && n.Tick < 3*bar+quarter+eighth-60
		}
		if low%12 != 7 || low > 50 {
			t.Errorf("energy %d: the hit's lowest is %d", energy, low)
		}
		if other {
			t.Errorf("energy %d: the piano strikes the drummer's hit", energy)
		}
		held := aloneAt(t, "C|F", "ballad-eighths", energy, func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Hold, 0, 0, bar)
		})
		for _, n := range held {
			if n.Tick > 60 && n.Tick < bar-60 {
				t.Errorf("energy %d: %s is struck in the held beat", energy, groovetest.KeyName(int(n.Key)))
			}
		}
	}
}

// Where the comp breaks a chord from the first beat on, its figure begins with the bass alone
// and goes up from there. Common practice, no single source.
func TestLeftHandBeginsTheFigure(t *testing.T) {
	for _, name := range []string{"ballad-eighths", "ballad-sixteenths", "slow-twelve"} {
		for _, energy := range []int{1} {
			notes := aloneAt(t, "Fm|Dbmaj7|Ab|Eb", name, energy, nil)
			first := groovetest.Within(notes, -2, 60)
			if len(first) != 1 || first[0].Key%12 != 5 {
				t.Errorf("%s at %d: the figure begins with %v", name, energy, first)
				continue
			}
			then := groovetest.Within(notes, 60, 2*quarter)
			if len(then) == 0 || then[0].Key <= first[0].Key ||
				first[0].Tick+first[0].Length <= then[len(then)-1].Tick {
				t.Errorf("%s at %d: over %v follows %v", name, energy, first, then)
			}
		}
	}
}

// Attacks a beat, simultaneous strokes once: the design's 1.2 at energy 2 and 2.2 at 5,
// and what AttacksPerBeat has for the others.
func TestLeftHandAttacks(t *testing.T) {
	set := library.Builtin()
	for _, name := range library.Names() {
		for energy := 1; energy <= 5; energy++ {
			pass := groovetest.FeelPass(t, "C|Am|F|G|Em|Am|Dm|G", set.Feels[name], energy)
			pass.Tacet = timeline.Only(timeline.Bass)
			tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Take: 2, Passes: []timeline.Pass{*pass}}
			part := groove.Perform(tl, set).Passes[0]
			attacks, last, beats := int64(0), int64(-1<<40), int64(0)
			for _, n := range part.Notes[timeline.Piano] {
				if n.Tick-last > 40 {
					attacks++
				}
				last = n.Tick
			}
			for _, b := range pass.Bars {
				beats += b.Length
			}
			most := beats * pianist.AttacksPerBeat.At(energy) / pass.Bars[0].Meter.PlayedBeat()
			if attacks*1000 > most {
				t.Errorf("%s at %d: %d attacks, %d.%03d are allowed", name, energy, attacks, most/1000, most%1000)
			}
		}
	}
}
