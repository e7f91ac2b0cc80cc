package drummer

import (
	"slices"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// chordsFor are n bars of chords.
func chordsFor(n int) string { return strings.TrimSuffix(strings.Repeat("C|Am|F|G|", n/4), "|") }

// strokesIn are the strokes of some bars of a pass: how often each key is struck at each place,
// counted from the first of the bars.
func strokesIn(d *Drummer, notes []score.Note, from, to int) map[[2]int64]int {
	out := map[[2]int64]int{}
	for _, n := range notes {
		if bar := d.BarAt(n.At); n.Roll == 0 && bar >= from && bar < to {
			out[[2]int64{n.At - d.Pass.Bars[from].Start, int64(n.Key)}]++
		}
	}
	return out
}

// shared is the share of strokes that two lists have in common, in thousandths.
func shared(a, b map[[2]int64]int) int {
	both, all := 0, 0
	for k, n := range a {
		both += 2 * min(n, b[k])
		all += n
	}
	for _, n := range b {
		all += n
	}
	if all == 0 {
		return 1000
	}
	return both * 1000 / all
}

func takeOf(t *testing.T, take int, sections ...groovetest.Section) *timeline.Timeline {
	tl := groovetest.Song(t, sections...)
	tl.Take = take
	groovetest.Join(tl)
	return tl
}

func notesOf(tl *timeline.Timeline, pass int) (*Drummer, []score.Note) {
	d := drummerOf(tl, pass, library.Builtin())
	return d, d.Play(nil).Notes
}

// drummedFeels are the feels of the library that have a bar to vary.
func drummedFeels() []string {
	return slices.DeleteFunc(library.Names(), func(name string) bool {
		return len(library.Builtin().Feels[name].Meters) == 0 // the beat and nothing else
	})
}

const takes = 5

// What comes again is known again and is no copy, and another take is another day's: of
// sixteen bars of one energy so many strokes are shared by two passes of the section, and by
// two takes, whose density differs by no more than a tenth. Design of the band.
func TestWhatComesAgain(t *testing.T) {
	allRepeats, allTakes, n := 0, 0, 0
	for _, name := range drummedFeels() {
		repeats, others, m := 0, 0, 0
		for energy := 2; energy <= 5; energy++ {
			a := grooveSection(name, "a", chordsFor(16), energy)
			var first map[[2]int64]int
			strokes := 0
			for take := 1; take <= takes; take++ {
				tl := takeOf(t, take, a, a, a)
				d, again := notesOf(tl, 1)
				second := strokesIn(d, again, 0, 16)
				d, notes := notesOf(tl, 0)
				here := strokesIn(d, notes, 0, 16)
				repeats += shared(here, second)
				if take == 1 {
					first, strokes = here, len(notes)
				}
				if grown := len(notes)*100/strokes - 100; grown < -10 || grown > 10 {
					t.Errorf("%s at %d, take %d has %d strokes, and take 1 %d", name, energy, take, len(notes), strokes)
				}
				if take > 1 {
					others += shared(first, here) * takes / (takes - 1)
				}
			}
			m += takes
		}
		t.Logf("%-18s repeats %d, takes %d", name, repeats/m, others/m)
		if repeats/m < 700 || repeats/m > 950 || others/m < 600 || others/m > 955 {
			t.Errorf("%s: repeats share %d, takes %d in 1000", name, repeats/m, others/m)
		}
		allRepeats, allTakes, n = allRepeats+repeats/m, allTakes+others/m, n+1
	}
	t.Logf("repeats share %d, takes %d in 1000", allRepeats/n, allTakes/n)
	if allRepeats/n > 920 || allTakes/n > 920 {
		t.Errorf("repeats share %d, takes %d in 1000", allRepeats/n, allTakes/n)
	}
}

// A phrase of eight bars ends with a figure, its fourth bar with none: from energy 3 up the
// eighth bar is more than half again as new, against those before it, as other bars are, and
// the fourth is not. Design of the band.
func TestJointOfPhrases(t *testing.T) {
	for _, name := range drummedFeels() {
		var fresh [8]int
		for energy := 3; energy <= 5; energy++ {
			for take := 1; take <= takes; take++ {
				a := grooveSection(name, "a", chordsFor(16), energy)
				d, notes := notesOf(takeOf(t, take, a, a), 0)
				for bar := 1; bar < 8; bar++ {
					for k := 0; k < bar; k++ {
						same := shared(strokesIn(d, notes, bar, bar+1), strokesIn(d, notes, k, k+1))
						fresh[bar] += (1000 - same) / bar
					}
				}
			}
		}
		others := (fresh[1] + fresh[2] + fresh[4] + fresh[5] + fresh[6]) / 5
		t.Logf("%-18s bar 4 %.2f, bar 8 %.2f of the others", name, float64(fresh[3])/float64(others),
			float64(fresh[7])/float64(others))
		if 2*fresh[7] <= 3*others || 2*fresh[3] > 3*others {
			t.Errorf("%s: bar 4 %d, bar 8 %d, the others %d", name, fresh[3], fresh[7], others)
		}
	}
}

// Ghost strokes of the snare, or of the stick, are next to none in ballads, and some where the feel is made of
// sixteenths. Design of the band.
func TestGhostsInProportion(t *testing.T) {
	for _, row := range []struct {
		feel      string
		low, high int // in 100 strokes of the snare
	}{{"ballad-eighths", 0, 2}, {"ballad-sixteenths", 0, 2}, {"slow-twelve", 0, 2}, {"gospel-six", 0, 2},
		{"half-time", 10, 25}, {"tight-sixteenths", 10, 25}} {
		lowest := 3
		if row.low == 0 {
			lowest = 1
		}
		for energy := lowest; energy <= 5; energy++ {
			ghosts, all := 0, 0
			for take := 1; take <= takes; take++ {
				a := grooveSection(row.feel, "a", chordsFor(16), energy)
				_, notes := notesOf(takeOf(t, take, a, a), 0)
				for _, n := range notes {
					if n.Voice.Instrument().Backbeat() && n.Roll == 0 && !inFill(&n) {
						all++
						if n.Touch == feel.Ghost {
							ghosts++
						}
					}
				}
			}
			t.Logf("%s at %d: %d of %d", row.feel, energy, ghosts, all)
			if 100*ghosts < row.low*all || 100*ghosts > row.high*all {
				t.Errorf("%s at %d: %d of %d strokes of the snare are ghosts", row.feel, energy, ghosts, all)
			}
		}
	}
}

// Below energy 4 the hat opens only before a border or at a joint, and after a climax not in
// the first bar either. Design of the band.
func TestHatOpensBeforeBorders(t *testing.T) {
	opened := 0
	for _, name := range drummedFeels() {
		for take := 1; take <= takes; take++ {
			for _, e := range [][2]int{{2, 4}, {3, 5}, {3, 3}, {5, 4}, {5, 3}, {4, 2}} {
				a, b := grooveSection(name, "a", chordsFor(16), e[0]), grooveSection(name, "b", chordsFor(16), e[1])
				tl := takeOf(t, take, a, b, a)
				for pass := range 2 {
					d, notes := notesOf(tl, pass)
					for _, n := range notes {
						bar := d.BarAt(n.At)
						if kindOf(n.Key) != kindOpen {
							continue
						}
						opened++
						if e[pass] < 4 && bar != 7 && bar < 14 || pass == 1 && bar == 0 && e[0] > e[1] {
							t.Errorf("%s, %d to %d, take %d: the hat opens in bar %d of pass %d", name, e[0], e[1],
								take, bar+1, pass+1)
						}
					}
				}
			}
		}
	}
	if opened < 500 {
		t.Fatalf("only %d open hats", opened)
	}
}

// Whoever asks for more gets more: strokes a beat over a whole pass of eight bars or more
// never fall as the energy rises, in any feel and take. In four bars the fill that closes them
// weighs too much.
func TestDensityNeverFallsAsTheEnergyRises(t *testing.T) {
	for _, name := range library.Names() {
		for _, bars := range []int{8, 16} {
			for take := 1; take <= 5; take++ {
				before := 0
				for energy := 1; energy <= 5; energy++ {
					a := grooveSection(name, "a", chordsFor(bars), energy)
					_, notes := notesOf(takeOf(t, take, a, a), 0)
					if len(notes) < before {
						t.Errorf("%s, %d bars, take %d: %d strokes at energy %d and %d at %d", name, bars, take, before,
							energy-1, len(notes), energy)
					}
					before = len(notes)
				}
			}
		}
	}
}

// The last two bars lead to the next energy: a share of the step in strokes is made in them,
// up or down, on average over the feels. A fill, which is louder and seldom busier than the
// time, takes some of it into 4, and into 5 the whole last bar. Design of the band.
func TestLastBarsLead(t *testing.T) {
	for _, row := range []struct {
		from, to  int
		low, high int // per cent
	}{{2, 3, 25, 55}, {2, 4, 25, 50}, {3, 4, 10, 50}, {4, 3, 15, 60}, {4, 2, 15, 50}, {5, 3, 15, 50}, {5, 2, 15, 50},
		{3, 2, 15, 50}} {
		own, last, next := 0, 0, 0
		for _, name := range drummedFeels() {
			for take := 1; take <= takes; take++ {
				tl := takeOf(t, take, grooveSection(name, "a", chordsFor(8), row.from),
					grooveSection(name, "b", chordsFor(8), row.to), grooveSection(name, "b", chordsFor(8), row.to))
				for pass := range 2 {
					d, notes := notesOf(tl, pass)
					for _, n := range notes {
						switch bar := d.BarAt(n.At); {
						case pass == 0 && bar >= 6:
							last += 3
						case pass == 0:
							own++
						case bar < 6:
							next++
						}
					}
				}
			}
		}
		share := 100 * (last - own) / (next - own)
		t.Logf("%d to %d: %d per cent", row.from, row.to, share)
		if share < row.low || share > row.high {
			t.Errorf("%d to %d: %d per cent of the step is made in the last two bars", row.from, row.to, share)
		}
	}
}
