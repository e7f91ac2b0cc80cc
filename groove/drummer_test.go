package groove

import (
	"fmt"
	"testing"

	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// Unless a row says otherwise these rules are those of the design of the band.

func drumsOf(tl *timeline.Timeline, i int, set *feel.Set) []Note {
	return PerformPass(tl, &tl.Passes[i], set).Notes[timeline.Drums]
}

func TestCrashOpensFromEnergyFour(t *testing.T) {
	set := testSet(nil)
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
		tl := song(t, section{name: "a", chords: "C|F", energy: row.before}, section{name: "b", chords: "C|F", energy: row.here})
		open := within(drumsOf(tl, 1, set), 0, 1)
		crash, kick, hat := len(onsets(open, 49)) > 0, len(onsets(open, 36)) > 0, len(onsets(open, 42, 46)) > 0
		if crash != row.want || !kick || crash && hat {
			t.Errorf("%s: crash %t, kick %t, hat %t", row.name, crash, kick, hat)
		}
	}
}

func TestAccentsSoundLoudest(t *testing.T) {
	set := testSet(func(f *feel.Feel) { // already as loud as the rows can say
		for i := range f.Levels {
			f.Levels[i].Drums = rows("hat", "X-X-X-X-X-X-X-X-", "snare", "--X-X-X-X-X-X---", "kick", "X-X-X-X-X-X-X-X-")
			for j := range f.Levels[i].Bass {
				if f.Levels[i].Bass[j].Degree != 0 {
					f.Levels[i].Bass[j].Touch = feel.Strong
				}
			}
		}
	})
	for energy := 1; energy <= 5; energy++ {
		for take := 1; take <= 5; take++ {
			tl := song(t, section{name: "a", chords: "C|F|G|C", energy: energy, change: func(p *timeline.Pass) {
				event(p, timeline.Accent, 1, quarter, nil)
				event(p, timeline.Accent, 1, 3*quarter+quarter/2, func(e *timeline.Event) { e.Weight = 3 })
			}}, section{name: "b", chords: "C", energy: 2})
			tl.Take, tl.Looseness = take, 0
			part := PerformPass(tl, &tl.Passes[0], set)
			bar := tl.Passes[0].Bars[1]
			for _, who := range []timeline.Player{timeline.Drums, timeline.Bass} {
				hits := map[int64]uint8{}
				loudest := uint8(0)
				for _, n := range within(part.Notes[who], bar.Start, bar.Start+bar.Length) {
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

func loudestAt(notes []Note, tick int64) uint8 {
	v := uint8(0)
	for _, n := range within(notes, tick, tick+1) {
		v = max(v, n.Velocity)
	}
	return v
}

func TestAloneLeavesTheHitsOnly(t *testing.T) {
	set := testSet(nil)
	tl := song(t, section{name: "a", chords: "C|F G|C", energy: 4, change: func(p *timeline.Pass) {
		event(p, timeline.Accent, 1, quarter, func(e *timeline.Event) { e.Alone = true })
	}}, section{name: "b", chords: "C", energy: 2})
	for _, loose := range []int{0, 1000} {
		tl.Looseness = loose
		bar := tl.Passes[0].Bars[1]
		for who, notes := range PerformPass(tl, &tl.Passes[0], set).Notes {
			for _, n := range notes {
				if n.Tick < bar.Start && n.Tick+n.Length > bar.Start {
					t.Errorf("%s: a note rings into the bar", timeline.Player(who))
				}
			}
			for _, n := range within(notes, bar.Start, bar.Start+bar.Length) {
				if d := n.Tick - bar.Start - quarter; d < -quarter/8 || d > quarter/8 {
					t.Errorf("%s: key %d sounds %d ticks off the hit", timeline.Player(who), n.Key, d)
				}
			}
			if who != int(timeline.Piano) && len(within(notes, bar.Start, bar.Start+bar.Length)) == 0 {
				t.Errorf("%s: the hit is missing", timeline.Player(who))
			}
		}
	}
}

func TestPushLeavesTheDownbeat(t *testing.T) {
	set := testSet(nil)
	for _, last := range []bool{false, true} {
		bar := 1
		if last {
			bar = 3
		}
		for _, energy := range []int{2, 5} {
			tl := song(t, section{name: "a", chords: "C|F|G|C", energy: energy, change: func(p *timeline.Pass) {
				event(p, timeline.Push, bar, 3*quarter+quarter/2, nil)
			}}, section{name: "b", chords: "Am|F", energy: energy})
			tl.Looseness = 1000
			perf := Perform(tl, set)
			e := tl.Passes[0].Events[0]
			for _, who := range []timeline.Player{timeline.Drums, timeline.Bass} {
				name := fmt.Sprintf("last bar %t, energy %d, %s", last, energy, who)
				notes := perf.Parts[who]
				hit := within(notes, e.Tick-quarter/4, e.Tick+quarter/4)
				if len(hit) == 0 {
					t.Errorf("%s: nothing sounds at the push", name)
					continue
				}
				if late := within(notes, e.Tick+quarter/4, e.Target+quarter/8); len(late) > 0 {
					t.Errorf("%s: %d notes begin between the push and its target", name, len(late))
				}
				if who == timeline.Bass {
					n := hit[len(hit)-1]
					if n.Tick+n.Length <= e.Target {
						t.Errorf("%s: the bass is not tied over", name)
					}
				}
				if who == timeline.Drums {
					if crash := len(onsets(hit, 49)) > 0; crash != (energy >= 4) || len(onsets(hit, 36)) == 0 {
						t.Errorf("%s: crash %t", name, crash)
					}
				}
			}
		}
	}
}

func TestStopIsSilence(t *testing.T) {
	set := testSet(nil)
	for loose := 0; loose <= 1000; loose += 250 {
		for take := 1; take <= 20; take++ {
			tl := song(t, section{name: "a", chords: "C|F|G", energy: 4, change: func(p *timeline.Pass) {
				event(p, timeline.Stop, 1, 2*quarter, func(e *timeline.Event) { e.End = e.Tick + quarter })
				event(p, timeline.Stop, 2, 2*quarter, nil)
			}}, section{name: "b", chords: "C|F", energy: 4})
			tl.Looseness, tl.Take = loose, take
			for who, notes := range Perform(tl, set).Parts {
				for _, n := range notes {
					for _, e := range tl.Passes[0].Events {
						if n.Tick < e.End && n.Tick+n.Length > e.Tick {
							t.Fatalf("looseness %d, take %d, %s: key %d sounds from %d for %d in the stop from %d to %d",
								loose, take, timeline.Player(who), n.Key, n.Tick, n.Length, e.Tick, e.End)
						}
					}
				}
			}
		}
	}
}

func TestHeldBeatIsNotSubdivided(t *testing.T) {
	set := testSet(nil)
	tl := song(t, section{name: "a", chords: "C|F|G|C", energy: 5, change: func(p *timeline.Pass) {
		event(p, timeline.Hold, 1, 2*quarter, func(e *timeline.Event) { e.End = e.Tick + quarter })
	}}, section{name: "b", chords: "C", energy: 5})
	e := tl.Passes[0].Events[0]
	part := PerformPass(tl, &tl.Passes[0], set)
	for _, who := range []timeline.Player{timeline.Drums, timeline.Bass} {
		if n := within(part.Notes[who], e.Tick+1, e.End); len(n) > 0 {
			t.Errorf("%s: %d notes begin in the held beat", who, len(n))
		}
	}
}

func TestSongComesToRest(t *testing.T) {
	set := testSet(nil)
	tl := song(t, section{name: "a", chords: "C|F|G|C", energy: 5})
	part := PerformPass(tl, &tl.Passes[0], set)
	last := tl.Passes[0].Bars[3].Start
	if n := within(part.Notes[timeline.Drums], last+1, tl.End); len(n) > 0 {
		t.Errorf("%d strokes after the last hit", len(n))
	}
	if n := within(part.Notes[timeline.Drums], last, last+1); len(onsets(n, 49)) != 1 || len(onsets(n, 36)) != 1 {
		t.Errorf("the last hit is %v, want kick and crash", n)
	}
	bass := within(part.Notes[timeline.Bass], last, tl.End)
	if len(bass) != 1 || bass[0].Tick+bass[0].Length != tl.End {
		t.Errorf("the bass ends with %v", bass)
	}
}

func TestTacetIsSilent(t *testing.T) {
	set := testSet(nil)
	tl := song(t, section{name: "a", chords: "C|F", energy: 3, tacet: timeline.Only(timeline.Drums)},
		section{name: "b", chords: "C|F", energy: 3, tacet: timeline.All})
	perf := Perform(tl, set)
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
	set := testSet(func(f *feel.Feel) {
		f.Levels[4].Drums = rows("hat", "xxxxxxxxxxxxxxxx", "ride", "x---x---x---x---", "snare", "xgxgxgxgfgxgdgxg",
			"tom_low", "x-x-x-x-x-x-x-x-", "kick", "xxxxxxxxxxxxxxxx", "hat_foot", "x---x---x---x---")
	})
	for _, bpm := range []int{60, 100, 140, 200, 280, 400} {
		for energy := 1; energy <= 5; energy++ {
			for take := 1; take <= 4; take++ {
				tl := song(t, section{name: "a", chords: "C|F|G|C|C|F|G|C", energy: energy, bpm: bpm, change: func(p *timeline.Pass) {
					event(p, timeline.Accent, 1, 0, func(e *timeline.Event) { e.Weight = 3 })
					event(p, timeline.Push, 2, 3*quarter+quarter/2, nil)
					event(p, timeline.Fill, 5, 0, nil)
				}}, section{name: "b", chords: "C", energy: 5, bpm: bpm})
				tl.Take, tl.Looseness = take, 1000
				notes := PerformPass(tl, &tl.Passes[0], set).Notes[timeline.Drums]
				if fault := tooManyLimbs(NewClock(tl.Passes[0].Tempos), notes); fault != "" {
					t.Fatalf("%d bpm, energy %d, take %d: %s", bpm, energy, take, fault)
				}
			}
		}
	}
}

// tooManyLimbs says where two hands or two feet do not reach. The two grace strokes
// of a drag are one hand's rebound and count with the stroke they lead to.
func tooManyLimbs(c Clock, notes []Note) string {
	limbOf := map[uint8]feel.Limb{}
	for _, v := range feel.Voices() {
		limbOf[v.Key] = v.Limb
	}
	var last [3][]int64
	for i, n := range notes {
		limb := limbOf[n.Key]
		at := c.Micros(n.Tick)
		if limb == feel.Hand && grace(c, notes, i) {
			continue
		}
		together := 1
		if limb == feel.Hand {
			together = 2
		}
		if l := last[limb]; len(l) >= together && at-l[len(l)-together] < limbLimitUS {
			return fmt.Sprintf("%d strokes of limb %d within %d microseconds at tick %d", together+1, limb, at-l[len(l)-together], n.Tick)
		}
		last[limb] = append(last[limb], at)
	}
	return ""
}

func grace(c Clock, notes []Note, i int) bool {
	for _, n := range notes[i+1:] {
		if c.Micros(n.Tick)-c.Micros(notes[i].Tick) > 100_000 {
			return false
		}
		if n.Key == notes[i].Key && n.Velocity > notes[i].Velocity && notes[i].Velocity <= ghostCeiling {
			return true
		}
	}
	return false
}
