package plan_test

import (
	"fmt"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/songspec/timeline"
)

// A tab of two bars begins where bars have its feel; the pass's own goes on as if it had never
// stopped.
func TestATabBeginsWhereItsFeelDoes(t *testing.T) {
	set := groovetest.Set(func(f *feel.Feel) { f.Levels[2].Bars = 2 })
	other := *set.Feels["test"]
	other.Name = "other"
	set.Feels["other"] = &other
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|C|C|C|C|C|C|C", Energy: 3,
		Change: groovetest.Inside(4, 6, func(b *timeline.Bar) { b.Feel = "other" })})
	p := plan.New(tl, &tl.Passes[0], set)
	got := ""
	for bar := range tl.Passes[0].Bars {
		got += fmt.Sprint(p.FeelIn(bar).Name, " ", p.FirstStep(bar, p.Level(bar))/16+1, " ")
	}
	if want := "test 1 test 2 test 1 other 1 other 2 other 1 test 1 test 2 "; got != want {
		t.Errorf("bars of the tabs: %s\nwant %s", got, want)
	}
}

// What the band leads to, bar by bar: the energies of the bars, "^" where it leads up to a rise.
func TestLeadsToARiseInside(t *testing.T) {
	for _, row := range []struct {
		about    string
		change   func(p *timeline.Pass)
		lead     bool
		energies string // what LeadsTo is
	}{
		{"a rise after four bars", groovetest.EnergyInside(5, 8, 4, 4), true, "2 2 4 4 4 4 2 2 "},
		{"no leading", groovetest.EnergyInside(5, 8, 4, 4), false, "2 2 2 2 4 4 4 4 "},
		{"a rise after three bars is a break's end", groovetest.EnergyInside(4, 8, 4, 4), true, "2 2 2 4 4 4 2 2 "},
		{"a fall is sudden", groovetest.EnergyInside(5, 8, 1, 1), true, "2 2 2 2 1 1 2 2 "},
		{"a break of two bars stays quiet", groovetest.EnergyInside(5, 6, 1, 1), true, "2 2 2 2 1 1 2 2 "},
		{"a break before the border, too", groovetest.EnergyInside(7, 8, 1, 1), true, "2 2 2 2 2 2 1 1 "},
		{"a way up leads nowhere but up", groovetest.EnergyInside(1, 8, 1, 4), true, "1 1 2 2 3 3 2 2 "},
	} {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|C|C|C|C|C|C|C", Energy: 2,
			Change: func(p *timeline.Pass) { row.change(p); p.Lead = row.lead }},
			groovetest.Section{Name: "b", Chords: "C", Energy: 2})
		p := plan.New(tl, &tl.Passes[0], groovetest.Set(nil))
		got := ""
		for bar := range tl.Passes[0].Bars {
			got += fmt.Sprint(p.LeadsTo(bar), " ")
		}
		if got != row.energies {
			t.Errorf("%s: it leads to %s\nwant %s", row.about, got, row.energies)
		}
	}
}
