package bassist

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// What a bassist's lines are measured by, over all feels and a few charts. The bounds are those
// of the design: nothing is a loop, and what comes again is recognisably the same.

// charts are plain ones, with basses other than roots, with chords that stay two bars, and with
// two chords in a bar, some from outside the key.
var charts = []string{
	"C|G/B|Am7|F|C/E|Dm7|G7sus4|G7",
	"C|Am|F|G|C|Am|Dm7|G|F|G|Em7|Am|F|C|Dm7|G7",
	"C|C|Am7|Am7|F|F|G|G|C|C|Am7|Am7|Dm7|Dm7|G7|G7",
	"C Am|F G|Em7 A7|Dm7 G7|C G#dim7|Am D7|F Fm6|C G7",
}

// played is a song in a feel's own meter: a section twice at one energy and another after it.
func played(t testing.TB, f *feel.Feel, chart string, energy, after, take int) *timeline.Timeline {
	m := meter.Common
	if len(f.Meters) > 0 {
		m = f.Meters[0]
	}
	section := func(name string, energy int) groovetest.Section {
		return groovetest.Section{Name: name, Chords: chart, Energy: energy, Feel: f.Name, Meter: m,
			BPM: (f.TempoLow + f.TempoHigh) / 2}
	}
	tl := groovetest.Song(t, section("a", energy), section("a", energy), section("b", after))
	tl.Take = take
	return tl
}

// rendition is such a song at one energy, and the line of each of its first two passes.
type rendition struct {
	*timeline.Timeline
	lines [2][]score.Note
}

// rendered are the renditions that a test has asked for.
var rendered = map[string]*rendition{}

func render(t testing.TB, f *feel.Feel, chart string, energy, take int) *rendition {
	key := fmt.Sprint(f.Name, chart, energy, take)
	r := rendered[key]
	if r == nil {
		r = &rendition{Timeline: played(t, f, chart, energy, energy, take)}
		for pass := range r.lines {
			r.lines[pass] = slices.Clone(bassOf(r.Timeline, pass, library.Builtin()))
		}
		rendered[key] = r
	}
	return r
}

// keepsTime reports whether a feel has a drummer at an energy: without one the bass only holds.
func keepsTime(f *feel.Feel, energy int) bool { return len(f.Levels[energy-1].Drums) > 0 }

// eachFeel does something for every feel.
func eachFeel(do func(f *feel.Feel)) {
	for _, name := range library.Names() {
		do(library.Builtin().Feels[name])
	}
}

// share is a count of how many of all there are.
type share struct{ n, all float64 }

func (s *share) add(is bool) {
	if s.all++; is {
		s.n++
	}
}

func (s *share) of() float64 { return s.n / max(s.all, 1) }

// among wants a share from low to high.
func among(t *testing.T, what string, s, low, high float64) {
	t.Helper()
	if s < low || s > high {
		t.Errorf("%s: %.3f, want %.2f to %.2f", what, s, low, high)
	}
}

// common is the share of notes that two lines have in common, in bar, place and key.
func common(a, b []score.Note) float64 {
	n := 0
	for _, x := range a {
		if slices.ContainsFunc(b, func(y score.Note) bool { return x.At == y.At && x.Key == y.Key }) {
			n++
		}
	}
	return 2 * float64(n) / float64(len(a)+len(b))
}

// When a section comes again the line is the same but for some bars; another take shares less of
// it and strikes as often.
func TestTheLineComesAgain(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		var all, others share
		for energy := 1; energy <= 5; energy++ {
			if !keepsTime(f, energy) {
				continue
			}
			var again, takes share
			for _, chart := range charts {
				first := render(t, f, chart, energy, 1).lines[0]
				for take := 1; take <= 5; take++ {
					r := render(t, f, chart, energy, take)
					a, b := r.lines[0], r.lines[1]
					again.n, again.all = again.n+common(a, b), again.all+1
					if take > 1 {
						takes.n, takes.all = takes.n+common(first, a), takes.all+1
					}
					if d := abs(len(a) - len(first)); 10*d > len(first) {
						t.Errorf("%s, %s, energy %d: %d notes in take 1, %d in take %d", f.Name, chart, energy,
							len(first), len(a), take)
					}
				}
			}
			among(t, fmt.Sprint(f.Name, " again, energy ", energy), again.of(), 0, 0.95)
			among(t, fmt.Sprint(f.Name, " in another take, energy ", energy), takes.of(), 0, 0.92)
			all.n, all.all = all.n+again.of(), all.all+1
			others.n, others.all = others.n+takes.of(), others.all+1
		}
		if keepsTime(f, 3) {
			among(t, f.Name+" again", all.of(), 0.65, 0.95)
			among(t, f.Name+" in another take", others.of(), 0.55, 0.92)
		}
		t.Logf("%-18s again %.2f, in another take %.2f", f.Name, all.of(), others.of())
	})
}

// The bass never strikes less often where there is more energy, however long the section is.
func TestAttacksNeverFallAsEnergyRises(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		for i, chart := range charts {
			bars := strings.Split(chart, "|")
			part := strings.Join(bars[:4], "|")
			if i < 2 {
				part = strings.Join(append(bars, bars[0])[:9], "|")
			}
			for _, chart := range []string{chart, part} {
				for take := 1; take <= 5; take++ {
					before := [2]int{}
					for energy := 1; energy <= 5; energy++ {
						tl := played(t, f, chart, energy, energy, take)
						for pass := range before {
							n := len(bassAlone(tl, pass, library.Builtin()))
							if n < before[pass] {
								t.Errorf("%s, %s, take %d: %d notes at energy %d, %d at %d", f.Name, chart, take,
									before[pass], energy-1, n, energy)
							}
							before[pass] = n
						}
					}
				}
			}
		}
	})
}

// The rhythm of a phrase's last bar is another than that of the bar before it, more so than from
// bar to bar within the phrase.
func TestTheRhythmChangesAtTheJoint(t *testing.T) {
	var apart share
	eachFeel(func(f *feel.Feel) {
		var joint, inside share
		for energy := 1; energy <= 5; energy++ {
			for _, chart := range charts {
				for take := 1; take <= 5 && keepsTime(f, energy); take++ {
					r := render(t, f, chart, energy, take)
					bars, notes := r.Passes[0].Bars, r.lines[0]
					for i := 1; i < len(bars); i++ {
						o := &inside
						if i%8 == 7 {
							o = &joint
						}
						o.n, o.all = o.n+sameRhythm(notes, &bars[i-1], &bars[i]), o.all+1
					}
				}
			}
		}
		if keepsTime(f, 3) {
			t.Logf("%-18s joint %.2f, inside %.2f", f.Name, joint.of(), inside.of())
			among(t, f.Name, inside.of()-joint.of(), 0.08, 0.35)
			apart.n, apart.all = apart.n+inside.of()-joint.of(), apart.all+1
		}
	})
	among(t, "all feels", apart.of(), 0.1, 0.3)
	t.Logf("overlap less at the joint by %.2f", apart.of())
}

// sameRhythm is how much of the rhythm of two bars is the same.
func sameRhythm(notes []score.Note, a, b *timeline.Bar) float64 {
	x, y := within(notes, a.Start, a.Start+a.Length), within(notes, b.Start, b.Start+b.Length)
	n := 0
	for _, n1 := range x {
		if slices.ContainsFunc(y, func(n2 score.Note) bool { return n1.At-a.Start == n2.At-b.Start }) {
			n++
		}
	}
	return float64(n) / float64(len(x)+len(y)-n)
}
