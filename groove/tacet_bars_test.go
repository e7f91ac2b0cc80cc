package groove_test

import (
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// withoutIn plays eight bars of a feel of the library, in bars 3 and 4 of which players keep out.
func withoutIn(t *testing.T, name string, energy int, tacet timeline.Players) groove.PassPart {
	t.Helper()
	set := library.Builtin()
	p := groovetest.FeelPass(t, "C|Am|F|G|G|Am|F|G", set.Feels[name], energy)
	for _, bar := range []int{2, 3} {
		p.Bars[bar].Tacet = tacet
	}
	tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Bass: timeline.BassSetup{Strings: 4}, Take: 1,
		Passes: []timeline.Pass{*p}}
	groovetest.Join(tl)
	return groove.Perform(tl, set).Passes[0]
}

// Who keeps out of bars has let go of everything at the bar line and comes in on the next, at all
// energies, also where the chord has not changed; the comp may keep its figure and be heard by the
// second off-beat.
func TestKeepsOutOfBars(t *testing.T) {
	const out, in = 2 * groovetest.Bar44, 4 * groovetest.Bar44
	for _, name := range library.Names() {
		if m := library.Builtin().Feels[name].Meters; len(m) > 0 && m[0] != meter.Common {
			continue
		}
		for energy := 1; energy <= 5; energy++ {
			for who := range timeline.Player(len(timeline.PlayerNames)) {
				part := withoutIn(t, name, energy, timeline.Only(who))
				enters := false
				for _, n := range part.Notes[who] {
					if n.Tick < in && n.Tick+n.Length > out {
						t.Errorf("%s at energy %d: the %s sounds at %d", name, energy, who, max(n.Tick, out))
					}
					enters = enters || n.Tick == in || who == timeline.Piano && n.Tick > in && n.Tick <= in+3*quarter/2
				}
				if !enters && who.Chords() {
					t.Errorf("%s at energy %d: the %s does not come in on the bar line", name, energy, who)
				}
				var tacet []score.Region
				for _, r := range part.Score.Parts[who].Regions {
					if r.Kind == score.Tacet {
						tacet = append(tacet, r)
					}
				}
				if len(tacet) != 1 || tacet[0].From != out || tacet[0].To != in {
					t.Errorf("%s at energy %d: the score has the %s keep out of %v", name, energy, who, tacet)
				}
			}
		}
	}
}

// A drummer who comes in again at energy 4 or 5 strikes the crash with the kick.
func TestDrummerComesInWithACrash(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		part := withoutIn(t, "ballad-eighths", energy, timeline.Only(timeline.Drums))
		crash := false
		for _, at := range groovetest.Onsets(part.Notes[timeline.Drums], 49) {
			crash = crash || at == 4*groovetest.Bar44
		}
		if crash != (energy >= 4) {
			t.Errorf("energy %d: crash %t", energy, crash)
		}
	}
}

// Where the bassist keeps out of bars the pianist's left hand has the bass there, and there alone.
func TestLeftHandInBarsWithoutBass(t *testing.T) {
	for energy := 2; energy <= 5; energy++ {
		part := withoutIn(t, "ballad-eighths", energy, timeline.Only(timeline.Bass))
		for bar := range int64(8) {
			at := bar * groovetest.Bar44
			low := 127
			for _, k := range downAt(part.Notes[timeline.Piano], at+quarter) {
				low = min(low, k)
			}
			root := [8]int{0, 9, 5, 7, 7, 9, 5, 7}[bar]
			if alone := bar == 2 || bar == 3; alone && (low > 50 || low%12 != root) {
				t.Errorf("energy %d, bar %d: the lowest key is %d", energy, bar+1, low)
			} else if !alone && bar != 7 && low < 48 { // the last chord has two hands
				t.Errorf("energy %d, bar %d: the left hand has the bass under a bassist, %d", energy, bar+1, low)
			}
		}
	}
}

// A pianist who pushes into bars without a bassist has their bass with the push.
func TestPushIntoBarsWithoutBass(t *testing.T) {
	set := library.Builtin()
	p := groovetest.FeelPass(t, "C|Am|F|G", set.Feels["ballad-eighths"], 3)
	p.Bars[2].Tacet = timeline.Only(timeline.Bass)
	groovetest.AddPush(p, 1, 7*groovetest.Eighth)
	p.Events[0].By = timeline.Only(timeline.Piano)
	tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Bass: timeline.BassSetup{Strings: 4}, Take: 1,
		Passes: []timeline.Pass{*p}}
	groovetest.Join(tl)
	perf := groove.Perform(tl, set)
	for _, f := range audit.Song(tl, perf, set).Findings {
		t.Errorf("%s: %s", f.Rule, f.Text)
	}
	keys := downAt(perf.Passes[0].Notes[timeline.Piano], 2*groovetest.Bar44-groovetest.Eighth)
	if len(keys) == 0 || keys[0]%12 != 5 || keys[0] > 50 {
		t.Errorf("on the push the pianist has %v", keys)
	}
}
