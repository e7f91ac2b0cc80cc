package groove_test

import (
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// feelInside gives bars of a pass a feel.
func feelInside(from, to int, name string) func(p *timeline.Pass) {
	return groovetest.Inside(from, to, func(b *timeline.Bar) { b.Feel = name })
}

// Another feel is played in its bars alone. The pianist may strike a chord early in the bar
// before, and behind it counts on otherwise in which bars a hand holds on.
func TestAFeelIsPlayedInItsBarsAlone(t *testing.T) {
	set := library.Builtin()
	for _, f := range [][2]string{{"backbeat-eighths", "swing"}, {"swing", "bossa"}, {"ballad-eighths", "pulse"},
		{"bossa", "brushes-ballad"}, {"two-beat", "slow-twelve"}} {
		plain := groove.Perform(insideSong(t, f[0], 3, nil), set)
		other := groove.Perform(insideSong(t, f[0], 3, feelInside(5, 7, f[1])), set)
		for who := range timeline.PlayerNames {
			who, changed := timeline.Player(who), barsThatDiffer(plain, other, timeline.Player(who), false)
			if !slices.Contains(changed, 5) || !slices.Contains(changed, 6) {
				t.Errorf("%v, %s: bars 5 and 6 are as in the other feel", f, who)
			}
			for _, bar := range changed {
				if bar < 4 || bar == 4 && who != timeline.Piano || bar > 7 && who != timeline.Piano {
					t.Errorf("%v, %s: bar %d is another with a feel in bars 5-7", f, who, bar)
				}
			}
		}
		for i, loud := range []float64{loudnessIn(plain, timeline.Drums, 10), loudnessIn(other, timeline.Drums, 10)} {
			if loud == 0 || i > 0 && loud != loudnessIn(plain, timeline.Drums, 10) {
				t.Errorf("%v: the drummer of bar 10 is %.1f loud", f, loud)
			}
		}
	}
}

// Off-beats swing where their bar does: a push out of a swung bar is late for everybody, a push
// into one is not.
func TestSwingIsTheBars(t *testing.T) {
	set := library.Builtin()
	tl := insideSong(t, "backbeat-eighths", 4, func(p *timeline.Pass) {
		feelInside(5, 6, "swing")(p)
		groovetest.Event(p, timeline.Push, 3, 7*quarter/2, nil)
		groovetest.Event(p, timeline.Push, 5, 7*quarter/2, nil)
	})
	tl.Looseness = 0
	perf := groove.Perform(tl, set)
	for _, row := range []struct {
		bar  int
		late bool
	}{{3, false}, {5, true}} {
		at := int64(row.bar)*4*quarter + 7*quarter/2
		for who, notes := range perf.Passes[0].Notes {
			who, n := timeline.Player(who), groovetest.Within(notes, at-30, at+300)
			if len(n) == 0 {
				t.Fatalf("%s has no push out of bar %d", who, row.bar+1)
			}
			late, together := n[0].Tick-at, n[0].Tick == n[len(n)-1].Tick
			if (late > 100) != row.late || !row.late && late != 0 || !together {
				t.Errorf("%s: a push out of bar %d comes %d ticks after the off-beat", who, row.bar+1, late)
			}
		}
	}
}

// A bar swings at the tempo that bars set, as a whole pass at that tempo does: at 300 the swing is
// nearly even, and at 100 it is not. A push out of a pass swings at the tempo of its bar, too.
func TestSwingIsThatOfTheTempoInBars(t *testing.T) {
	offbeat := func(top string, bar int, lines ...string) (ticks []int64) {
		tl := songfiletest.Song(t, sketch("Swung", "looseness = 0\nfeel = \"swing\"\n"+top, part("verse", 3,
			"| C | F | G | C |", append(lines, at("push", "last: 4&"))...), part("end", 3, "| C | C |")))
		perf := groove.Perform(tl, library.Builtin())
		for who := range perf.Parts {
			for _, n := range groovetest.Within(perf.Parts[who], int64(bar)*3840+3*quarter, int64(bar)*3840+4*quarter) {
				if at := n.Tick % quarter; at > 0 && at < quarter-10 {
					ticks = append(ticks, at)
				}
			}
		}
		slices.Sort(ticks)
		return slices.Compact(ticks)
	}
	for _, bar := range []int{2, 3} {
		slow := offbeat("tempo = 100", bar)
		fast := offbeat("tempo = 300", bar)
		inside := offbeat("tempo = 300", bar, inBars("3-", "tempo = 100"))
		if !slices.Equal(inside, slow) || slices.Equal(inside, fast) || len(slow) == 0 {
			t.Errorf("bar %d: off-beats at %v, in a song at that tempo %v, in one at 300 %v", bar+1, inside, slow, fast)
		}
	}
	before, plain := offbeat("tempo = 300", 1, inBars("3-", "tempo = 100")), offbeat("tempo = 300", 1)
	if !slices.Equal(before, plain) {
		t.Errorf("bar 2, before the tempo: %v", before)
	}
}

// A feel that only a bar names is loaded and played from a song file, and when its groove
// changes the pass is played again.
func TestFeelsOfBarsAreKnown(t *testing.T) {
	tl := songfiletest.Song(t, sketch("Known", backbeat, part("verse", 3, "| C | F | G | C |",
		inBars("3", `feel = "swing"`)), part("end", 3, "| C | C |")))
	own := func(change func(f *feel.Feel)) *feel.Set {
		set := &feel.Set{Feels: map[string]*feel.Feel{}, Fills: library.Builtin().Fills}
		for name, f := range library.Builtin().Feels {
			set.Feels[name] = f
		}
		swing := *set.Feels["swing"]
		change(&swing)
		set.Feels["swing"] = &swing
		return set
	}
	var c groove.Cache
	c.Perform(tl, own(func(*feel.Feel) {}))
	c.Perform(tl, own(func(f *feel.Feel) { f.LagMS = map[string]int{"bass": 40} }))
	if c.Played != 1 || c.Reused != 1 {
		t.Errorf("another swing: %d passes are played again and %d kept; the verse alone has a bar of it", c.Played,
			c.Reused)
	}
}
