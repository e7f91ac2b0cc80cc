package drummer

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// What keeps a restrained band in proportion to itself: common practice, no single
// source, unless a test says otherwise.

// played is the drummer's part of a pass as it is played.
func played(tl *timeline.Timeline, pass int, set *feel.Set) []touch.Note {
	d := drummerOf(tl, pass, set)
	var play touch.Playing
	play.Prepare(d.Plan)
	return play.Play(timeline.Drums, d, d.Play(nil).Notes)
}

// An accent or a push at a soft energy is a nudge: no more than so much louder than
// the loudest other stroke of its bar. A hard backbeat beside a cross-stick is 45
// over it. The snare drum stays out of it below energy 3.
func TestHitsStayInProportion(t *testing.T) {
	const most = 36
	set := groovetest.Set(nil)
	for energy := 1; energy <= 3; energy++ {
		for _, kind := range []timeline.EventKind{timeline.Accent, timeline.Push} {
			for take := 1; take <= 5; take++ {
				tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: energy,
					Change: func(p *timeline.Pass) {
						groovetest.Event(p, kind, 1, 3*quarter+quarter/2, nil)
					}}, groovetest.Section{Name: "b", Chords: "C", Energy: energy})
				tl.Take = take
				bar, at := tl.Passes[0].Bars[1], tl.Passes[0].Events[0].Tick
				var hit, rest uint8
				for _, n := range groovetest.Within(played(tl, 0, set), bar.Start, bar.Start+bar.Length) {
					switch {
					case n.Tick != at:
						rest = max(rest, n.Velocity)
					case n.Key == snareVoice.Key && !snareDrum.At(energy):
						t.Errorf("energy %d, %v: the snare drum at %d", energy, kind, n.Velocity)
					default:
						hit = max(hit, n.Velocity)
					}
				}
				if hit == 0 || int(hit) > int(rest)+most {
					t.Errorf("energy %d, %v, take %d: a hit of %d beside %d", energy, kind, take, hit, rest)
				}
			}
		}
	}
}

// A closing fill into energy 3 or 4 is never the longer of its two lengths at a
// slow tempo, and sometimes is at another.
func TestSlowFillsAreShort(t *testing.T) {
	set := groovetest.Set(nil)
	for _, row := range []struct {
		bpm, into int
		most      int64 // beats
	}{{60, 3, 1}, {79, 4, 2}, {80, 4, 3}, {120, 3, 2}} {
		longest := int64(0)
		for take := 1; take <= 30; take++ {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 2, BPM: row.bpm},
				groovetest.Section{Name: "b", Chords: "C", Energy: row.into, BPM: row.bpm})
			tl.Take = take
			s := drummerOf(tl, 0, set).closingSpan()
			longest = max(longest, (s.End-s.Start)/quarter)
		}
		if longest != row.most {
			t.Errorf("at %d into %d: up to %d beats, want %d", row.bpm, row.into, longest, row.most)
		}
	}
}
