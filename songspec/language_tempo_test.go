package songspec

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/meter"
	"plinth/songspec/outline"
)

// A tempo has up to three decimals, and every one of them counts: 60,000,000 / 61.5 is
// 975,609.8 microseconds a quarter (SMF: microseconds a quarter).
func TestTempoDecimals(t *testing.T) {
	for _, row := range []struct{ tempo, told, want string }{
		{"61.5", "61.5", "0:975610"},
		{"61.50", "61.5", "0:975610"},
		{"\"61.5\"", "61.5", "0:975610"},
		{"99.999", "99.999", "0:600006"}, // 600,006.00006
		{"123/2", "61.5", "0:975610"},
		{"61.1", "61.1", "0:981997"}, // no binary fraction
		{"400.0", "400", "0:150000"},
	} {
		tl, diags := build("tempo = " + row.tempo + "\n" + one("| C | F |"))
		if tl == nil {
			t.Fatalf("%s: %v", row.tempo, diags)
		}
		p := &tl.Passes[0]
		var b strings.Builder
		if err := outline.Write(&b, tl); err != nil {
			t.Fatal(err)
		}
		js, err := json.Marshal(p.BPM)
		if err != nil || string(js) != row.told || tempoMap(p) != row.want ||
			!strings.Contains(b.String(), "\n  tempo    "+row.told+"\n") {
			t.Errorf("%s: %s, %s, %v, the outline:\n%s", row.tempo, tempoMap(p), js, err, b.String())
		}
	}
}

// A rit goes from and to tempos with decimals as evenly as between whole ones: in four beats
// from 70.5 to 60.5 the second has √((70.5² + 60.5²) / 2) = 65.690: 913,373 microseconds.
func TestRitDecimals(t *testing.T) {
	tl, diags := build("tempo = 70.5\n" + one("| C | F |", `rit "2" { to = 60.5 }`))
	if tl == nil {
		t.Fatal(diags)
	}
	if got, want := tempoMap(&tl.Passes[0]),
		"0:851064 3840:880569 4800:913373 5760:950139 6720:991736"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// That other programs round is said once, at the first tempo of the file that is not whole, and
// by check alone.
func TestTempoRemark(t *testing.T) {
	for _, row := range []struct{ src, at string }{
		{"tempo = 72\n" + one("| C | F |", `rit "2" { to = 60 }`), ""},
		{"tempo = 72.5\n" + one("| C | F |", `rit "2" { to = 60.25 }`), "1:9 72.5"},
		{"tempo = 72\n" + one("| C | F |", `rit "2" { to = 60.25 }`, "tempo = 61.5"), "4:18 60.25"},
	} {
		f, diags := Parse("t", []byte(row.src))
		if len(diags) > 0 {
			t.Fatal(diags)
		}
		got := ""
		for _, d := range f.Remarks() {
			number := strings.Fields(d.Detail[strings.Index(d.Detail, "has "):])[1]
			got += fmt.Sprintf("%d:%d %s", d.Subject.Start.Line, d.Subject.Start.Column, number)
		}
		if got != row.at {
			t.Errorf("%s: said at %q, want %q", row.src, got, row.at)
		}
	}
}

// The feel's own tempos hold for fractions: 88.5 is over 88.
func TestFractionOutsideTheFeel(t *testing.T) {
	env := Env{Feels: map[string]FeelInfo{defaultFeel: {TempoLow: 56, TempoHigh: 88}}}
	for tempo, want := range map[string]int{"88": 0, "88.5": 1, "56": 0, "55.999": 1} {
		f, _ := Parse("t", []byte("tempo = "+tempo+"\n"+one("| C |")))
		if _, diags := f.Resolve(env); len(diags) != want {
			t.Errorf("tempo %s: %v", tempo, diags)
		}
	}
	if got := meter.BPM(88_500).String(); got != "88.5" {
		t.Error(got)
	}
}
