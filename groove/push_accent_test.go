package groove_test

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// An accent between a push and its beat, or on that beat, is struck with the push, by
// every player: there their chord is. Inside a section, over the border, and before N.C.
// Design of the band: a push moves the attack and ties over, and nothing is struck until
// its beat has gone.
func TestAccentMovesToThePush(t *testing.T) {
	const song = `
looseness = 0
tempo = 100
section "a" {
  energy = 3
  chords = "%s"
  push "%s" {}
  %s
}
section "b" {
  energy = 3
  chords = "| F | G |"
  %s
}
`
	const and = 3*960 + 480 // 4& in ticks
	for _, row := range []struct{ name, chords, push, accent, next string }{
		{"between", "| C | F | G | C |", "1: 4&", `accent "1: 4a" {}`, ""},
		{"on the beat", "| C | F | G | C |", "1: 4&", `accent "2: 1" {}`, ""},
		{"on the push", "| C | F | G | C |", "1: 4&", `accent "1: 4&" {}`, ""},
		{"after N.C.", "| C / / N.C. | F | G | C |", "1: 4&", `accent "1: 4&" {}`, ""},
		{"between, over the border", "| C |", "1: 4&", `accent "1: 4a" {}`, ""},
		{"on the beat, over the border", "| C |", "1: 4&", "", `accent "1: 1" {}`},
		{"on the push, over the border", "| C |", "1: 4&", `accent "1: 4&" {}`, ""},
	} {
		tl := songfiletest.Song(t, fmt.Sprintf(song, row.chords, row.push, row.accent, row.next))
		for who, notes := range groove.Perform(tl, library.Builtin()).Parts {
			hit, other, after := 0, 0, 0
			for _, n := range notes {
				switch {
				case n.Tick == and:
					hit = max(hit, int(n.Velocity))
				case n.Tick < and:
					other = max(other, int(n.Velocity))
				case n.Tick <= 4*960:
					after++
				}
			}
			if hit <= other || after > 0 {
				t.Errorf("%s, %s: the push at %d, the bar before it up to %d, %d notes until the beat has gone",
					row.name, timeline.Player(who), hit, other, after)
			}
		}
	}
}

// Where the tab is in triplets its off-beat and a song file's "&" are one place. What the
// song asks of the bass there is not struck twice, nor lost beside the row's own note.
func TestBassInSwungTriplets(t *testing.T) {
	tl := songfiletest.Song(t, `
looseness = 0
tempo = 130
feel = "shuffle"
energy = 5
section "a" {
  chords = "| C | (5/8) Am7 F#m7b5 | C | C |"
  accent "1: 2&" {}
}
`)
	perf := groove.Perform(tl, library.Builtin())
	for _, f := range audit.Song(tl, perf, library.Builtin()).Findings {
		t.Errorf("bar %d, the %s: %s", f.Bar+1, f.Player, f.Text)
	}
	hit, other := 0, 0
	for _, n := range perf.Parts[timeline.Bass] {
		switch {
		case n.Tick > 960+320 && n.Tick < 2*960-160:
			hit = max(hit, int(n.Velocity))
		case n.Tick < 4*960:
			other = max(other, int(n.Velocity))
		}
	}
	if hit <= other {
		t.Errorf("the accent of the bass is %d, the others in its bar are up to %d", hit, other)
	}
}

// A dry hit on the last off-beat of a bar is the old chord's alone: the comp, which has the new
// chord ahead of the bar line in swing, waits for the bar line. Common practice, no single source.
func TestNoChordAheadBesideAHit(t *testing.T) {
	set := library.Builtin()
	const bar = 2 * 3840
	const hit, line = bar + 3*960 + 480, bar + 3840
	for take := 1; take <= 40; take++ {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C6|A7|Dm9|G13|Em7|A7|Dm9|C6", Feel: "swing",
			Energy: 5})
		tl.Take = take
		for _, at := range []int64{bar + 960, hit} {
			tl.Passes[0].Events = append(tl.Passes[0].Events, timeline.Event{Kind: timeline.Accent, Bar: 2, Tick: at,
				End: at, By: timeline.All, Weight: 2, Short: true})
		}
		for _, n := range groove.Perform(tl, set).Passes[0].Score.Parts[timeline.Piano].Notes {
			if n.At >= hit && n.At < line && n.End() >= line {
				t.Errorf("take %d: the piano strikes %d at %d and holds it to %d", take, n.Key, n.At, n.End())
			}
		}
	}
}
