package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/songspec/timeline"
)

// Unless a row says otherwise these rules are those of the design of the band.

func drumsOf(tl *timeline.Timeline, i int, set *feel.Set) []groove.Note {
	return groove.Perform(tl, set).Passes[i].Notes[timeline.Drums]
}

func TestCrashOpensFromEnergyFour(t *testing.T) {
	set := groovetest.Set(nil)
	for _, row := range []struct {
		name         string
		before, here int
		want         bool
	}{
		{"a rise to 4", 2, 4, true},
		{"5 again", 5, 5, true},
		{"3 has none", 2, 3, false},
		{"a step down to 4", 5, 4, false},
	} {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F", Energy: row.before},
			groovetest.Section{Name: "b", Chords: "C|F", Energy: row.here})
		open := groovetest.Within(drumsOf(tl, 1, set), 0, 1)
		struck := func(keys ...uint8) bool { return len(groovetest.Onsets(open, keys...)) > 0 }
		crash, kick, hat := struck(49), struck(36), struck(42, 46)
		if crash != row.want || !kick || crash && hat {
			t.Errorf("%s: crash %t, kick %t, hat %t", row.name, crash, kick, hat)
		}
	}
}

func TestAccentsSoundLoudest(t *testing.T) {
	set := groovetest.Set(func(f *feel.Feel) { // already as loud as the rows can say
		for i := range f.Levels {
			f.Levels[i].Drums = groovetest.Rows("hat", "X-X-X-X-X-X-X-X-", "snare", "--X-X-X-X-X-X---",
				"kick", "X-X-X-X-X-X-X-X-")
			for j := range f.Levels[i].Bass {
				if f.Levels[i].Bass[j].Degree != 0 {
					f.Levels[i].Bass[j].Touch = feel.Strong
				}
			}
		}
	})
	for energy := 1; energy <= 5; energy++ {
		for take := 1; take <= 5; take++ {
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: energy, Change: func(p *timeline.Pass) {
					groovetest.Event(p, timeline.Accent, 1, quarter, nil)
					groovetest.Event(p, timeline.Accent, 1, 3*quarter+quarter/2,
						func(e *timeline.Event) { e.Weight = 3 })
				}}, groovetest.Section{Name: "b", Chords: "C", Energy: 2})
			tl.Take, tl.Looseness = take, 0
			part := groove.Perform(tl, set).Passes[0]
			bar := tl.Passes[0].Bars[1]
			for _, who := range []timeline.Player{timeline.Drums, timeline.Bass} {
				hits := map[int64]uint8{}
				loudest := uint8(0)
				for _, n := range groovetest.Within(part.Notes[who], bar.Start, bar.Start+bar.Length) {
					if at := n.Tick - bar.Start; at == quarter || at == 3*quarter+quarter/2 {
						if v, ok := hits[at]; !ok || n.Velocity < v {
							hits[at] = n.Velocity // the softest of the hit's notes that belong to it
						}
						continue
					}
					loudest = max(loudest, n.Velocity)
				}
				if len(hits) != 2 {
					t.Errorf("energy %d, %s: %d of 2 accents sound", energy, who, len(hits))
				}
				top := hits[quarter]
				if who == timeline.Drums { // a hat may go on with the hit
					top = loudestAt(part.Notes[who], bar.Start+quarter)
				}
				if top <= loudest {
					t.Errorf("energy %d, take %d, %s: an accent of %d beside %d", energy, take, who, top, loudest)
				}
				if w3 := loudestAt(part.Notes[who], bar.Start+3*quarter+quarter/2); w3 <= top {
					t.Errorf("energy %d, %s: weight 3 at %d is no louder than weight 1 at %d", energy, who, w3, top)
				}
			}
		}
	}
}

func loudestAt(notes []groove.Note, tick int64) uint8 {
	v := uint8(0)
	for _, n := range groovetest.Within(notes, tick, tick+1) {
		v = max(v, n.Velocity)
	}
	return v
}

func TestAloneLeavesTheHitsOnly(t *testing.T) {
	set := groovetest.Set(nil)
	tl := groovetest.Song(t,
		groovetest.Section{Name: "a", Chords: "C|F G|C", Energy: 4, Change: func(p *timeline.Pass) {
			groovetest.Event(p, timeline.Accent, 1, quarter, func(e *timeline.Event) { e.Alone = true })
		}}, groovetest.Section{Name: "b", Chords: "C", Energy: 2})
	for _, loose := range []int{0, 1000} {
		tl.Looseness = loose
		bar := tl.Passes[0].Bars[1]
		for who, notes := range groove.Perform(tl, set).Passes[0].Notes {
			for _, n := range notes {
				if n.Tick < bar.Start && n.Tick+n.Length > bar.Start {
					t.Errorf("%s: a note rings into the bar", timeline.Player(who))
				}
			}
			for _, n := range groovetest.Within(notes, bar.Start, bar.Start+bar.Length) {
				if d := n.Tick - bar.Start - quarter; d < -quarter/8 || d > quarter/8 {
					t.Errorf("%s: key %d sounds %d ticks off the hit", timeline.Player(who), n.Key, d)
				}
			}
			if who != int(timeline.Piano) && len(groovetest.Within(notes, bar.Start, bar.Start+bar.Length)) == 0 {
				t.Errorf("%s: the hit is missing", timeline.Player(who))
			}
		}
	}
}

func TestPushLeavesTheDownbeat(t *testing.T) {
	set := groovetest.Set(nil)
	for _, last := range []bool{false, true} {
		bar := 1
		if last {
			bar = 3
		}
		for _, energy := range []int{2, 5} {
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: energy, Change: func(p *timeline.Pass) {
					groovetest.Event(p, timeline.Push, bar, 3*quarter+quarter/2, nil)
				}}, groovetest.Section{Name: "b", Chords: "Am|F", Energy: energy})
			tl.Looseness = 1000
			perf := groove.Perform(tl, set)
			e := tl.Passes[0].Events[0]
			for _, who := range []timeline.Player{timeline.Drums, timeline.Bass} {
				name := fmt.Sprintf("last bar %t, energy %d, %s", last, energy, who)
				notes := perf.Parts[who]
				hit := groovetest.Within(notes, e.Tick-quarter/4, e.Tick+quarter/4)
				if len(hit) == 0 {
					t.Errorf("%s: nothing sounds at the push", name)
					continue
				}
				if late := groovetest.Within(notes, e.Tick+quarter/4, e.Target+quarter/8); len(late) > 0 {
					t.Errorf("%s: %d notes begin between the push and its target", name, len(late))
				}
				if who == timeline.Bass {
					n := hit[len(hit)-1]
					if n.Tick+n.Length <= e.Target {
						t.Errorf("%s: the bass is not tied over", name)
					}
				}
				if who == timeline.Drums {
					if crash := len(groovetest.Onsets(hit, 49)) > 0; crash != (energy >= 4) ||
						len(groovetest.Onsets(hit, 36)) == 0 {
						t.Errorf("%s: crash %t", name, crash)
					}
				}
			}
		}
	}
}

func TestStopIsSilence(t *testing.T) {
	set := groovetest.Set(nil)
	for loose := 0; loose <= 1000; loose += 250 {
		for take := 1; take <= 20; take++ {
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: "C|F|G", Energy: 4, Change: func(p *timeline.Pass) {
					groovetest.Event(p, timeline.Stop, 1, 2*quarter,
						func(e *timeline.Event) { e.End = e.Tick + quarter })
					groovetest.Event(p, timeline.Stop, 2, 2*quarter, nil)
				}}, groovetest.Section{Name: "b", Chords: "C|F", Energy: 4})
			tl.Looseness, tl.Take = loose, take
			for who, notes := range groove.Perform(tl, set).Parts {
				for _, n := range notes {
					for _, e := range tl.Passes[0].Events {
						if n.Tick < e.End && n.Tick+n.Length > e.Tick {
							t.Fatalf("looseness %d, take %d, %s: "+
								"key %d sounds from %d for %d in the stop from %d to %d",
								loose, take, timeline.Player(who), n.Key, n.Tick, n.Length, e.Tick, e.End)
						}
					}
				}
			}
		}
	}
}

func TestHeldBeatIsNotSubdivided(t *testing.T) {
	set := groovetest.Set(nil)
	tl := groovetest.Song(t,
		groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 5, Change: func(p *timeline.Pass) {
			groovetest.Event(p, timeline.Hold, 1, 2*quarter, func(e *timeline.Event) { e.End = e.Tick + quarter })
		}}, groovetest.Section{Name: "b", Chords: "C", Energy: 5})
	e := tl.Passes[0].Events[0]
	part := groove.Perform(tl, set).Passes[0]
	for _, who := range []timeline.Player{timeline.Drums, timeline.Bass} {
		if n := groovetest.Within(part.Notes[who], e.Tick+1, e.End); len(n) > 0 {
			t.Errorf("%s: %d notes begin in the held beat", who, len(n))
		}
	}
}

func TestSongComesToRest(t *testing.T) {
	set := groovetest.Set(nil)
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 5})
	part := groove.Perform(tl, set).Passes[0]
	last := tl.Passes[0].Bars[3].Start
	if n := groovetest.Within(part.Notes[timeline.Drums], last+1, tl.End); len(n) > 0 {
		t.Errorf("%d strokes after the last hit", len(n))
	}
	if n := groovetest.Within(part.Notes[timeline.Drums], last, last+1); len(groovetest.Onsets(n, 49)) != 1 ||
		len(groovetest.Onsets(n, 36)) != 1 {
		t.Errorf("the last hit is %v, want kick and crash", n)
	}
	bass := groovetest.Within(part.Notes[timeline.Bass], last, tl.End)
	if len(bass) != 1 || bass[0].Tick+bass[0].Length != tl.End {
		t.Errorf("the bass ends with %v", bass)
	}
}

func TestTacetIsSilent(t *testing.T) {
	set := groovetest.Set(nil)
	tl := groovetest.Song(t,
		groovetest.Section{Name: "a", Chords: "C|F", Energy: 3, Tacet: timeline.Only(timeline.Drums)},
		groovetest.Section{Name: "b", Chords: "C|F", Energy: 3, Tacet: timeline.All})
	perf := groove.Perform(tl, set)
	if len(perf.Passes[0].Notes[timeline.Drums]) > 0 || len(perf.Passes[0].Notes[timeline.Bass]) == 0 {
		t.Error("only the drums are out of the first pass")
	}
	for who, notes := range perf.Passes[1].Notes {
		if len(notes) > 0 {
			t.Errorf("%s plays in a pass that nobody plays in", timeline.Player(who))
		}
	}
}

// Two hands, two feet, ten strokes a second: at any energy and tempo, whatever the
// file asks for.
func TestTwoHandsTwoFeet(t *testing.T) {
	set := groovetest.Set(func(f *feel.Feel) {
		f.Levels[4].Drums = groovetest.Rows("hat", "xxxxxxxxxxxxxxxx", "ride", "x---x---x---x---",
			"snare", "xgxgxgxgfgxgdgxg", "tom_low", "x-x-x-x-x-x-x-x-", "kick", "xxxxxxxxxxxxxxxx",
			"hat_foot", "x---x---x---x---")
	})
	for _, bpm := range []int{60, 100, 140, 200, 280, 400} {
		for energy := 1; energy <= 5; energy++ {
			for take := 1; take <= 4; take++ {
				tl := groovetest.Song(t,
					groovetest.Section{Name: "a", Chords: "C|F|G|C|C|F|G|C", Energy: energy, BPM: bpm,
						Change: func(p *timeline.Pass) {
							groovetest.Event(p, timeline.Accent, 1, 0, func(e *timeline.Event) { e.Weight = 3 })
							groovetest.Event(p, timeline.Push, 2, 3*quarter+quarter/2, nil)
							groovetest.Event(p, timeline.Fill, 5, 0, nil)
						}}, groovetest.Section{Name: "b", Chords: "C", Energy: 5, BPM: bpm})
				tl.Take, tl.Looseness = take, 1000
				notes := groove.Perform(tl, set).Passes[0].Notes[timeline.Drums]
				if fault := groovetest.TooManyLimbs(timeline.NewClock(tl.Passes[0].Tempos), notes); fault != "" {
					t.Fatalf("%d bpm, energy %d, take %d: %s", bpm, energy, take, fault)
				}
			}
		}
	}
}
