package drummer

import (
	"fmt"
	"strings"
	"testing"

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

func TestMeasure(t *testing.T) {
	for _, name := range library.Names() {
		for energy := 1; energy <= 5; energy++ {
			a := grooveSection(name, "a", chordsFor(16), energy)
			rep, tak := 0, 0
			lo, hi, tlo, thi := 2000, 0, 2000, 0
			var joint, other, nearJ, nearO float64
			var first map[[2]int64]int
			for take := 1; take <= 5; take++ {
				tl := takeOf(t, take, a, a, a)
				d, n0 := notesOf(tl, 0)
				_, n1 := notesOf(tl, 1)
				s0 := strokesIn(d, n0, 0, 16)
				x := shared(s0, strokesIn(d, n1, 0, 16))
				rep += x
				lo, hi = min(lo, x), max(hi, x)
				if take == 1 {
					first = s0
				} else {
					y := shared(first, s0)
					tak += y
					tlo, thi = min(tlo, y), max(thi, y)
				}
				near := func(bar int) float64 {
					x := 0
					for k := 0; k < bar; k++ {
						x = max(x, shared(strokesIn(d, n0, bar, bar+1), strokesIn(d, n0, k, k+1)))
					}
					return float64(1000 - x)
				}
				nearJ += near(7) / 5
				for b := 1; b < 7; b++ {
					nearO += near(b) / 30
				}
				nov := func(bar int) float64 {
					x := 0.0
					for k := 0; k < bar; k++ {
						x += float64(1000-shared(strokesIn(d, n0, bar, bar+1), strokesIn(d, n0, k, k+1))) / float64(bar)
					}
					return x
				}
				joint += nov(7) / 5
				for b := 1; b < 7; b++ {
					other += nov(b) / 30
				}
			}
			t.Logf("%-18s %d repeats %4d (%4d-%4d) takes %4d (%4d-%4d) joint %4.0f other %4.0f %.2f near %4.0f %4.0f strokes %d", name, energy, rep/5, lo, hi, tak/4, tlo, thi, joint, other, joint/max(1, other), nearJ, nearO, len(first))
		}
	}
}

// Whoever asks for more gets more: strokes a beat over a whole pass never fall as the energy
// rises, in any feel and take.
func TestDensityNeverFallsAsTheEnergyRises(t *testing.T) {
	for _, name := range library.Names() {
		for _, bars := range []int{4, 8, 16} {
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

func TestGhosts(t *testing.T) {
	for _, name := range library.Names() {
		out := ""
		for energy := 2; energy <= 5; energy++ {
			ghosts, all := 0, 0
			for take := 1; take <= 5; take++ {
				a := grooveSection(name, "a", chordsFor(16), energy)
				_, notes := notesOf(takeOf(t, take, a, a), 0)
				for _, n := range notes {
					if n.Key == 38 && n.Roll == 0 && n.Group == 0 {
						all++
						if n.Touch == 2 {
							ghosts++
						}
					}
				}
			}
			out += fmt.Sprintf(" %d/%d=%.2f", ghosts, all, float64(ghosts)/float64(max(1, all)))
		}
		t.Log(name, out)
	}
}

func TestLeadMeasure(t *testing.T) {
	for _, name := range library.Names() {
		out := ""
		for _, j := range [][2]int{{2, 3}, {2, 4}, {3, 4}, {3, 5}, {4, 5}, {4, 3}, {4, 2}, {5, 3}, {3, 2}} {
			sum, n := 0.0, 0
			for take := 1; take <= 5; take++ {
				a, b := grooveSection(name, "a", chordsFor(8), j[0]), grooveSection(name, "b", chordsFor(8), j[1])
				tl := takeOf(t, take, a, b, b)
				d, na := notesOf(tl, 0)
				d2, nb := notesOf(tl, 1)
				count := func(d *Drummer, notes []score.Note, from, to int) float64 {
					x := 0
					for _, n := range strokesIn(d, notes, from, to) {
						x += n
					}
					return float64(x) / float64(to-from)
				}
				own, last, next := count(d, na, 0, 6), count(d, na, 6, 8), count(d2, nb, 0, 6)
				if next != own {
					sum += (last - own) / (next - own)
					n++
				}
			}
			out += fmt.Sprintf(" %d>%d %.2f", j[0], j[1], sum/float64(max(1, n)))
		}
		t.Log(name, out)
	}
}
