package library_test

import (
	"fmt"
	"testing"

	"plinth/groove/drummer"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// junction is where one section leads to another in a feel.
type junction struct {
	feel     string
	from, to int // energies
	bpm      int
}

func (j junction) String() string {
	return fmt.Sprintf("%s at %d, %d to %d", j.feel, j.bpm, j.from, j.to)
}

// eachJunction calls do for every pair of energies in every feel that has fills, at a slow
// and a quick tempo of the feel, where the drummer plays on both sides.
func eachJunction(do func(j junction)) {
	for _, name := range library.Names() {
		f := library.Builtin().Feels[name]
		if f.Fills == "" {
			continue
		}
		for from := 1; from <= 5; from++ {
			for to := 1; to <= 5; to++ {
				if len(f.Levels[from-1].Drums) == 0 || len(f.Levels[to-1].Drums) == 0 {
					continue
				}
				do(junction{name, from, to, f.TempoLow})
				do(junction{name, from, to, f.TempoHigh})
			}
		}
	}
}

// song is a verse, a chorus with the junction behind it, and a verse.
func (j junction) song(t *testing.T, title, verse, chorus string, take int) *timeline.Timeline {
	m := meter.Common
	if f := library.Builtin().Feels[j.feel]; len(f.Meters) > 0 {
		m = f.Meters[0]
	}
	section := func(name string, energy int) groovetest.Section {
		return groovetest.Section{Name: name, Chords: "C|F|G|C", Energy: energy, Feel: j.feel, Meter: m, BPM: j.bpm}
	}
	tl := groovetest.Song(t, section(verse, 2), section(chorus, j.from), section(verse, j.to))
	tl.Title, tl.Take = title, take
	groovetest.Join(tl)
	return tl
}

// closingFill is the fill that closes the second pass, as it is struck: the voices, how far
// before the bar line, and grace strokes. handsOnly leaves the kick and the grace strokes out.
func closingFill(tl *timeline.Timeline, handsOnly bool) string {
	var d drummer.Drummer
	pass := &tl.Passes[1]
	d.Prepare(plan.New(tl, pass, library.Builtin()))
	out := ""
	for _, n := range d.Play(nil).Notes {
		if n.Group == 0 || handsOnly && (n.Voice.Limb() != feel.Hand || n.Roll != 0) {
			continue
		}
		out += fmt.Sprint(n.Voice.Instrument().Word, " ", pass.Length-n.At, " ", n.Roll, ", ")
	}
	return out
}

// TestThreeFillsAtEveryJunction: wherever one section leads to another with a fill, there
// are at least three that differ in what the hands play.
func TestThreeFillsAtEveryJunction(t *testing.T) {
	junctions, fills := 0, 0
	eachJunction(func(j junction) {
		seen := map[string]bool{}
		for take := 1; take <= 24; take++ {
			seen[closingFill(j.song(t, "", "verse", "chorus", take), true)] = true
		}
		if j.to == 1 || j.to < j.from { // nothing leads down there
			if len(seen) != 1 || !seen[""] {
				t.Errorf("%s: fills %v", j, seen)
			}
			return
		}
		if len(seen) < 3 || seen[""] {
			t.Errorf("%s: %d fills: %v", j, len(seen), seen)
		}
		junctions, fills = junctions+1, fills+len(seen)
	})
	t.Logf("%d junctions, %d.%02d fills at each", junctions, fills/junctions, 100*fills/junctions%100)
}

// TestSongsDoNotShareAFill: ten songs with the same junction, first with other names and
// takes, then with the same names and take and other titles: no more than half of them have
// the same fill there.
func TestSongsDoNotShareAFill(t *testing.T) {
	verses := [10]string{"verse", "a", "strophe", "couplet", "part1", "solo", "bridge", "intro", "tag", "vamp"}
	choruses := [10]string{"chorus", "b", "refrain", "hook", "part2", "chorus1", "middle", "theme", "chorus2", "c"}
	titles := [10]string{"Lanterns", "High Water", "The Miller's Clock", "Weir Street", "Harbour Lights",
		"Two Rooms", "", "Snow on the Line", "Last Ferry", "Paper Crown"}
	worst, sum, n := [2]int{}, [2]int{}, 0
	eachJunction(func(j junction) {
		for way := range 2 {
			count := map[string]int{}
			for i := range 10 {
				tl := j.song(t, "", verses[i], choruses[i], 1+i)
				if way == 1 {
					tl = j.song(t, titles[i], "verse", "chorus", 1)
				}
				f := closingFill(tl, false)
				if count[f]++; f != "" && count[f] > 5 {
					t.Errorf("%s: %d of 10 songs have %s", j, count[f], f)
				}
			}
			if most := commonest(count); count[""] == 0 {
				worst[way], sum[way], n = max(worst[way], most), sum[way]+most, n+way
			}
		}
	})
	for way, what := range [2]string{"other names and takes", "other titles"} {
		t.Logf("%s: up to %d of 10 songs share a fill, %d.%02d on average", what, worst[way], sum[way]/n,
			100*sum[way]/n%100)
	}
}

func commonest(count map[string]int) int {
	most := 0
	for _, c := range count {
		most = max(most, c)
	}
	return most
}
