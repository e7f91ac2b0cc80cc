package audit_test

import (
	"sort"
	"strconv"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
)

// feelsByMeter are feels to play a chart in, by its meter.
func feelsByMeter(meter string) []string {
	set := library.Builtin()
	var out []string
	for _, name := range library.Names() {
		for _, m := range set.Feels[name].Meters {
			if m.String() == meter {
				out = append(out, name)
			}
		}
	}
	return append(out, "pulse", "sustain")
}

// Every chart builds, whatever its chords, bars and meters, and nobody is asked for
// what cannot be played.
func TestBillboardCharts(t *testing.T) {
	files := dataFiles(t, "billboard-dev/*.txt", 80)
	set := library.Builtin()
	charts, bars, lost := 0, 0, map[string]int{}
	found := map[string]int{}
	for n, path := range files {
		c := billboard(t, path)
		charts++
		bars += c.bars
		for _, why := range c.lost {
			lost[why]++
		}
		for energy := 1; energy <= 5; energy++ {
			if testing.Short() && energy != 1+n%5 {
				continue
			}
			c.feel = func(meter string) string {
				feels := feelsByMeter(meter)
				return feels[(n+energy)%len(feels)]
			}
			src := c.text(func(int) int { return energy })
			tl, diags := songfiletest.Resolve(src)
			if diags.HasErrors() || tl == nil {
				t.Errorf("%s: %v", c.name, diags)
				break
			}
			if tl.SongBars() != c.bars {
				t.Errorf("%s: %d bars, want %d", c.name, tl.SongBars(), c.bars)
			}
			songfiletest.Again(tl, 1+n%20, (n%3)*500)
			r := audit.Song(tl, groove.Perform(tl, set), set)
			for _, f := range r.Findings {
				found[f.Severity.String()+" "+f.Rule]++
			}
			if len(r.Findings) > 0 {
				t.Errorf("%s at energy %d, %d bpm, %s:\n%s", c.name, energy, c.tempo, tl.Passes[0].Feel,
					findingsOf(r, 3))
			}
		}
	}
	t.Logf("%d charts, %d bars; findings %v; written another way: %s", charts, bars, found, counted(lost))
	if charts != 80 {
		t.Errorf("%d charts, want 80", charts)
	}
}

func counted(m map[string]int) string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	var b strings.Builder
	for i, k := range keys {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(strconv.Itoa(m[k]) + " x " + k)
	}
	return b.String()
}
