package songspec

import (
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// The silence of a caesura lasts as long as it says at the tempo there, its count as long as without
// it, and the places before and after are where they were, all within two microseconds.
func TestCaesuraInTime(t *testing.T) {
	const within = 2 // microseconds
	for _, row := range []struct {
		name, top, event, plain string
		count                   int64   // where the count begins, in ticks
		silence                 float64 // in milliseconds
	}{
		{"a beat at 120", "tempo = 120", `caesura "1: 4" {}`, "", 2880, 500},
		{"in the middle of a bar", "tempo = 96", `caesura "1: 2" { beats = 1.5 }`, "", 960, 937.5},
		{"part of a beat", "tempo = 72.5", `caesura "1: 4" { beats = 1/3 }`, "", 2880, 60_000 / 72.5 / 3},
		{"after an off-beat", "tempo = 60", `caesura "1: 4&" {}`, "", 3360, 1000},
		{"as long as it may be", "tempo = 200", `caesura "2: 4" { beats = 16 }`, "", 6720, 4800},
		{"the slowest tempo", "tempo = 20", `caesura "1: 4" { beats = 2.5 }`, "", 2880, 7500},
		{"in six", "meter = \"6/8\"\ntempo = 60", `caesura "1: 6" {}`, "", 2400, 1000},
		{"in two", "meter = \"2/2\"\ntempo = 60", `caesura "1: 2" {}`, "", 1920, 1000},
		{"after a hold", "tempo = 90",
			"hold \"1: 4\" { beats = 3 }\n  caesura \"1: 4\" {}", `hold "1: 4" { beats = 3 }`,
			2880, 60_000.0 / 90},
		{"after a long hold", "tempo = 40",
			"hold \"1: 4\" { beats = 4 }\n  caesura \"1: 4\" {}", `hold "1: 4" { beats = 4 }`,
			2880, 1500},
		{"at the end of a rit", "tempo = 100",
			"rit \"1\" { to = 50 }\n  caesura \"1: 4\" {}", `rit "1" { to = 50 }`, 2880,
			1200},
	} {
		tl := read(t, row.top+"\n"+one("| C | F |", row.event)+next)
		was := read(t, row.top+"\n"+one("| C | F |", row.plain)+next)
		now, then := timeline.NewClock(tl.Tempos), timeline.NewClock(was.Tempos)
		at := -1
		for i, e := range tl.Passes[0].Events {
			if e.Kind == timeline.Caesura {
				at = i
			}
		}
		e := &tl.Passes[0].Events[at]
		near := func(what string, got int64, want float64) {
			if d := float64(got) - want*1000; d < -within || d > within {
				t.Errorf("%s: %s is %d µs off", row.name, what, int64(d))
			}
		}
		if e.Tick != row.count || e.Cut < (e.Tick+e.End)/2 || e.Cut >= e.End {
			t.Errorf("%s: the count from %d to %d is cut at %d", row.name, e.Tick, e.End, e.Cut)
		}
		lasted := func(c *timeline.Clock, from, to int64) float64 { return float64(c.Micros(to)-c.Micros(from)) / 1000 }
		near("the silence", now.Micros(e.End)-now.Micros(e.Cut), row.silence)
		near("the count", now.Micros(e.Cut)-now.Micros(e.Tick), lasted(then, e.Tick, e.End))
		near("what stands before", now.Micros(e.Tick), lasted(then, 0, e.Tick))
		near("what comes after", now.Micros(tl.End)-now.Micros(e.End), lasted(then, e.End, was.End))
		half := e.Tick + (e.End-e.Tick)/2
		if e.Cut-e.Tick > (e.End-e.Tick)*3/4 && !strings.Contains(row.event, "hold") {
			near("the off-beat", now.Micros(half)-now.Micros(e.Tick), lasted(then, e.Tick, half))
		}
	}
}

// next is a section that comes after.
const next = "section \"next\" {\n  chords = \"| C |\"\n}\n"

// read resolves a song with or without doubts.
func read(t *testing.T, src string) *timeline.Timeline {
	t.Helper()
	tl, diags := build(src)
	if tl == nil {
		t.Fatal(written(src, diags))
	}
	return tl
}

// Nobody sounds in the silence of a caesura. A push over it is dropped, and what stands in it.
func TestCaesuraCutsOff(t *testing.T) {
	tl := read(t, one("| C | F |", `caesura "1: 4" {}`, `push "1: 4&" {}`, `accent "2: 1" {}`))
	p := &tl.Passes[0]
	c := cue.Of(p)
	for who := range timeline.Player(len(timeline.PlayerNames)) {
		s, _ := c.Silences(who).At(3839)
		if s.End != 3840 || s.Start != 3840-meter.TicksPerQuarter/16 {
			t.Errorf("the %s is silent from %d to %d", who, s.Start, s.End)
		}
		if got := fmt.Sprint(c.Entries(who)); got != "[3840]" {
			t.Errorf("the %s comes in at %s", who, got)
		}
	}
	var why []string
	for _, d := range c.Dropped {
		why = append(why, fmt.Sprintf("%s: %s", p.Events[d.Event].Kind, d.Why))
	}
	if got := strings.Join(why, "; "); got != "push: a caesura; push: a caesura; push: a caesura" {
		t.Errorf("dropped %q", got)
	}
}
