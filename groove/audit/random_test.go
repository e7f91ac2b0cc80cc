package audit_test

import (
	"fmt"
	"math/rand"
	"regexp"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/groove/songfiletest"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// randomSong is the text of a song that nobody would write: any feel in its own
// meter or in another, any tempo that a song file may have in reach of the feel and
// beyond, energies that jump and move, chords of all sorts, and events anywhere.
func randomSong(r *rand.Rand) string {
	set := library.Builtin()
	names := library.Names()
	chords := []string{"C", "Am7", "F#m7b5", "B7b9", "Em", "G/B", "Dm9", "G13", "Dbmaj7#11", "E7#9", "Abdim7", "Faug",
		"Bb6/D", "Gsus4",
		"A7alt", "Cm(maj7)", "C/G", "Eb/F", "Db/C", "N.C.", "D5", "iv6", "bVII", "V7/V", "IVadd9"}
	var b strings.Builder
	fmt.Fprintf(&b, "key = %q\nlooseness = %d.%d\ntake = %d\n",
		[]string{"C", "Eb minor", "F# major", "A minor"}[r.Intn(4)], r.Intn(2), 0, 1+r.Intn(50))
	if r.Intn(3) == 0 {
		fmt.Fprintf(&b, "piano {\n  highest = %q\n}\n", []string{"C4", "G4", "C5", "G5"}[r.Intn(4)])
	}
	if r.Intn(3) == 0 {
		b.WriteString("bass {\n  strings = 5\n}\n")
	}
	for s := 0; s < 4; s++ {
		f := set.Feels[names[r.Intn(len(names))]]
		m := meter.Common
		if len(f.Meters) > 0 {
			m = f.Meters[r.Intn(len(f.Meters))]
		} else if r.Intn(2) == 0 {
			m = []meter.Meter{{Num: 6, Den: 8}, {Num: 3, Den: 4}, {Num: 7, Den: 8}, {Num: 5, Den: 4}}[r.Intn(4)]
		}
		tempo := f.TempoLow*3/4 + r.Intn(f.TempoHigh*5/4-f.TempoLow*3/4)
		tempo = min(max(tempo, 20), 400)
		fmt.Fprintf(&b, "section \"s%d\" {\n  meter = %q\n  tempo = %d\n  feel = %q\n  energy = [%d, %d]\n",
			s, m, tempo, f.Name, 1+r.Intn(5), 1+r.Intn(5))
		b.WriteString("  chords = \"|")
		bars := 1 + r.Intn(6)
		beats := len(m.Beats())
		for i := 0; i < bars; i++ {
			n := []int{1, 1, 1, beats}[r.Intn(4)]
			for k := 0; k < n; k++ {
				b.WriteString(" " + chords[r.Intn(len(chords))])
			}
			b.WriteString(" |")
		}
		b.WriteString("\"\n")
		counts := m.Num
		off := ""
		if m.Den == 4 {
			off = []string{"", "&", "e", "a", "t", "l"}[r.Intn(6)]
		}
		for i := r.Intn(5); i > 0; i-- {
			place := fmt.Sprintf("%d: %d%s", 1+r.Intn(bars), 1+r.Intn(counts), off)
			if r.Intn(3) == 0 {
				place = fmt.Sprintf("%d: %d", []int{1, bars}[r.Intn(2)], 1)
			}
			switch r.Intn(7) {
			case 0, 1:
				fmt.Fprintf(&b, "  accent %q { weight = %d }\n", place, 1+r.Intn(3))
			case 2:
				fmt.Fprintf(&b, "  accent %q { alone = true }\n", place)
			case 3:
				fmt.Fprintf(&b, "  push %q {}\n", place)
			case 4:
				fmt.Fprintf(&b, "  stop %q {}\n", place)
			case 5:
				fmt.Fprintf(&b, "  fill %q {}\n", place)
			case 6:
				fmt.Fprintf(&b, "  hold %q { beats = 2 }\n", place)
			}
		}
		b.WriteString("}\n")
	}
	b.WriteString("form {\n")
	for i := 0; i < 6; i++ {
		fmt.Fprintf(&b, "  play \"s%d\" {}\n", r.Intn(4))
	}
	b.WriteString("}\n")
	return b.String()
}

// Whatever is asked of the band, nobody is given what cannot be played. One thing is
// left to the song file, and to check to report: a hit that is written less than a
// tenth of a second before the next section, whose first chord wants the same keys.
func TestAuditOfRandomSongs(t *testing.T) {
	rounds := 1500
	if testing.Short() {
		rounds = 200
	}
	r := rand.New(rand.NewSource(5))
	set := library.Builtin()
	played, remarks, hits := 0, map[string]int{}, 0
	refused := map[string]int{}
	for round := 0; round < rounds; round++ {
		src := randomSong(r)
		tl, diags := songfiletest.Resolve(src)
		if diags.HasErrors() {
			for _, d := range diags.Errs() {
				refused[d.Error()]++
			}
			continue
		}
		played++
		if hits += audited(t, round, src, tl, set, remarks); t.Failed() {
			return
		}
	}
	t.Logf("%d songs played, remarks %v, hits too near to the next section %d, refused %v", played, remarks, hits,
		refused)
	if played < rounds*9/10 {
		t.Errorf("only %d of %d songs can be read: %v", played, rounds, refused)
	}
}

var stopLine = regexp.MustCompile(`(?m)^  stop .*$`)

// Nor is it where players keep out of bars, or stop while others go on, or where all cease in a
// caesura or after a short hit: nobody sounds there, and a pianist has the bass where the bassist rests.
func TestAuditOfSilences(t *testing.T) {
	rounds := 600
	if testing.Short() {
		rounds = 100
	}
	r := rand.New(rand.NewSource(9))
	set := library.Builtin()
	rests, remarks := 0, map[string]int{}
	for round := 0; round < rounds; round++ {
		src := strings.NewReplacer("hold ", "caesura ", "weight = 1", "short = true").Replace(randomSong(r))
		src = stopLine.ReplaceAllStringFunc(src, func(stop string) string {
			by := []string{`["bass"]`, `["drums", "piano"]`}[r.Intn(2)]
			return strings.Replace(stop, "{}", "{ by = "+by+" }", r.Intn(2))
		})
		tl, diags := songfiletest.Resolve(src)
		if diags.HasErrors() {
			continue
		}
		for i := range tl.Passes {
			bars := tl.Passes[i].Bars
			for n := r.Intn(4); n > 0; n-- {
				by := timeline.Players(1 + r.Intn(int(timeline.All)))
				for k := r.Intn(len(bars)); k < len(bars) && r.Intn(3) > 0; k++ {
					bars[k].Tacet |= by
					rests++
				}
			}
		}
		groovetest.Join(tl)
		if audited(t, round, src, tl, set, remarks); t.Failed() {
			for i := range tl.Passes {
				for k := range tl.Passes[i].Bars {
					if by := tl.Passes[i].TacetAt(k); by != 0 {
						t.Logf("pass %d bar %d without %v", i, k+1, by.Names())
					}
				}
			}
			return
		}
	}
	if rests < 3*rounds {
		t.Errorf("only %d bars of rest", rests)
	}
}

// audited fails where a random song cannot be played. It counts the remarks by rule
// and returns the hits that are written too near to the next section.
func audited(t *testing.T, round int, src string, tl *timeline.Timeline, set *feel.Set,
	remarks map[string]int) (hits int) {
	t.Helper()
	for _, f := range audit.Song(tl, groove.Perform(tl, set), set).Findings {
		switch {
		case f.Severity == audit.Remark:
			remarks[f.Rule]++
		case f.Rule == "repeat" && f.Bar == 0 && f.Pass > 0 && hitAtEnd(tl, &tl.Passes[f.Pass-1], set):
			hits++
		default:
			t.Errorf("round %d, pass %d, bar %d, the %s: %s: %s\n%s", round, f.Pass, f.Bar+1, f.Player, f.Rule, f.Text,
				src)
		}
	}
	return hits
}

// hitAtEnd reports an accent within a tenth of a second of the end of a pass, and what the next
// stroke may stray.
func hitAtEnd(tl *timeline.Timeline, pass *timeline.Pass, set *feel.Set) bool {
	p := plan.New(tl, pass, set)
	border := p.Clock().Micros(p.Swung(pass.Length))
	for _, e := range pass.Events {
		if e.Kind == timeline.Accent && border-p.Clock().Micros(p.Swung(e.Tick)) < 115_000 {
			return true
		}
	}
	return false
}
