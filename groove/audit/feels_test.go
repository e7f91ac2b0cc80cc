package audit_test

import (
	"fmt"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
)

// Every feel at every energy, at the ends and in the middle of its tempo range, on
// the grid and as loosely as can be, in twenty takes: nothing that a player could
// not play, and nothing too much.
func TestAuditOfEveryFeel(t *testing.T) {
	set := library.Builtin()
	takes := 20
	if testing.Short() {
		takes = 3
	}
	songs := 0
	for _, name := range library.Names() {
		f := set.Feels[name]
		counts := map[string]int{}
		example := map[string]string{}
		for i, bpm := range []int{f.TempoLow, (f.TempoLow + f.TempoHigh) / 2, f.TempoHigh} {
			tl := songfiletest.Song(t, songfiletest.OfFeel(f, bpm))
			for take := 1; take <= takes; take++ {
				if take%3 != i && take > 3 {
					continue // every take at one tempo at least, the first three at all
				}
				for _, loose := range []int{0, 400, 1000} {
					songfiletest.Again(tl, take, loose)
					songs++
					for _, x := range audit.Song(tl, groove.Perform(tl, set), set).Findings {
						counts[x.Rule]++
						if example[x.Rule] == "" {
							p := tl.Passes[x.Pass]
							example[x.Rule] = fmt.Sprintf(
								"%s %s at %d bpm, looseness %d, take %d, energy %d, bar %d: %s",
								x.Severity, p.Section, bpm, loose, take, p.EnergyFrom, x.Bar+1, x.Text)
						}
					}
				}
			}
		}
		for rule, n := range counts {
			t.Errorf("%s: %d times %s, as %s", name, n, rule, example[rule])
		}
	}
	t.Logf("%d songs", songs)
}

// The examples as they stand and as loosely as can be, in twenty takes.
func TestAuditOfTheExamples(t *testing.T) {
	takes := 20
	if testing.Short() {
		takes = 3
	}
	for _, path := range songfiletest.Examples(t, "../../examples") {
		_, tl, set := songfiletest.Example(t, path)
		as := tl.Looseness
		for take := 1; take <= takes; take++ {
			for _, loose := range []int{0, as, 400, 1000} {
				songfiletest.Again(tl, take, loose)
				if r := audit.Song(tl, groove.Perform(tl, set), set); len(r.Findings) > 0 {
					t.Errorf("%s, take %d, looseness %d:\n%s", path, take, loose, findingsOf(r, 4))
				}
			}
		}
	}
}

// findingsOf are the findings of a performance as text, at most some of them.
func findingsOf(r *audit.Report, most int) string {
	var b strings.Builder
	for i, f := range r.Findings {
		if i == most {
			b.WriteString("…\n")
			break
		}
		p := &r.Passes[f.Pass]
		fmt.Fprintf(&b, "%s %s (%s), %s, bars %d to %d, energy %d to %d, bar of the song %d: %s\n",
			f.Severity, f.Rule, f.Player, p.Section, p.FirstBar, p.FirstBar+p.Bars-1, p.Energy[0], p.Energy[1],
			f.SongBar, f.Text)
	}
	return b.String()
}
