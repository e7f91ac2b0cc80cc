package groove_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec/meter"
)

func itoa(n int) string { return strconv.Itoa(n) }

// feelSong is the text of a song that plays one feel at every energy: a plain
// section, and one with every event that can be crowded, in the feel's own meter.
func feelSong(f *feel.Feel, bpm int) string {
	m := meter.Common
	if len(f.Meters) > 0 {
		m = f.Meters[0]
	}
	last := m.Num // the last count
	var b strings.Builder
	fmt.Fprintf(&b, "title = \"Weir Street Proof\"\nkey = \"C major\"\nmeter = %q\ntempo = %d\nfeel = %q\n", m, bpm, f.Name)
	b.WriteString(`
section "verse" {
  chords = "| C | G/B | Am7 | F | C/E | Dm7 | G7sus4 | G7 |"
}

section "turn" {
  chords = "| Fmaj7 | E7#9 | Am7 | Abmaj7 | C/G | A7alt | Dm9 | G13 |"
`)
	fmt.Fprintf(&b, "  push \"2: %d\" {}\n", last)
	b.WriteString("  accent \"4: 1\" { weight = 3 }\n  accent \"5: 1 2\" { by = [\"drums\", \"piano\"] }\n")
	fmt.Fprintf(&b, "  stop \"6: %d\" {}\n", last)
	b.WriteString("  fill \"8: 1\" {}\n}\n\nform {\n")
	for _, section := range []string{"verse", "turn"} {
		for energy := 1; energy <= 5; energy++ {
			fmt.Fprintf(&b, "  play %q { energy = %d }\n", section, energy)
		}
	}
	b.WriteString("}\n")
	return b.String()
}

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
			tl := songOf(t, feelSong(f, bpm))
			for take := 1; take <= takes; take++ {
				if take%3 != i && take > 3 {
					continue // every take at one tempo at least, the first three at all
				}
				for _, loose := range []int{0, 400, 1000} {
					again(tl, take, loose)
					songs++
					for _, x := range groove.Audit(tl, groove.Perform(tl, set), set).Findings {
						counts[x.Rule]++
						if example[x.Rule] == "" {
							p := tl.Passes[x.Pass]
							example[x.Rule] = fmt.Sprintf("%s %s at %d bpm, looseness %d, take %d, energy %d, bar %d: %s",
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
	for _, path := range examples(t) {
		_, tl, set := example(t, path)
		as := tl.Looseness
		for take := 1; take <= takes; take++ {
			for _, loose := range []int{0, as, 400, 1000} {
				again(tl, take, loose)
				if r := groove.Audit(tl, groove.Perform(tl, set), set); len(r.Findings) > 0 {
					t.Errorf("%s, take %d, looseness %d:\n%s", path, take, loose, findingsOf(r, 4))
				}
			}
		}
	}
}
