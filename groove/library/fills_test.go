package library

import (
	"fmt"
	"sort"
	"testing"

	"plinth/groove/feel"
)

// familyTempo is the quickest tempo, in the fill's beats a minute, at which a
// groove uses a family.
func familyTempo(family string) int {
	top := 0
	for _, n := range Names() {
		if f := Builtin().Feels[n]; f.Fills == family {
			top = max(top, f.TempoHigh*int(f.QuartersAsOne()))
		}
	}
	return top
}

// TestFillsAreComplete: for every family, length, colour and energy there is
// exactly one fill, so that a player never has to look further.
func TestFillsAreComplete(t *testing.T) {
	for _, family := range families {
		count := map[string]int{}
		for _, f := range LoadFills(family) {
			for e := 1; e <= 5; e++ {
				if f.Suits(e) {
					count[fmt.Sprint(f.Beats, f.Colour, e)]++
				}
			}
			if f.Family != family {
				t.Errorf("%s: %q is of family %s", family, f.Name, f.Family)
			}
		}
		for _, beats := range []int{1, 2, 4} {
			for colour := 0; colour < 6; colour++ {
				for e := 1; e <= 5; e++ {
					if n := count[fmt.Sprint(beats, colour, e)]; n != 1 {
						t.Errorf("%s: %d fills of %d beats, colour %d, energy %d; want 1", family, n, beats, colour, e)
					}
				}
			}
		}
		if familyTempo(family) == 0 {
			t.Errorf("no groove uses the fills %s", family)
		}
	}
}

// shape is what is heard of the last beats of a fill.
func shape(f feel.Fill, beats int) string {
	from := (f.Beats - beats) * f.Grid
	var rows []string
	for _, r := range f.Rows {
		if s := fmt.Sprint(r.Steps[from:]); onsets(r, from) > 0 {
			rows = append(rows, r.Voice.Word+s)
		}
	}
	sort.Strings(rows)
	return fmt.Sprint(rows)
}

func onsets(r feel.Row, from int) int {
	n := 0
	for _, s := range r.Steps[from:] {
		if s.Touch > feel.Sound {
			n++
		}
	}
	return n
}

// TestFillsDiffer: two fills that one section can choose between differ whole,
// and also when only their last three beats, or their last one, are played.
func TestFillsDiffer(t *testing.T) {
	for _, family := range families {
		for _, beats := range []int{1, 2, 3, 4} {
			for e := 1; e <= 5; e++ {
				for _, tail := range []int{4, 3, 2, 1} {
					if tail > beats {
						continue
					}
					seen := map[string]string{}
					for _, f := range LoadFills(family) {
						if f.Beats != beats || !f.Suits(e) {
							continue
						}
						s := shape(f, tail)
						if other, ok := seen[s]; ok {
							t.Errorf("%s: the last %d beats of %q and %q are the same at energy %d", family, tail,
								other, f.Name, e)
						}
						if s == "[]" {
							t.Errorf("%s: nothing in the last %d beats of %q", family, tail, f.Name)
						}
						seen[s] = f.Name
					}
				}
			}
		}
	}
}

// TestFillsPlayable: two hands at the quickest tempo of any groove that uses the
// family; a kick no quicker than drummers play it: 116 ms apart (Groove MIDI
// Dataset, 1 % of 74,356 gaps are shorter).
func TestFillsPlayable(t *testing.T) {
	for _, family := range families {
		bpm := familyTempo(family)
		for _, f := range LoadFills(family) {
			step := 60_000_000 / bpm / f.Grid
			if at := handsKeepUp(f.Rows, step, false); at >= 0 {
				t.Errorf("%s %q: step %d comes too soon for two hands at %d", family, f.Name, at, bpm)
			}
			for i := 0; i < f.Beats*f.Grid; i++ {
				if why := feel.Clash(f.Rows, i); why != "" {
					t.Errorf("%s %q: step %d: %s", family, f.Name, i, why)
				}
			}
			for _, r := range f.Rows {
				last := -1
				for i, s := range r.Steps {
					if r.Voice.Word != "kick" || s.Touch <= feel.Sound {
						continue
					}
					if last >= 0 && (i-last)*step < 116_000 {
						t.Errorf("%s %q: the kick at step %d comes %d us after the one before", family, f.Name, i,
							(i-last)*step)
					}
					last = i
				}
			}
		}
	}
}

// TestAskedFillsBegin: a fill that the song asks for begins with a stroke of the hands, and then rests
// for a beat and a half at most, since the time has stopped. Common practice, no single source.
func TestAskedFillsBegin(t *testing.T) {
	asked := 0
	for _, family := range families {
		for _, f := range LoadFills(family) {
			if f.Colour < feel.AskedColour {
				continue
			}
			asked++
			struck := 0
			for i := range f.Beats * f.Grid {
				if handsAt(f.Rows, i) > 0 {
					struck = i
				}
				if handsAt(f.Rows, 0) == 0 || 2*(i-struck) >= 3*f.Grid {
					t.Errorf("%s %q rests at step %d", family, f.Name, i)
				}
			}
		}
	}
	if asked < 180 {
		t.Errorf("only %d fills", asked)
	}
}

// TestFillsLeaveTheFirstHalfToTime: a closing fill of two beats or more begins half-way, so that the time
// keeps the first half with its kick and backbeat, and if it has begun by its last beat, a hand
// strikes that beat, which is the backbeat of a bar of four. Common practice, no single source.
func TestFillsLeaveTheFirstHalfToTime(t *testing.T) {
	for _, family := range families {
		for _, f := range LoadFills(family) {
			if f.Colour >= feel.AskedColour {
				continue
			}
			first, last := -1, (f.Beats-1)*f.Grid
			for i := range f.Beats * f.Grid {
				if first < 0 && handsAt(f.Rows, i) > 0 {
					first = i
				}
			}
			if f.Beats > 1 && 2*first < f.Beats*f.Grid {
				t.Errorf("%s %q begins at step %d", family, f.Name, first)
			}
			if first < last && handsAt(f.Rows, last) == 0 && family != "bossa" && family != "brushes" {
				t.Errorf("%s %q does not strike its last beat", family, f.Name)
			}
		}
	}
}

// TestFillsHoldBack: drummers' fills have 3.96 hits a beat (Groove MIDI Dataset);
// ours have fewer on average, and the gentle ones fewer than the full ones.
func TestFillsHoldBack(t *testing.T) {
	hits, beats := map[bool]int{}, map[bool]int{}
	for _, family := range families {
		for _, f := range LoadFills(family) {
			gentle := f.Suits(2)
			beats[gentle] += f.Beats
			for _, r := range f.Rows {
				hits[gentle] += onsets(r, 0)
				if r.Voice.Word == "crash" {
					t.Errorf("%s %q has a crash: that is the player's", family, f.Name)
				}
				for _, s := range r.Steps {
					if s.Touch == feel.Strong && gentle {
						t.Errorf("%s %q is gentle and has a strong stroke", family, f.Name)
					}
				}
			}
		}
	}
	perBeat := func(gentle bool) int { return 100 * hits[gentle] / beats[gentle] }
	if perBeat(false) >= 396 || perBeat(true) >= perBeat(false) {
		t.Errorf("hits a beat: full %d/100, gentle %d/100", perBeat(false), perBeat(true))
	}
	t.Logf("hits a beat: full %d/100, gentle %d/100", perBeat(false), perBeat(true))
}
