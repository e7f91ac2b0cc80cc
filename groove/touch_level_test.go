package groove_test

import (
	"fmt"
	"math"
	"testing"

	"plinth/groove"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// Where the energy moves from 2 to 4 in eight bars, nobody's loudness goes up like a step:
// the rows change from one bar to the next, and what they are louder in themselves comes
// bit by bit. Over the takes no bar is louder than the one before by much more than the
// eighth part that is fair. Design of the band.
func TestMovingEnergyHasNoSteps(t *testing.T) {
	const takes = 12
	for _, feel := range touchFeels {
		for who := range timeline.Player(len(timeline.PlayerNames)) {
			var sum []float64
			for take := 1; take <= takes; take++ {
				tl, perf := taken(t, feel, take, fmt.Sprintf("section \"a\" {\n chords = %q\n energy = [2, 4]\n"+
					" fills = false\n}\nsection \"b\" {\n chords = \"| C | C |\"\n energy = 4\n}\n", fourChords(8)))
				sum = added(sum, barMeans(tl, perf, 0, who))
			}
			for bar := 1; bar < len(sum); bar++ {
				if jump := math.Abs(sum[bar]-sum[bar-1]) / takes; jump > 10 {
					t.Errorf("%s, %s: bar %d differs by %.1f from the bar before", feel, who, bar+1, jump)
				}
			}
			if grown := 7 * slope(sum) / takes; grown < 8 {
				t.Errorf("%s, %s: from 2 to 4 it grows by %.1f", feel, who, grown)
			}
		}
	}
}

// slope is how much figures grow from one to the next, by least squares: of single bars, one
// may have a first beat and another none.
func slope(x []float64) float64 {
	sum, squares := 0.0, 0.0
	for i, v := range x {
		d := float64(i) - float64(len(x)-1)/2
		sum, squares = sum+d*v, squares+d*d
	}
	return sum / squares
}

// power is how loud a player is in each bar of a pass, in decibels: of the squares of the
// velocities of all strokes, so that more strokes are louder, too. A silent bar counts as one
// soft stroke.
func power(tl *timeline.Timeline, perf *groove.Performance, pass int, who timeline.Player) []float64 {
	out := make([]float64, len(tl.Passes[pass].Bars))
	struck(perf, pass, who, func(v float64, n *score.Note) { out[tl.Passes[pass].BarAt(n.At)] += v * v })
	for bar, sum := range out {
		out[bar] = 10 * math.Log10(max(sum, 30*30))
	}
	return out
}

// border are the levels of a player round the border between two energies, over
// feels and takes: in bars 3 to 6 of eight, in the last two, and in the first two and the
// next four behind it.
func border(t *testing.T, measure func(*timeline.Timeline, *groove.Performance, int, timeline.Player) []float64,
	who timeline.Player, from, to int, more string) (before, lead, after, later float64) {
	t.Helper()
	n := 0.0
	for _, feel := range touchFeels {
		for take := 1; take <= 6; take++ {
			tl, perf := taken(t, feel, take, fmt.Sprintf("section \"a\" {\n chords = %q\n energy = %d\n"+
				" fills = false\n %s\n}\nsection \"b\" {\n chords = %q\n energy = %d\n}\n"+
				"section \"c\" {\n chords = \"| C | C |\"\n energy = %d\n}\n",
				fourChords(8), from, more, fourChords(8), to, to))
			a, b := measure(tl, perf, 0, who), measure(tl, perf, 1, who)
			before, lead = before+meanOf(a[2:6]...), lead+meanOf(a[6:]...)
			after, later = after+meanOf(b[:2]...), later+meanOf(b[2:6]...)
			n++
		}
	}
	return before / n, lead / n, after / n, later / n
}

// In annotated recordings a band makes three fifths of the way up to a louder section in the
// last two bars before it, and a third of the way down. The bed makes a part of that, where
// the way is long enough to be heard, and nothing with lead = false. After a fall it is
// restrained: the strokes of the first bars are not louder than those that follow.
func TestLastBarsLeadToTheNextLevel(t *testing.T) {
	for _, row := range [][2]int{{2, 4}, {3, 5}, {5, 2}, {4, 2}, {5, 3}} {
		var shares []float64
		for who := range timeline.Player(len(timeline.PlayerNames)) {
			before, lead, after, _ := border(t, power, who, row[0], row[1], "")
			share := (lead - before) / (after - before)
			shares = append(shares, share)
			t.Logf("%d to %d, %s: %.0f, %.0f, then %.0f: a share of %.2f", row[0], row[1], who, before, lead, after,
				share)
			if share < 0.15 || share > 0.55 {
				t.Errorf("%d to %d, %s: the last two bars go %.2f of the way from %.0f to %.0f", row[0], row[1], who,
					share, before, after)
			}
			if row[1] < row[0] {
				if _, _, first, later := border(t, barMeans, who, row[0], row[1], ""); first > later {
					t.Errorf("%d to %d, %s: the first bars at %.0f, the others at %.0f", row[0], row[1], who, first,
						later)
				}
			}
			_, flat, _, _ := border(t, power, who, row[0], row[1], "lead = false")
			if _, level, _, _ := border(t, power, who, row[0], row[0], ""); flat != level {
				t.Errorf("%d to %d, %s: with lead = false the last bars are at %.1f, before the same energy at %.1f",
					row[0], row[1], who, flat, level)
			}
		}
		if band := meanOf(shares...); band > 0.5 || row[1] > row[0] && band < 0.25 {
			t.Errorf("%d to %d: the last two bars go %.2f of the way", row[0], row[1], band)
		}
	}
}
