package groove_test

import (
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// The song's last chord is struck by the whole band on the bar line, also where chords come
// an eighth early as a rule, and nobody strikes after it. Design of the band.
func TestLastChordIsStruckTogether(t *testing.T) {
	set := library.Builtin()
	for _, name := range []string{"swing", "bossa", "samba", "shuffle", "jazz-waltz"} {
		f := set.Feels[name]
		for energy := 2; energy <= 5; energy++ {
			for take := 1; take <= 10; take++ {
				tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|Am|F|G|Dm|C", Feel: name,
					Energy: energy, Meter: f.Meters[0]})
				tl.Take = take
				pass := &tl.Passes[0]
				last := pass.Bars[len(pass.Bars)-1].Start
				for who, part := range groove.Perform(tl, set).Passes[0].Score.Parts {
					struck := int64(-1)
					for _, n := range part.Notes {
						if !n.Art.Has(score.Grace) {
							struck = max(struck, n.At)
						}
					}
					if struck != last {
						t.Errorf("%s at %d, take %d: %s strike last at %d, and the bar is at %d", name, energy, take,
							timeline.Player(who), struck, last)
					}
				}
			}
		}
	}
}

// A hit of the whole band on the last bar line ends the song: it rings to the end and keeps its
// force, and a short one is a button with silence behind it. Common practice, no single source.
func TestLastHitEndsTheSong(t *testing.T) {
	set := library.Builtin()
	for _, name := range []string{"swing", "backbeat-eighths", "show-two", "jazz-waltz"} {
		f := set.Feels[name]
		for _, short := range []bool{false, true} {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|Am|F|G|Dm|C", Feel: name,
				Energy: 4, Meter: f.Meters[0]})
			pass := &tl.Passes[0]
			last := pass.Bars[len(pass.Bars)-1].Start
			pass.Events = []timeline.Event{{Kind: timeline.Accent, Bar: len(pass.Bars) - 1, Tick: last, End: last,
				By: timeline.All, Weight: 2, Short: short}}
			p := groove.Perform(tl, set).Passes[0]
			for who, part := range p.Score.Parts {
				end, many := int64(0), 0
				for _, n := range part.Notes {
					if n.At > last {
						t.Errorf("%s, short %t: %s strike at %d, after the last hit at %d", name, short,
							timeline.Player(who), n.At, last)
					}
					if n.At == last {
						end, many = max(end, n.End()), many+1
					}
				}
				rings := end == pass.Length
				if many == 0 || timeline.Player(who).Chords() && rings == short {
					t.Errorf("%s, short %t: %s strike %d notes, to %d of %d", name, short, timeline.Player(who), many,
						end, pass.Length)
				}
			}
		}
	}
}
