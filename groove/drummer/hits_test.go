package drummer

import (
	"slices"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// A hit is struck whole, also a sixteenth before the bar line where the hands have 111 ms and
// stray as far as they can.
func TestHitBeforeTheBarLineIsWhole(t *testing.T) {
	const bpm = 135
	hits := 0
	for _, name := range []string{"backbeat-eighths", "tight-sixteenths", "half-time"} {
		for _, bar := range []int{1, 3} {
			for energy := 3; energy <= 5; energy++ {
				for take := 1; take <= 40; take++ {
					a := grooveSection(name, "a", "C|F|G|C", energy)
					a.BPM = bpm
					a.Change = func(p *timeline.Pass) {
						at := int64(quarter * 15 / 4)
						groovetest.Event(p, timeline.Accent, bar, at, func(e *timeline.Event) { e.Weight = 2 })
					}
					tl := takeOf(t, take, a, a)
					tl.Looseness = 1000
					d, notes := notesOf(tl, 0)
					meant, struck := 0, 0
					for _, n := range notes {
						if n.Art.Has(score.Accent) {
							meant++
						}
					}
					for _, n := range played(tl, 0, library.Builtin()) {
						if notes[n.Meant].Art.Has(score.Accent) {
							struck++
						}
					}
					hits++
					if struck < meant || meant < 2 {
						t.Errorf("%s at %d, bar %d, take %d: %d strokes of a hit of %d", name, d.Energy(bar), bar+1,
							take, struck, meant)
					}
				}
			}
		}
	}
	if hits < 700 {
		t.Fatalf("only %d hits", hits)
	}
}

// accented is a section of backbeat-eighths with accents of a weight at places in its second
// bar, in ticks.
func accented(energy, weight int, at ...int64) groovetest.Section {
	a := grooveSection("backbeat-eighths", "a", "C|F|G|C", energy)
	a.Change = func(p *timeline.Pass) {
		for _, tick := range at {
			groovetest.Event(p, timeline.Accent, 1, tick, func(e *timeline.Event) { e.Weight = weight })
		}
	}
	return a
}

// voicesAt are the keys that are struck as a hit, by tick.
func voicesAt(notes []score.Note) map[int64][]uint8 {
	out := map[int64][]uint8{}
	for _, n := range notes {
		if n.Art.Has(score.Accent) {
			out[n.At] = append(out[n.At], n.Key)
		}
	}
	return out
}

// Hits in a run are not all crashes: at most the last of the heaviest is, and a hit that stands
// alone is not always struck with the
// same voices. Common practice, no single source.
func TestRunsOfHitsAreNotAllCrashes(t *testing.T) {
	ways := map[string]bool{}
	for energy := 3; energy <= 5; energy++ {
		for weight := 1; weight <= 3; weight++ {
			for take := 1; take <= takes; take++ {
				a := accented(energy, weight, quarter*3/2, 2*quarter, quarter*5/2, 3*quarter)
				_, notes := notesOf(takeOf(t, take, a, a), 0)
				hits, crashed := voicesAt(notes), 0
				for at, keys := range hits {
					slices.Sort(keys)
					ways[string(keys)] = true
					if slices.Contains(keys, crashVoice.Key) {
						crashed++
						if at != 7*quarter {
							t.Errorf("energy %d, weight %d: a crash at %d", energy, weight, at)
						}
					}
				}
				want := 1
				if weight == 1 || weight == 2 && energy == 3 {
					want = 0
				}
				if len(hits) != 4 || crashed != want {
					t.Errorf("energy %d, weight %d: %d of %d hits are crashes, want %d", energy, weight, crashed,
						len(hits), want)
				}
			}
		}
	}
	if len(ways) < 4 { // with the snare, with a crash too, on the open hat, on the bell
		t.Errorf("hits are struck in %d ways", len(ways))
	}
	heavy := accented(4, 2, quarter*3/2, 2*quarter, 3*quarter)
	change := heavy.Change
	heavy.Change = func(p *timeline.Pass) { change(p); p.Events[1].Weight = 3 }
	_, notes := notesOf(takeOf(t, 1, heavy, heavy), 0)
	for at, keys := range voicesAt(notes) {
		if slices.Contains(keys, crashVoice.Key) != (at == 6*quarter) {
			t.Errorf("beside a heavier hit: %v at %d", keys, at)
		}
	}
}

// A hit out of the time is set up by one ghost that the bar has not without it, within the beat
// before it; by the backbeat where that stands there, not below energy 3, not in a stop or in a bar of hits
// alone, nor before a hit on the first beat. Common practice, no single source.
func TestHitsAreSetUp(t *testing.T) {
	stop := func(p *timeline.Pass) {
		groovetest.Event(p, timeline.Stop, 1, quarter, func(e *timeline.Event) { e.End = e.Tick + quarter })
	}
	alone := func(p *timeline.Pass) {
		for i := range p.Events {
			p.Events[i].Alone = true
		}
	}
	for _, row := range []struct {
		name   string
		at     int64
		change func(p *timeline.Pass)
		setUp  bool
	}{
		{"on 3", 2 * quarter, nil, true},
		{"on 2&", quarter * 3 / 2, nil, false},
		{"on 4&", quarter * 7 / 2, nil, false},
		{"on 1 of the second bar", 0, nil, true},
		{"after a stop", 2 * quarter, stop, false},
		{"in a bar of its own", 2 * quarter, alone, false},
		{"on the first beat of the pass", -4 * quarter, nil, false},
	} {
		for energy := 2; energy <= 5; energy++ {
			for take := 1; take <= takes; take++ {
				a := accented(energy, 2, row.at)
				plain := a
				if hit := a.Change; row.change != nil {
					a.Change = func(p *timeline.Pass) { hit(p); row.change(p) }
				}
				plain.Change = row.change
				d, with := notesOf(takeOf(t, take, a, a), 0)
				_, without := notesOf(takeOf(t, take, plain, plain), 0)
				at := 4*quarter + row.at
				if row.at < 0 {
					at = 0
				}
				more := 0
				for _, n := range with {
					if n.Art.Has(score.Accent) || n.At >= at || n.At < at-quarter || d.Cues.Alone[d.BarAt(n.At)] {
						continue
					}
					same := func(x score.Note) bool { return x.At == n.At && x.Key == n.Key }
					if !slices.ContainsFunc(without, same) {
						more++
						if n.Touch > feel.Ghost {
							t.Errorf("%s at %d: a set-up with touch %d", row.name, energy, n.Touch)
						}
					}
				}
				if want := row.setUp && energy >= 3; (more > 0) != want || more > 1 {
					t.Errorf("%s at %d, take %d: set up by %d strokes", row.name, energy, take, more)
				}
			}
		}
	}
}

// A push is as strong as the downbeat that it takes the place of, and one that leads down to
// a softer section has no crash. Common practice, no single source.
func TestPushIsAsStrongAsItsBeat(t *testing.T) {
	for energy := 2; energy <= 5; energy++ {
		a := grooveSection("backbeat-eighths", "a", "C|F|G|C", energy)
		pushed := a
		pushed.Change = func(p *timeline.Pass) { groovetest.Event(p, timeline.Push, 1, quarter*7/2, nil) }
		kick := func(s groovetest.Section, at int64) uint8 {
			notes := played(takeOf(t, 1, s, s), 0, library.Builtin())
			return groovetest.Loudest(groovetest.Within(notes, at, at+1), kickVoice.Key)
		}
		if push, beat := kick(pushed, quarter*15/2), kick(a, 8*quarter); push < beat {
			t.Errorf("energy %d: a push of %d for a beat of %d", energy, push, beat)
		}
	}
	a, b := grooveSection("backbeat-eighths", "a", "C|F|G|C", 5), grooveSection("backbeat-eighths", "b", "C|F", 4)
	a.Change = func(p *timeline.Pass) { groovetest.Event(p, timeline.Push, 3, quarter*7/2, nil) }
	_, notes := notesOf(takeOf(t, 1, a, b), 0)
	for _, n := range notes {
		if n.At > 0 && kindOf(n.Key) == kindCrash {
			t.Errorf("a crash at %d leads down", n.At)
		}
	}
}

// A bridge at energy 3 with a hit of some weight in most bars stays under the chorus at 4: the
// sum of its velocities does. Design of the band.
func TestBridgeWithHitsStaysUnderTheChorus(t *testing.T) {
	for _, name := range drummedFeels() {
		bridge, chorus := grooveSection(name, "a", chordsFor(8), 3), grooveSection(name, "b", chordsFor(8), 4)
		bridge.Change = func(p *timeline.Pass) {
			for bar := 1; bar < 7; bar++ {
				at := p.Bars[bar].Meter.PlayedBeat() * int64(bar%2)
				groovetest.Event(p, timeline.Accent, bar, at, func(e *timeline.Event) { e.Weight = 1 + bar%3 })
			}
		}
		var loud [2]int
		for take := 1; take <= takes; take++ {
			tl := takeOf(t, take, bridge, chorus, chorus)
			for pass := range 2 {
				for _, n := range played(tl, pass, library.Builtin()) {
					loud[pass] += int(n.Velocity)
				}
			}
		}
		if t.Logf("%-18s %d %d", name, loud[0], loud[1]); loud[0] >= loud[1] {
			t.Errorf("%s: the bridge comes to %d, the chorus to %d", name, loud[0], loud[1])
		}
	}
}

// In a bar of hits the hands play the hits: there is no other snare, no kick but on 1 and with the
// hits, and the time is on the beats. Common practice, no single source.
func TestBarOfHits(t *testing.T) {
	for energy := 3; energy <= 5; energy++ {
		for take := 1; take <= takes; take++ {
			a := accented(energy, 1, quarter, 3*quarter)
			_, notes := notesOf(takeOf(t, take, a, a), 0)
			hits := 0
			for _, n := range barAt(notes, 4*quarter) {
				switch k := kindOf(n.Key); {
				case n.Art.Has(score.Accent):
					hits++
				case n.Roll != 0 || n.Voice.Limb() == feel.LeftFoot || n.At == 4*quarter || n.Touch == feel.Ghost:
				case k != kindHat && k != kindRide || n.At%quarter != 0:
					t.Errorf("energy %d, take %d: key %d at %d beside the hits", energy, take, n.Key, n.At)
				}
			}
			if hits < 2 {
				t.Errorf("energy %d, take %d: %d strokes of hits", energy, take, hits)
			}
		}
	}
}

// barAt are the notes in a bar of four quarters that begins at a tick.
func barAt(notes []score.Note, start int64) []score.Note {
	return slices.DeleteFunc(slices.Clone(notes), func(n score.Note) bool {
		return n.At < start || n.At >= start+4*quarter
	})
}
