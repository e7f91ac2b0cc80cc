package songspec

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/meter"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
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

// In 2/2, 3/2 and 4/2 everything that counts beats counts halves, as charts and counts do: each
// song is the same in time as its neighbour in quarters with twice the figures.
func TestHalves(t *testing.T) {
	for _, row := range []struct{ halves, quarters, chords string }{
		{"2/2", "4/4", "| C F | G | Am | C |"},
		{"3/2", "6/4", "| C | G | Am | C |"},
		{"4/2", "8/4", "| C F | G | Am | C |"},
	} {
		song := func(meter string, figures ...any) *timeline.Timeline {
			return good(t, fmt.Sprintf("meter = %q\nfeel = \"pulse\"\n", meter)+
				fmt.Sprintf("tempo = %v\npickup = %v\ncount_in = 1\n", figures[:2]...)+one(row.chords,
				fmt.Sprintf("stop \"1: %v\" { beats = %v }", figures[2:4]...),
				fmt.Sprintf("hold \"2: %v\" { beats = %v }", figures[4:6]...),
				fmt.Sprintf("rit \"4\" { to = %v }", figures[6])))
		}
		a, b := song(row.halves, 60, 1, 2, 0.5, 2, 1, 45), song(row.quarters, 120, 2, 3, 1, 3, 2, 90)
		if a.Pickup != 1920 || a.Pickup != b.Pickup || a.Lead != b.Lead || a.SongMicros() == 0 {
			t.Errorf("%s: pickup %d and %d, lead %d and %d", row.halves, a.Pickup, b.Pickup, a.Lead, b.Lead)
		}
		p, q := &a.Passes[0], &b.Passes[0]
		if p.Tempos[0].Micros != 500_000 || p.BPM != 60_000 {
			t.Errorf("%s: %s is %s", row.halves, p.BPM, tempoMap(p))
		}
		for i, e := range p.Events[:2] {
			f := q.Events[i]
			if e.Tick != f.Tick || i == 0 && e.End != f.End || e.Extra != f.Extra {
				t.Errorf("%s: %+v, in quarters %+v", row.halves, e, f)
			}
		}
		// The hold is on a half that lasts a half longer: a second more.
		clock := timeline.NewClock(p.Tempos)
		if at := p.Bars[1].Start + 1920; clock.Micros(at+1920)-clock.Micros(at) != 2_000_000 {
			t.Errorf("%s: %s", row.halves, tempoMap(p))
		}
		// The rit goes by halves, and reaches 45 of them with the last.
		if last := p.Tempos[len(p.Tempos)-1]; last.Tick != p.Length-1920 || last.Micros != 666_667 {
			t.Errorf("%s: %s", row.halves, tempoMap(p))
		}
		var text strings.Builder
		if err := outline.Write(&text, a); err != nil || !strings.Contains(text.String(), "tempo    60 halves\n") ||
			!strings.Contains(text.String(), "stop 2 for 0.5 beats") {
			t.Errorf("%s: %v, the outline:\n%s", row.halves, err, text.String())
		}
	}
}

// Without a word a song in halves is as fast as one in quarters, 96 of them a minute.
func TestUsualTempo(t *testing.T) {
	for m, want := range map[string]string{
		"4/4": "96", "2/2": "48", "3/2": "48", "4/1": "24", "6/8": "96", "6/4": "96"} {
		tl := good(t, fmt.Sprintf("meter = %q\nfeel = \"pulse\"\n", m)+one("| C |"))
		if got := tl.Passes[0].BPM.String(); got != want {
			t.Errorf("%s: %s, want %s", m, got, want)
		}
	}
}

// A groove for 4/4 and 2/2 has its range in quarters, and sits as well at half the figure.
func TestRangeInHalves(t *testing.T) {
	feel := FeelInfo{Meters: []meter.Meter{meter.Common, {Num: 2, Den: 2}}, TempoLow: 60, TempoHigh: 90}
	env := Env{Feels: map[string]FeelInfo{"mine": feel}}
	for _, row := range []struct {
		meter, tempo string
		says         string
	}{
		{"4/4", "90", ""},
		{"2/2", "45", ""},
		{"2/2", "30", ""},
		{"2/2", "46", `The feel "mine" sits well from 30 to 45 halves a minute.`},
		{"2/2", "80", "In 2/2 the tempo counts halves: for 80 quarters write tempo = 40."},
	} {
		head := fmt.Sprintf("meter = %q\ntempo = %s\nfeel = \"mine\"\n", row.meter, row.tempo)
		f, _ := Parse("t", []byte(head+one("| C |")))
		_, diags := f.Resolve(env)
		switch {
		case row.says == "" && len(diags) > 0, row.says != "" && len(diags) != 1:
			t.Errorf("%s at %s: %v", row.meter, row.tempo, diags)
		case row.says != "" && !strings.Contains(diags[0].Detail, row.says):
			t.Errorf("%s at %s: %q, want %q", row.meter, row.tempo, diags[0].Detail, row.says)
		}
	}
}

// A rit from count to count is played as far as its bars are, and gives way to an accel of the play.
func TestMovesOfAPlay(t *testing.T) {
	section := "tempo = 80\n" + one("| C | F | G | C |", `rit "2: 3 - 3: 2" { to = 40 }`)
	for _, row := range []struct{ play, want string }{
		{`play "a" {}`, "rit 2: 3 - 3: 2 5760-9600 to 40"},
		{`play "a" { only = "2-4" }`, "rit 2: 3 - 3: 2 1920-5760 to 40"},
		{`play "a" { only = "1-2" }`, "rit 2: 3 - 3: 2 5760-7680 to 40"},
		{`play "a" { only = "3-4" }`, "rit 2: 3 - 3: 2 0-1920 to 40"},
		{"play \"a\" {\n accel \"3: 1 - 3: 4\" { to = 90 }\n}", "accel 3: 1 - 3: 4 7680-11520 to 90"},
	} {
		tl, diags := build(section + "form {\n" + row.play + "\n}\n")
		if tl == nil {
			t.Fatal(diags)
		}
		if got := told(&tl.Passes[0]); got != row.want {
			t.Errorf("%s: got %s, want %s", row.play, got, row.want)
		}
	}
}
