package songspec

import (
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/meter"
)

func TestFeelOfAMeter(t *testing.T) {
	for _, row := range []struct{ meter, chords, want string }{
		{"4/4", "C", "ballad-eighths"}, {"3/4", "C", "waltz"}, {"12/8", "C", "slow-twelve"}, {"6/8", "C", "lilt"},
		{"2/4", "C", "march"}, {"5/4", "C", "five"}, {"7/8", "C", "seven"}, {"7/8 3+2+2", "C", "pulse"},
		{"9/8", "C", "pulse"},
	} {
		tl := good(t, "meter = \""+row.meter+"\"\n"+one("| C |"))
		if got := tl.Passes[0].Feel; got != row.want {
			t.Errorf("%s: got %s, want %s", row.meter, got, row.want)
		}
	}
}

// A feel is written for the beats of its meter. A song that groups its bars in another
// way has its beats elsewhere, and the backbeat would stand in the wrong places: where
// such a feel is named it is refused, and where none is named the band plays one that
// fits any meter. A grouping that only says what is the custom changes nothing.
func TestFeelOfAGrouping(t *testing.T) {
	feels := env()
	feels.Feels["limp"] = FeelInfo{Meters: []meter.Meter{{Num: 5, Den: 8, Groups: "2+3"}}}
	for _, row := range []struct {
		meter, feel string
		fits        bool
		unnamed     string // what is played where nobody names a feel
	}{
		{"12/8 3+3+3+3", "slow-twelve", true, "slow-twelve"},
		{"12/8 3+3+2+2+2", "slow-twelve", false, "pulse"},
		{"6/8 2+2+2", "lilt", false, "pulse"},
		{"5/4 3+2", "five", false, "pulse"},
		{"7/8", "seven", true, "seven"}, // the feel says 2+2+3, which is the custom
		{"5/8 2+3", "limp", true, "pulse"},
		{"5/8", "limp", false, "pulse"}, // the custom is 3+2
	} {
		feelOf := func(head string) (string, string) {
			f, diags := Parse("t.song.hcl", []byte(head+one("| C |")))
			if len(diags) > 0 {
				t.Fatal(diags)
			}
			tl, diags := f.Resolve(feels)
			if len(diags) > 0 {
				return "", diags[0].Summary
			}
			return tl.Passes[0].Feel, ""
		}
		head := fmt.Sprintf("meter = %q\n", row.meter)
		if got, said := feelOf(head); got != row.unnamed {
			t.Errorf("%s: the feel is %q, want %q: %s", row.meter, got, row.unnamed, said)
		}
		got, said := feelOf(head + fmt.Sprintf("feel = %q\n", row.feel))
		refusal := fmt.Sprintf("The feel %q is not written for %s", row.feel, row.meter)
		if row.fits && got != row.feel || !row.fits && said != refusal {
			t.Errorf("%s in %s: played %q, said %q; it fits: %v", row.feel, row.meter, got, said, row.fits)
		}
	}
}

// A bars block may name a feel that is written for the meter of its bars, whoever says that meter:
// the chart, or another block. Where none of them has it the feel is refused.
func TestAFeelOfBarsFitsTheirMeter(t *testing.T) {
	env := Env{Feels: map[string]FeelInfo{
		"even":  {Meters: []meter.Meter{meter.Common}, TempoLow: 20, TempoHigh: 400},
		"round": {Meters: []meter.Meter{{Num: 3, Den: 4}}, TempoLow: 20, TempoHigh: 400},
	}}
	const waltz = "chords = \"| C | (3/4) F | (3/4) G | C |\"\n"
	for _, row := range []struct {
		section, play string
		want          string // the feels of the bars, or what is said
	}{
		{waltz + "bars \"2-3\" { feel = \"round\" }", "", "even round round even"},
		{waltz + "bars \"2-\" { feel = \"round\" }", "", "even round round round"},
		{waltz, "bars \"3\" { feel = \"round\" }", "even even round even"},
		{"chords = \"| C | C | C | C |\"\nbars \"2-3\" {\n meter = \"3/4\"\n chords = \"| F | G |\"\n}",
			"bars \"3\" { feel = \"round\" }", "even even round even"},
		{waltz + "bars \"4\" { feel = \"round\" }", "", `The feel "round" is not written for 4/4`},
		{waltz, "bars \"1\" { feel = \"round\" }", `The feel "round" is not written for 4/4`},
	} {
		f, diags := Parse("t.song.hcl", []byte("feel = \"even\"\nsection \"a\" {\n"+row.section+
			"\n}\nform {\n  play \"a\" {\n"+row.play+"\n  }\n}\n"))
		if len(diags) > 0 {
			t.Fatal(diags)
		}
		tl, diags := f.Resolve(env)
		got := ""
		if len(diags) > 0 {
			got = diags[0].Summary
		} else {
			var names []string
			for bar := range tl.Passes[0].Bars {
				names = append(names, tl.Passes[0].FeelAt(bar))
			}
			got = strings.Join(names, " ")
		}
		if got != row.want {
			t.Errorf("%s; %s: %q, want %q", row.section, row.play, got, row.want)
		}
	}
}
