package songspec

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"plinth/songspec/cue"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
)

// told writes a pass's events: word, place, ticks, and what else is set.
func told(p *timeline.Pass) string {
	var out []string
	cues := cue.Of(p)
	for i, e := range p.Events {
		if !cues.Acts(i) {
			continue
		}
		s := fmt.Sprintf("%s %s %d-%d", e.Kind, e.Place, e.Tick, e.End)
		if e.By != timeline.All {
			s += fmt.Sprintf(" by%d", e.By)
		}
		switch e.Kind {
		case timeline.Accent:
			s += fmt.Sprintf(" w%d", e.Weight)
			if e.Alone {
				s += " alone"
			}
			if e.Short {
				s += " short"
			}
		case timeline.Push:
			s += fmt.Sprintf(" to %d", e.Target)
		case timeline.Hold:
			s += fmt.Sprintf(" +%d", e.Extra)
		case timeline.Cue:
			s += fmt.Sprintf(" %q", e.Text)
		case timeline.Caesura:
			s += fmt.Sprintf(" +%d at %d", e.Extra, e.Cut)
		case timeline.Rit, timeline.Accel:
			s += fmt.Sprintf(" to %s", e.To)
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

func TestEvents(t *testing.T) {
	for _, row := range []struct{ name, reason, meter, event, want string }{
		{"accent", "every bar, all players, weight 2", "4/4", `accent "2 4" {}`,
			"accent 1: 2 960-960 w2; accent 1: 4 2880-2880 w2; accent 2: 2 4800-4800 w2; accent 2: 4 6720-6720 w2"},
		{"accent with options", "on lines of their own", "4/4",
			"accent \"2: 2&\" {\n by = [\"drums\", \"piano\"]\n weight = 3\n alone = true\n}",
			"accent 2: 2& 5280-5280 by5 w3 alone"},
		{"short accent", "cut off dry", "4/4", `accent "1: 4&" { short = true }`, "accent 1: 4& 3360-3360 w2 short"},
		{"push", "the chord of the next beat, here over the bar line", "4/4", `push "1: 4&" {}`,
			"push 1: 4& 3360-3840 to 3840"},
		{"push inside", "the next beat of the bar", "4/4", `push "1: 2a" { by = ["piano"] }`,
			"push 1: 2a 1680-1920 by4 to 1920"},
		{"push in twelve", "the next beat is a dotted quarter", "12/8", `push "1: 12" {}`,
			"push 1: 12 5280-5760 to 5760"},
		{"stop", "to the bar's end", "4/4", `stop "1: 3" {}`, "stop 1: 3 1920-3840"},
		{"stop for beats", "as long as it says", "4/4", `stop "1: 3" { beats = 4 }`, "stop 1: 3 1920-5760"},
		{"stop for part of a beat", "even parts are whole ticks", "4/4", `stop "1: 3" { beats = 1/3 }`,
			"stop 1: 3 1920-2240"},
		{"stop of some", "the others go on", "4/4", "stop \"1: 3\" {\n  beats = 1\n  by = [\"bass\", \"piano\"]\n}",
			"stop 1: 3 1920-2880 by6"},
		{"stop in twelve", "beats are the tempo's, dotted quarters", "12/8", `stop "1: 7" { beats = 1 }`,
			"stop 1: 7 2880-4320"},
		{"fill", "the drummer's, to the bar's end", "4/4", `fill "2: 3" {}`, "fill 2: 3 5760-7680 by1"},
		{"hold", "twice as long when nothing is said", "4/4", `hold "2: 4" {}`, "hold 2: 4 6720-7680 +960"},
		{"hold for beats", "so many beats longer", "4/4", `hold "2: 4" { beats = 3 }`, "hold 2: 4 6720-7680 +2880"},
		{"caesura", "a beat of silence, in the last ticks of the count", "4/4", `caesura "1: 4" {}`,
			"caesura 1: 4 2880-3840 +960 at 3780"},
		{"caesura of beats", "as long as it says", "4/4", `caesura "2: 2" { beats = 1.5 }`,
			"caesura 2: 2 4800-5760 +1440 at 5640"},
		{"caesura in twelve", "the beat is a dotted quarter", "12/8", `caesura "1: 6" {}`,
			"caesura 1: 6 2400-2880 +1440 at 2820"},
		{"space", "to the bar's end", "4/4", `space "1: 3" {}`, "space 1: 3 1920-3840"},
		{"space for beats", "over the bar line", "4/4", `space "1: 4" { beats = 2 }`, "space 1: 4 2880-4800"},
		{"rit", "whole bars", "4/4", `rit "1-2" { to = 60 }`, "rit 1-2 0-7680 to 60"},
		{"rit from count to count", "to the end of the beat", "4/4", `rit "1: 3 - 2: 2" { to = 60 }`,
			"rit 1: 3 - 2: 2 1920-5760 to 60"},
		{"accel", "whole bars", "6/8", `accel "last" { to = 120 }`, "accel 2 2880-5760 to 120"},
		{"accel from count to count", "a beat in six is three counts", "6/8", `accel "1:4-2:1" { to = 120.5 }`,
			"accel 1: 4 - 2: 1 1440-4320 to 120.5"},
		{"cue", "the band does nothing", "4/4", `cue "2: 3" { text = "lights: \"blue\"" }`,
			`cue 2: 3 5760-5760 "lights: \"blue\""`},
		{"two cues at one place", "lights and sound", "4/4", "cue \"1: 1\" { text = \"lights\" }\n" +
			"  cue \"1: 1\" { text = \"door\" }", `cue 1: 1 0-0 "lights"; cue 1: 1 0-0 "door"`},
		{"the same cue twice among others", "it comes once", "4/4", "cue \"1: 1 4\" { text = \"lights\" }\n" +
			"  cue \"1: 1\" { text = \"door\" }\n  cue \"1: 1 2\" { text = \"lights\" }",
			`cue 1: 1 0-0 "lights"; cue 1: 1 0-0 "door"; cue 1: 2 960-960 "lights"; ` +
				`cue 1: 4 2880-2880 "lights"`},
		{"last", "by its word", "4/4", `fill "last: 4" {}`, "fill 2: 4 6720-7680 by1"},
	} {
		t.Run(row.name, func(t *testing.T) {
			tl := good(t, "meter = \""+row.meter+"\"\n"+one("| C F | Dm |", row.event))
			if got := told(&tl.Passes[0]); got != row.want {
				t.Errorf("%s:\n got %s\nwant %s", row.reason, got, row.want)
			}
		})
	}
}

// What the README says of the song's last chord: an accent by everybody is the end, and a short one
// leaves the bar to the hit.
func TestAccentOnTheLastBarLine(t *testing.T) {
	for _, row := range []struct {
		event       string
		ends, alone bool
	}{
		{"", true, false},
		{`accent "last: 1" {}`, true, false},
		{`accent "last: 1" { short = true }`, false, true},
		{`accent "last: 1" { by = ["drums"] }`, false, false},
		{`accent "last: 2" { short = true }`, false, false},
	} {
		tl := good(t, one("| C | F | G7 | C |", row.event))
		c := cue.Of(&tl.Passes[0])
		if (c.Ending >= 0) != row.ends || c.Alone[3] != row.alone {
			t.Errorf("%s: ends %t, hits alone %t", row.event, c.Ending >= 0, c.Alone[3])
		}
	}
}

// An odd bar keeps the beat of the tempo: a bar of 3/8 among 6/8 at 54 dotted quarters
// is one beat, and a hold in it adds one, not a quarter.
func TestBeatsInAnOddBar(t *testing.T) {
	for _, row := range []struct{ meter, odd, event, want, outline string }{
		{"6/8", "3/8", `hold "2: 1" {}`, "hold 2: 1 2880-3360 +1440", "1 beat longer"},
		{"6/8", "3/8", `hold "2: 1" { beats = 2 }`, "hold 2: 1 2880-3360 +2880", "2 beats longer"},
		{"4/4", "6/8", `stop "2: 1" { beats = 1 }`, "stop 2: 1 3840-4800", "for 1 beat"},
		{"4/4", "6/8", `hold "2: 4" {}`, "hold 2: 4 5280-6720 +960", "1 beat longer"},
	} {
		tl := good(t, "meter = \""+row.meter+"\"\n"+one("| C | ("+row.odd+") F |", row.event))
		if got := told(&tl.Passes[0]); got != row.want {
			t.Errorf("%s in a bar of %s among %s: got %s, want %s", row.event, row.odd, row.meter, got, row.want)
		}
		var b strings.Builder
		if err := outline.Write(&b, tl); err != nil || !strings.Contains(b.String(), row.outline) {
			t.Errorf("%s: %v, the outline:\n%s", row.event, err, b.String())
		}
	}
}

func TestEventsOfSectionAndPlay(t *testing.T) {
	tl := good(t, `
section "a" {
  chords = "| C | F |"
  fill "2: 3" {}
  accent "1: 1" { weight = 1 }
}
section "b" {
  like = "a"
  accent "1: 1" { weight = 3 }
  stop "1: 4" {}
}
form {
  play "a" {}
  play "b" {}
  play "a" {
    accent "1: 1" { by = ["piano"] }
    space "2: 1" {}
    tacet = ["drums"]
  }
}
`)
	// fill by the drummer alone does nothing in the last pass, and goes.
	want := []string{
		"accent 1: 1 0-0 w1; fill 2: 3 5760-7680 by1",
		"accent 1: 1 0-0 w3; stop 1: 4 2880-3840; fill 2: 3 5760-7680 by1",
		"accent 1: 1 0-0 by4 w2; space 2: 1 3840-7680",
	}
	for i, w := range want {
		if got := told(&tl.Passes[i]); got != w {
			t.Errorf("pass %d: got %s, want %s", i, got, w)
		}
	}
}

func TestPushOverTheBorder(t *testing.T) {
	tl := good(t, `
section "a" {
  chords = "| C | F |"
  push "2: 4&" {}
}
section "b" {
  chords = "| N.C. |"
}
form {
  play "a" {}
  play "a" { tacet = ["bass"] }
  play "b" {}
  play "a" {}
}
`)
	if got := told(&tl.Passes[0]); got != "push 2: 4& 7200-7680 to 7680" {
		t.Errorf("first pass: %s", got)
	}
	e := tl.Passes[1].Entry
	if e == nil || e.Tick != -480 || e.Kind != timeline.Push || e.By != timeline.All&^timeline.Only(timeline.Bass) ||
		e.Target != 0 {
		t.Errorf("entry: %+v", e)
	}
	// Into a bar without a chord, and over the song's end, there is nothing to push.
	for _, i := range []int{1, 3} {
		if got := told(&tl.Passes[i]); got != "" {
			t.Errorf("pass %d: %s", i, got)
		}
	}
	if tl.Passes[2].Entry != nil || tl.Passes[0].Entry != nil {
		t.Error("an entry out of nowhere")
	}
}

// In a stop nobody would hear a push: the next section's chord stays on its beat.
func TestPushOverTheBorderInAStop(t *testing.T) {
	tl, diags := build(`
section "a" {
  chords = "| C | F |"
  push "2: 4&" {}
  stop "2: 4" {}
}
form {
  play "a" {}
  play "a" {}
}
`)
	if len(diags) != 1 || diags[0].Summary != "The push does nothing" {
		t.Errorf("told: %v", diags)
	}
	if got := told(&tl.Passes[0]); strings.Contains(got, "push") {
		t.Errorf("first pass: %s", got)
	}
	if e := tl.Passes[1].Entry; e != nil {
		t.Errorf("entry: %+v", e)
	}
}

// What is meant as it is written is not doubted: a stop that takes one of the accents
// of every bar, a push of every bar under some of which the chord goes on, and an accent on the
// beat that a push takes early.
func TestEventsTogether(t *testing.T) {
	good(t, one("| C | F |", `accent "2 4" {}`, `stop "2: 3" {}`))
	good(t, one("| C | F | F |", `push "4&" {}`)+next)
	good(t, one("| C | F |", `push "1: 4&" {}`, `accent "2: 1" {}`))
}

func tempoMap(p *timeline.Pass) string {
	var out []string
	for _, s := range p.Tempos {
		out = append(out, fmt.Sprintf("%d:%d", s.Tick, s.Micros))
	}
	return strings.Join(out, " ")
}

func TestTempo(t *testing.T) {
	for _, row := range []struct{ name, reason, top, event, want string }{
		// SMF: microseconds a quarter; 120 a minute is 500,000. In 12/8 the beat is a
		// dotted quarter: 60 of those a minute are 90 quarters.
		{"plain", "60,000,000 / 120", "tempo = 120", "", "0:500000"},
		{"rounded", "60,000,000 / 72 = 833,333.3", "tempo = 72", "", "0:833333"},
		{"compound", "40,000,000 / 60", "tempo = 60\nmeter = \"12/8\"", "", "0:666667"},
		{"hold", "a beat at 60 with one more lasts two seconds", "tempo = 60", `hold "2: 1" { beats = 1 }`,
			"0:1000000 3840:2000000 4800:1000000"},
		{"hold inside a beat", "from the place to the beat's end: half a second and one more in the half", "tempo = 60",
			`hold "2: 4&" { beats = 1 }`, "0:1000000 7200:3000000"},
		{"hold in compound", "a dotted quarter and one more", "tempo = 60\nmeter = \"6/8\"",
			`hold "2: 4" { beats = 1 }`, "0:666667 4320:1333334"},
		{"rit", "v² evenly from 80² to 40² in 4 beats: √5200, √4000, √2800, 40", "tempo = 80", `rit "2" { to = 40 }`,
			"0:750000 3840:832050 4800:948683 5760:1133893 6720:1500000"},
		{"rit from count to count", "the same four beats, from 3 on, and the last tempo stays", "tempo = 80",
			`rit "1: 3 - 2: 2" { to = 40 }`, "0:750000 1920:832050 2880:948683 3840:1133893 4800:1500000"},
		{"rit from an off-beat", "its first step is the half beat", "tempo = 80", `rit "1: 3& - 2: 2" { to = 40 }`,
			"0:750000 2400:832050 2880:948683 3840:1133893 4800:1500000"},
		{"rit of one beat", "it has the new tempo", "tempo = 60", `rit "2: 4 - 2: 4" { to = 40 }`,
			"0:1000000 6720:1500000"},
		{"accel", "v² evenly from 60² to 90²", "tempo = 60", `accel "2: 1 - 2: 4" { to = 90 }`,
			"0:1000000 3840:872872 4800:784465 5760:718421 6720:666667"},
		{"accel in six", "beat by beat: dotted quarters", "tempo = 60\nmeter = \"6/8\"", `accel "2" { to = 90 }`,
			"0:666667 2880:522976 4320:444444"},
		{"accel after a rit", "from where that ended", "tempo = 80",
			"rit \"1: 1 - 1: 4\" { to = 40 }\n  accel \"2: 1 - 2: 4\" { to = 80 }",
			"0:832050 960:948683 1920:1133893 2880:1500000 3840:1133893 4800:948683 5760:832050 6720:750000"},
		{"rit up", "a warning, and it goes up", "tempo = 60", `rit "2" { to = 90 }`,
			"0:1000000 3840:872872 4800:784465 5760:718421 6720:666667"},
	} {
		t.Run(row.name, func(t *testing.T) {
			src := row.top + "\n" + one("| C | F |", row.event)
			if row.event == "" {
				src = row.top + "\n" + one("| C | F |")
			}
			tl, diags := build(src)
			if tl == nil {
				t.Fatal(diags)
			}
			// A step at the pass's end would be the next pass's affair.
			if got := tempoMap(&tl.Passes[0]); got != row.want {
				t.Errorf("%s: got %s, want %s", row.reason, got, row.want)
			}
		})
	}
}

func TestRitIsShaped(t *testing.T) {
	tl := good(t, "tempo = 72\n"+one("| C | F | G | C | C |", `rit "2-4" { to = 48 }`))
	p := &tl.Passes[0]
	steps := p.Tempos[1:]
	if len(steps) != 12 {
		t.Fatalf("%d steps in 12 beats", len(steps))
	}
	for i, s := range steps {
		if s.Tick != 3840+int64(i)*960 {
			t.Errorf("step %d is off the beat, at %d", i, s.Tick)
		}
		if i > 0 && s.Micros <= steps[i-1].Micros {
			t.Errorf("step %d does not slow down", i)
		}
	}
	// Its last beat has the tempo it reaches, and that stays to the pass's end.
	if last := steps[11]; last.Micros != 1250000 {
		t.Errorf("ends on %d", last.Micros)
	}
	// Not a straight line: the beat in the middle is quicker than half way.
	line := new(big.Int).SetInt64((833333 + 1250000) / 2)
	if steps[5].Micros >= line.Int64() {
		t.Errorf("the sixth beat, %d, is on a straight line or under it", steps[5].Micros)
	}
}

func TestMaps(t *testing.T) {
	tl := good(t, `
tempo    = 60
count_in = 1
section "a" {
  chords = "| C | (2/4) F | G |"
  rit "3" { to = 50 }
}
section "b" {
  key    = "F"
  meter  = "3/4"
  tempo  = 120
  chords = "| F |"
}
`)
	var got []string
	for _, m := range tl.Meters {
		got = append(got, fmt.Sprintf("%d:%s", m.Tick, m.Meter))
	}
	for _, k := range tl.Keys {
		got = append(got, fmt.Sprintf("%d:%s", k.Tick, k.Key))
	}
	for _, s := range []timeline.Tempo{tl.Tempos[0], tl.Tempos[len(tl.Tempos)-1]} {
		got = append(got, fmt.Sprintf("%d:%d", s.Tick, s.Micros))
	}
	// The odd bar, the bar after it, and the next section; each map begins at 0,
	// under the bar of click.
	want := "0:4/4 7680:2/4 9600:4/4 13440:3/4 0:C major 13440:F major 0:1000000 13440:500000"
	if s := strings.Join(got, " "); s != want {
		t.Errorf("got  %s\nwant %s", s, want)
	}
}

// The bars in front click at the song's tempo, also where bar 1 begins with a held beat or
// a moving tempo.
func TestTempoInFront(t *testing.T) {
	for _, row := range []struct{ name, event, want string }{
		{"hold", `hold "1: 1" {}`, "0:1000000 3840:2000000 4800:1000000"},
		{"rit", `rit "1" { to = 30 }`, "0:1000000 3840:1109400"},
	} {
		tl := good(t, "tempo = 60\ncount_in = 1\n"+one("| C | F |", row.event))
		var got []string
		for _, s := range tl.Tempos {
			got = append(got, fmt.Sprintf("%d:%d", s.Tick, s.Micros))
		}
		if s := strings.Join(got, " "); !strings.HasPrefix(s, row.want) {
			t.Errorf("%s: got %s, want %s", row.name, s, row.want)
		}
	}
}

func TestClock(t *testing.T) {
	tl := good(t, "tempo = 60\ncount_in = 1\n"+one("| C | F |", `hold "2: 4" { beats = 2 }`))
	// Eight beats of a second and two more; four of click in front.
	if got := tl.SongMicros(); got != 10_000_000 {
		t.Errorf("song: %d", got)
	}
	if got := timeline.NewClock(tl.Tempos).Micros(tl.End); got != 14_000_000 {
		t.Errorf("file: %d", got)
	}
	if got := tl.Passes[0].Micros(); got != 10_000_000 {
		t.Errorf("pass: %d", got)
	}
	if got := timeline.MinSec(187_400_000); got != "3:07" {
		t.Errorf("187.4 s: %s", got)
	}
}
