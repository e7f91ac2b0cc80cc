package drummer

import (
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// A push a sixteenth before a section is the foot's first stroke of it: at a quick tempo a push
// that is written on the bar line has no kick, and at a moderate one it has. Ten strokes a
// second are a foot's limit, see touch.AgainUS.
func TestFootRestsAfterAnEntry(t *testing.T) {
	for _, row := range []struct {
		bpm  int
		kick bool
	}{{158, false}, {100, true}} {
		for take := 1; take <= takes; take++ {
			a := groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 4, BPM: row.bpm, Feel: "waltz",
				Meter: meter.Meter{Num: 3, Den: 4}}
			b := a
			b.Name, b.Chords = "b", "C F G|F|G|C"
			a.Change = func(p *timeline.Pass) { groovetest.Event(p, timeline.Push, 3, quarter*11/4, nil) }
			b.Change = func(p *timeline.Pass) { groovetest.Event(p, timeline.Push, 0, 0, nil) }
			tl := takeOf(t, take, a, b)
			if e := tl.Passes[1].Entry; e == nil || e.Tick != -quarter/4 {
				t.Fatalf("the pass is entered by %+v", e)
			}
			kick := false
			for _, n := range played(tl, 1, library.Builtin()) {
				kick = kick || n.Key == kickVoice.Key && n.Tick < quarter/4
			}
			if kick != row.kick {
				t.Errorf("at %d, take %d: kick %v on the bar line", row.bpm, take, kick)
			}
		}
	}
}

// A hit that opens the hat is the only thing that the hat does within a tenth of a second: it is
// one instrument.
func TestHatOpensAloneForAHit(t *testing.T) {
	opened := 0
	for take := 1; take <= 40; take++ {
		for energy := 3; energy <= 5; energy++ {
			a := grooveSection("four-on-the-floor", "a", "C|F|G|C", energy)
			a.BPM = 130
			a.Change = func(p *timeline.Pass) {
				for _, at := range []int64{quarter * 2 / 3, quarter * 8 / 3} {
					groovetest.Event(p, timeline.Accent, 2, at, nil)
				}
			}
			tl := takeOf(t, take, a, a)
			tl.Looseness = 1000
			d := drummerOf(tl, 0, library.Builtin())
			notes := played(tl, 0, library.Builtin())
			for _, n := range notes {
				if n.Key != openVoice.Key || n.Tick < d.Pass.Bars[2].Start || n.Tick >= d.Pass.Bars[3].Start {
					continue
				}
				opened++
				for _, m := range notes {
					apart := d.Clock().Micros(m.Tick) - d.Clock().Micros(n.Tick)
					if m.Key == hatVoice.Key && max(apart, -apart) < 60_000 {
						t.Errorf("energy %d, take %d: the hat is open at %d and closed at %d", energy, take, n.Tick,
							m.Tick)
					}
				}
			}
		}
	}
	if opened == 0 {
		t.Fatal("no hit opens the hat")
	}
}
