package groove_test

import (
	"reflect"
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// insideSong is twelve bars of a feel at an energy before a chorus, with a change of bars.
func insideSong(t *testing.T, name string, energy int, change func(p *timeline.Pass)) *timeline.Timeline {
	t.Helper()
	tl := groovetest.Song(t,
		groovetest.Section{Name: "verse", Chords: "C|Am|F|G|C|Am|F|G|C|Am|F|G", Feel: name, Energy: energy,
			Change: change},
		groovetest.Section{Name: "chorus", Chords: "C|F|G|C", Feel: name, Energy: energy})
	tl.Looseness = 400
	return tl
}

// barsThatDiffer are the bars of the first pass, from 1, in which a player means other notes
// in the two songs: other places, or with keys other keys.
func barsThatDiffer(a, b *groove.Performance, who timeline.Player, keys bool) []int {
	type note struct {
		at    int64
		key   uint8
		touch uint8
	}
	read := func(perf *groove.Performance) map[int][]note {
		out := map[int][]note{}
		for _, n := range perf.Passes[0].Score.Parts[who].Notes {
			m := note{at: n.At, touch: uint8(n.Touch)}
			if keys {
				m.key = n.Key
			}
			out[int(n.At/3840)] = append(out[int(n.At/3840)], m)
		}
		return out
	}
	x, y := read(a), read(b)
	var out []int
	for bar := range 12 {
		if !reflect.DeepEqual(x[bar], y[bar]) {
			out = append(out, bar+1)
		}
	}
	return out
}

// A break of two bars is played in those bars alone, and the first beat after it is marked:
// nobody grows through it, and nobody makes less of the bars before it. The pianist may strike a
// chord early in bar 4, as ever, and counts off in which bars a hand holds on: behind the break
// the count may be another.
func TestABreakIsPlayedInItsBarsAlone(t *testing.T) {
	for _, name := range []string{"ballad-eighths", "swing", "backbeat-eighths", "bossa", "ballad-in-two"} {
		set := library.Builtin()
		plain := groove.Perform(insideSong(t, name, 4, nil), set)
		broken := groove.Perform(insideSong(t, name, 4, groovetest.EnergyInside(5, 6, 1, 1)), set)
		for who := range timeline.PlayerNames {
			who := timeline.Player(who)
			for _, bar := range barsThatDiffer(plain, broken, who, who == timeline.Drums) {
				own := who == timeline.Drums && bar == 7 || who == timeline.Piano && bar > 3
				if bar != 5 && bar != 6 && !own {
					t.Errorf("%s, %s: bar %d is another with a break in bars 5-6", name, who, bar)
				}
			}
		}
		alone := groove.Perform(insideSong(t, name, 1, nil), set)
		for _, bar := range barsThatDiffer(alone, broken, timeline.Drums, true) {
			if bar == 5 || bar == 6 {
				t.Errorf("%s: bar %d of the break is not as at energy 1", name, bar)
			}
		}
		if !has(broken, 7, 49) || has(plain, 7, 49) || has(broken, 5, 49) {
			t.Errorf("%s: a crash marks bar 7, in which the band is back, and nothing else does", name)
		}
	}
}

// has reports whether a bar of the first pass, from 1, begins with a stroke on a key of the kit.
func has(perf *groove.Performance, bar int, key uint8) bool {
	for _, n := range perf.Passes[0].Score.Parts[timeline.Drums].Notes {
		if n.At == int64(bar-1)*3840 && n.Key == key {
			return true
		}
	}
	return false
}

// loudnessIn is the mean velocity of a player in a bar of the first pass, from 1.
func loudnessIn(perf *groove.Performance, who timeline.Player, bar int) float64 {
	sum, n := 0.0, 0.0
	for _, x := range perf.Passes[0].Notes[who] {
		if m := perf.Passes[0].Score.Parts[who].Notes[x.Meant]; int(m.At/3840) == bar-1 {
			sum, n = sum+float64(x.Velocity), n+1
		}
	}
	return sum / max(1, n)
}

// Where the energy is higher from a bar on, the band leads to it in the two bars before, as
// before a chorus: louder, and with strokes more. lead = false has none of it.
func TestTheBandLeadsToARiseInside(t *testing.T) {
	for _, name := range []string{"ballad-eighths", "swing", "backbeat-eighths"} {
		set := library.Builtin()
		rise := groovetest.EnergyInside(7, 12, 5, 5)
		plain := groove.Perform(insideSong(t, name, 2, nil), set)
		led := groove.Perform(insideSong(t, name, 2, rise), set)
		flat := groove.Perform(insideSong(t, name, 2, func(p *timeline.Pass) { rise(p); p.Lead = false }), set)
		grown := false
		for who := range timeline.PlayerNames {
			who := timeline.Player(who)
			for bar := 1; bar <= 6; bar++ {
				was, is := loudnessIn(plain, who, bar), loudnessIn(led, who, bar)
				grown = grown || bar == 6 && is > was+3
				if bar < 5 && who == timeline.Drums && was != is {
					t.Errorf("%s, %s: bar %d has %.1f, and %.1f where bar 7 rises", name, who, bar, was, is)
				}
				if still := loudnessIn(flat, who, bar); who == timeline.Drums && still != was {
					t.Errorf("%s, %s: lead is off, and bar %d has %.1f and not %.1f", name, who, bar, still, was)
				}
			}
			if low, high := loudnessIn(led, who, 6), loudnessIn(led, who, 7); high < low+5 {
				t.Errorf("%s, %s: from %.1f to %.1f where the energy goes from 2 to 5", name, who, low, high)
			}
		}
		if !grown {
			t.Errorf("%s: nobody grows into bar 7", name)
		}
	}
}

// A pass whose energy moves sounds the same whether the pass says so or its bars do.
func TestEnergyOfTheBarsIsThatOfThePass(t *testing.T) {
	set := library.Builtin()
	for _, e := range [][2]int{{2, 4}, {5, 2}, {3, 3}} {
		pass := func(p *timeline.Pass) { p.EnergyFrom, p.EnergyTo = e[0], e[1] }
		bars := func(p *timeline.Pass) { groovetest.EnergyInside(1, len(p.Bars), e[0], e[1])(p) }
		a := groove.Perform(insideSong(t, "swing", 3, pass), set)
		b := groove.Perform(insideSong(t, "swing", 3, bars), set)
		if !reflect.DeepEqual(a.Parts, b.Parts) {
			t.Errorf("energy %d to %d: the bars say what the pass says, and sound otherwise", e[0], e[1])
		}
	}
}

// Behind bars in a feel without drums the drummer comes in again with a crash, as behind bars that
// he keeps out of, at energy 4 and 5 alone.
func TestADrummerWhoComesBackStrikesACrash(t *testing.T) {
	for _, back := range []string{`feel = "sustain"`, tacet("drums")} {
		for energy := 3; energy <= 5; energy++ {
			tl := songfiletest.Song(t, sketch("Back", backbeat, part("verse", energy,
				"| C | Am | F | G | C | Am | F | G |", inBars("3-4", back)), part("end", energy, "| C | C |")))
			perf := groove.Perform(tl, library.Builtin())
			crashes := []int64{}
			for _, n := range perf.Passes[0].Score.Parts[timeline.Drums].Notes {
				if n.Key == 49 && n.At > 0 {
					crashes = append(crashes, n.At)
				}
			}
			if want := energy >= 4; want != slices.Contains(crashes, 4*4*quarter) || len(crashes) > 1 {
				t.Errorf("%s at energy %d: crashes at %v", back, energy, crashes)
			}
		}
	}
}
