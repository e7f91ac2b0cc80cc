package audit_test

import (
	"fmt"
	"math/rand"
	"regexp"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// bassless takes players out of every play of the text of songfiletest.OfFeel. One play more keeps the
// song's end, which is played otherwise, out of the comparison of energies.
func bassless(src, players string) string {
	src = strings.TrimSuffix(src, "}\n") + "  play \"verse\" { energy = 1 }\n}\n"
	return regexp.MustCompile(`\{ (energy = \d) \}`).ReplaceAllString(src, "{\n    tacet = ["+players+"]\n    $1\n  }")
}

// Every feel at every energy without its bassist, at the ends and in the middle of
// its tempo range, on the grid and loose, with pushes, accents, stops and fills: the
// audit has nothing to say, and the lowest note at each change of chord is the
// chord's bass. Design of the band; slash chords by common practice.
func TestLeftHandOfEveryFeel(t *testing.T) {
	set := library.Builtin()
	takes := 5
	if testing.Short() {
		takes = 2
	}
	changes := 0
	for _, name := range library.Names() {
		f := set.Feels[name]
		counts, example := map[string]int{}, map[string]string{}
		for k, bpm := range []int{f.TempoLow, (f.TempoLow + f.TempoHigh) / 2, f.TempoHigh} {
			players := `"bass"`
			if k == 1 {
				players = `"drums", "bass"`
			}
			tl := songfiletest.Song(t, bassless(songfiletest.OfFeel(f, bpm), players))
			for take := 1; take <= takes; take++ {
				for _, loose := range []int{0, 400, 1000} {
					songfiletest.Again(tl, take, loose)
					perf := groove.Perform(tl, set)
					for _, x := range audit.Song(tl, perf, set).Findings {
						counts[x.Rule]++
						if example[x.Rule] == "" {
							p := tl.Passes[x.Pass]
							example[x.Rule] = fmt.Sprintf(
								"%s %s at %d bpm, looseness %d, take %d, energy %d, bar %d: %s",
								x.Severity, p.Section, bpm, loose, take, p.EnergyFrom, x.Bar+1, x.Text)
						}
					}
					if loose > 0 {
						continue
					}
					for i := range tl.Passes {
						p := &tl.Passes[i]
						for _, c := range p.Chords {
							if stopped(p, c.Start) {
								continue
							}
							changes++
							low := 128
							for _, n := range perf.Passes[i].Notes[timeline.Piano] {
								// Swing delays the pianist's beat a little.
								if n.Tick <= c.Start+150 && n.Tick+n.Length > c.Start+150 {
									low = min(low, int(n.Key))
								}
							}
							if low > 50 || low < 29 || low%12 != c.Chord.Bass.PC() {
								t.Errorf("%s at %d bpm, take %d, %s at energy %d: under %s at %d sounds %d",
									name, bpm, take, p.Section, p.EnergyFrom, c.Written, c.Start, low)
							}
						}
					}
				}
			}
		}
		for rule, n := range counts {
			t.Errorf("%s: %d times %s, as %s", name, n, rule, example[rule])
		}
	}
	t.Logf("%d changes of chord", changes)
	if changes == 0 {
		t.Error("no change of chord was looked at")
	}
}

// stopped reports a stop at a tick.
func stopped(p *timeline.Pass, tick int64) bool {
	for _, e := range p.Events {
		if e.Kind == timeline.Stop && e.Tick <= tick && e.End > tick {
			return true
		}
	}
	return false
}

// Songs that nobody would write, without their bassist in three sections of four: what
// is asked of the pianist can be played, and every change of chord has its bass.
func TestLeftHandOfRandomSongs(t *testing.T) {
	rounds := 800
	if testing.Short() {
		rounds = 150
	}
	r := rand.New(rand.NewSource(12))
	set := library.Builtin()
	played, remarks, hits := 0, map[string]int{}, 0
	for round := 0; round < rounds; round++ {
		src := randomSong(r)
		for s := 0; s < 3; s++ {
			head := fmt.Sprintf("section \"s%d\" {\n", s)
			players := []string{`"bass"`, `"drums", "bass"`}[r.Intn(2)]
			src = strings.Replace(src, head, head+"  tacet = ["+players+"]\n", 1)
		}
		if r.Intn(4) == 0 {
			src = strings.Replace(src, "piano {\n", fmt.Sprintf("piano {\n  span = %d\n", 12+r.Intn(4)), 1)
		}
		tl, diags := songfiletest.Resolve(src)
		if diags.HasErrors() {
			continue
		}
		played++
		if hits += audited(t, round, src, tl, set, remarks); t.Failed() {
			return
		}
	}
	t.Logf("%d songs played, remarks %v, hits too near to the next section %d", played, remarks, hits)
	if played < rounds*9/10 {
		t.Errorf("only %d of %d songs can be read", played, rounds)
	}
}
