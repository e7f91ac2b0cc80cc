package groove_test

import (
	"math/rand"
	"reflect"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// The design's rule: a pass's notes depend on its own content, the section's name,
// its ordinal and the take; of its neighbours only on the chord before and after,
// on the energy there, which its last two bars lead to, and on a push across the border.

var bandChords = []string{"C", "Am7", "F", "G7sus4", "Dm7", "Bb", "Eb/G", "E7", "Abmaj7", "N.C."}

// bandForm is a song of a few sections, each played once or more.
func bandForm(t *testing.T, r *rand.Rand) (names []string, of map[string]groovetest.Section,
	build func() *timeline.Timeline) {
	of = map[string]groovetest.Section{}
	for _, name := range []string{"verse", "chorus", "bridge"} {
		of[name] = bandSection(r, name)
	}
	for i := 0; i < 4+r.Intn(5); i++ {
		names = append(names, []string{"verse", "chorus", "bridge"}[r.Intn(3)])
	}
	take, loose := 1+r.Intn(50), r.Intn(1001)
	return names, of, func() *timeline.Timeline {
		var all []groovetest.Section
		for _, n := range names {
			all = append(all, of[n])
		}
		tl := groovetest.Song(t, all...)
		tl.Take, tl.Looseness = take, loose
		groovetest.Join(tl)
		return tl
	}
}

func bandSection(r *rand.Rand, name string) groovetest.Section {
	s := groovetest.Section{Name: name, Energy: 1 + r.Intn(5), BPM: 60 + r.Intn(120)}
	s.Chords = bandChart(r, "C", "G")
	s.Change = bandEvents(r)
	return s
}

// bandChart is a chart with a first and a last chord that stay.
func bandChart(r *rand.Rand, first, last string) string {
	text := first
	for i := 0; i < 2+r.Intn(8); i++ {
		text += "|" + bandChords[r.Intn(len(bandChords))]
		if r.Intn(3) == 0 {
			text += " " + bandChords[r.Intn(len(bandChords))]
		}
	}
	return text + "|" + last
}

// bandEvents stay inside their section: none pushes out of it.
func bandEvents(r *rand.Rand) func(p *timeline.Pass) {
	seed := r.Int63()
	return func(p *timeline.Pass) {
		r := rand.New(rand.NewSource(seed))
		for i := 0; i < r.Intn(5); i++ {
			bar := r.Intn(len(p.Bars) - 1)
			kind := []timeline.EventKind{timeline.Accent, timeline.Push, timeline.Stop, timeline.Fill}[r.Intn(4)]
			at := int64(r.Intn(8)) * quarter / 2
			if kind == timeline.Push {
				at = 3*quarter + quarter/2
			}
			groovetest.Event(p, kind, bar, at, func(e *timeline.Event) {
				e.Weight = 1 + r.Intn(3)
				e.Alone = kind == timeline.Accent && r.Intn(6) == 0
			})
		}
	}
}

func TestEditingASectionMovesNoOther(t *testing.T) {
	set := groovetest.Set(nil)
	other := groovetest.Feel()
	other.Name, other.Swing = "other", feel.Swing{Mode: "ratio", PerMille: 2000, Unit: "eighth"}
	set.Feels["other"] = other
	r := rand.New(rand.NewSource(7))
	moved := 0
	for round := 0; round < 120; round++ {
		names, of, build := bandForm(t, r)
		before := groove.Perform(build(), set)
		edited := names[r.Intn(len(names))]
		s := of[edited]
		what := r.Intn(4)
		switch what {
		case 0:
			s.Chords = bandChart(r, "C", "G")
		case 1:
			s.Feel = "other"
		case 2:
			s.Change = bandEvents(r)
		case 3:
			s.BPM += 7
		}
		of[edited] = s
		after := groove.Perform(build(), set)
		for i, name := range names {
			same := reflect.DeepEqual(before.Passes[i], after.Passes[i])
			if name != edited && !same {
				t.Fatalf("round %d: edit %d of %s moved pass %d, %s", round, what, edited, i, name)
			}
			if name == edited && !same {
				moved++
			}
		}
	}
	if moved < 60 {
		t.Fatalf("the edits moved %d passes of their own: too few to show anything", moved)
	}
}

// The last two bars of a pass may know the energy of the next, and its closing fill does.
// Nothing else of the pass does, and with neither leading nor a fill nothing at all.
func TestNextEnergyMovesTheLastTwoBarsAlone(t *testing.T) {
	set := groovetest.Set(nil)
	moved := 0
	for _, free := range []bool{true, false} {
		for take := 1; take <= 10; take++ {
			for here := 1; here <= 5; here++ {
				of := func(next int) (*timeline.Pass, groove.PassPart) {
					s := groovetest.Long(8, here)
					s.NoFills = !free
					s.Change = func(p *timeline.Pass) { p.Lead = free }
					tl := groovetest.Song(t, s, groovetest.Section{Name: "next", Chords: "C|F|G|C", Energy: next})
					tl.Take, tl.Looseness = take, 100*take
					return &tl.Passes[0], groove.Perform(tl, set).Passes[0]
				}
				pass, was := of(1)
				until := pass.Length
				if free {
					until = pass.Bars[len(pass.Bars)-plan.LeadBars].Start
				}
				for next := 2; next <= 5; next++ {
					_, is := of(next)
					if !reflect.DeepEqual(was.Notes, is.Notes) {
						moved++
					}
					for who := range is.Notes {
						a, b := before(&was, who, until), before(&is, who, until)
						if len(a) == 0 || !reflect.DeepEqual(a, b) {
							t.Fatalf("take %d, %d before %d, %s: a note before tick %d has moved, leading %t", take,
								here, next, timeline.Player(who), until, free)
						}
					}
				}
			}
		}
	}
	if moved < 150 {
		t.Errorf("the next pass moved the end of %d passes: too few to show anything", moved)
	}
}

// before are the played notes of a player that are meant before a tick.
func before(part *groove.PassPart, who int, tick int64) (out []groove.Note) {
	for _, n := range part.Notes[who] {
		if meant := part.Score.Parts[who].Notes[n.Meant]; meant.At < tick {
			n.Meant = 0 // an index, which a fill moves
			out = append(out, n)
		}
	}
	return out
}

func TestSameTakeSameNotes(t *testing.T) {
	set := groovetest.Set(nil)
	r := rand.New(rand.NewSource(3))
	_, _, build := bandForm(t, r)
	tl := build()
	tl.Looseness = 400
	a, b := groove.Perform(tl, set), groove.Perform(tl, set)
	if !reflect.DeepEqual(a, b) {
		t.Error("the same take sounds different")
	}
	tl.Take++
	if reflect.DeepEqual(a.Parts, groove.Perform(tl, set).Parts) {
		t.Error("another take sounds the same")
	}
}

// The place in the form is not part of a pass: moved as it is, it is played as it
// was.
func TestPlaceInTheFormDoesNotCount(t *testing.T) {
	set := groovetest.Set(nil)
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 3},
		groovetest.Section{Name: "b", Chords: "C|F|G|C", Energy: 3},
		groovetest.Section{Name: "c", Chords: "C|F|G|C", Energy: 3})
	tl.Looseness = 700
	pass := tl.Passes[1]
	was := playedAlone(tl, pass, set)
	pass.Index, pass.Start, pass.FirstBar = 40, 999*quarter, 77
	if !reflect.DeepEqual(was, playedAlone(tl, pass, set)) {
		t.Error("the pass changed with its place")
	}
}

// What every part must hold to, on random songs: velocities from 1 to 127, no two
// notes of one pitch at once, none shorter than 10 ms, none before the song or past
// its end, and two hands and two feet for the kit.
func TestEveryPartHolds(t *testing.T) {
	const shortestUS = 10_000
	set := groovetest.Set(nil)
	r := rand.New(rand.NewSource(5))
	for round := 0; round < 150; round++ {
		_, _, build := bandForm(t, r)
		tl := build()
		perf := groove.Perform(tl, set)
		for who, notes := range perf.Parts {
			var end [128]int64
			for i, n := range notes {
				if n.Velocity < 1 || n.Velocity > 127 || n.Length < 1 || n.Tick < 0 || n.Tick+n.Length > tl.End {
					t.Fatalf("round %d, %s: %+v", round, timeline.Player(who), n)
				}
				if n.Tick < end[n.Key] {
					t.Fatalf("round %d, %s: key %d twice at once at %d", round, timeline.Player(who), n.Key, n.Tick)
				}
				end[n.Key] = n.Tick + n.Length
				if i > 0 && notes[i-1].Tick > n.Tick {
					t.Fatalf("round %d, %s: out of order at %d", round, timeline.Player(who), n.Tick)
				}
			}
		}
		for i, part := range perf.Passes {
			c := timeline.NewClock(tl.Passes[i].Tempos)
			if fault := groovetest.TooManyLimbs(c, part.Notes[timeline.Drums]); fault != "" {
				t.Fatalf("round %d, pass %d: %s", round, i, fault)
			}
			for who, notes := range part.Notes {
				for _, n := range notes {
					if c.Micros(n.Tick+n.Length)-c.Micros(n.Tick) < shortestUS-1000 {
						t.Fatalf("round %d, %s: %+v is too short", round, timeline.Player(who), n)
					}
				}
			}
		}
	}
}

func TestClick(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F", Energy: 3, Change: func(p *timeline.Pass) {
		groovetest.Event(p, timeline.Stop, 1, 0, nil)
	}})
	if n := len(groove.Perform(tl, groovetest.Set(nil)).Click); n != 0 {
		t.Errorf("%d clicks without a count-in", n)
	}
	tl.CountIn, tl.Lead, tl.LeadBars = 1, 4*quarter, 1
	tl.Passes[0].Start, tl.End = tl.Lead, tl.End+tl.Lead
	click := groove.Perform(tl, groovetest.Set(nil)).Click
	if len(click) != 12 {
		t.Fatalf("%d clicks in three bars of four", len(click))
	}
	for i, n := range click {
		// General MIDI percussion map: 76 high wood block, 77 low wood block.
		want := uint8(77)
		if i%4 == 0 {
			want = 76
		}
		if n.Tick != int64(i)*quarter || n.Key != want {
			t.Errorf("click %d: key %d at %d", i, n.Key, n.Tick)
		}
	}
}
