package audit

import (
	"sort"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/timeline"
)

// Each rule, on notes that a pianist would object to, and on some that are fine.
func TestAuditPiano(t *testing.T) {
	n := func(tick, length int64, keys ...uint8) []groove.Note {
		var out []groove.Note
		for _, k := range keys {
			out = append(out, groove.Note{Tick: tick, Length: length, Key: k, Velocity: 70})
		}
		return out
	}
	cat := func(parts ...[]groove.Note) (out []groove.Note) {
		for _, p := range parts {
			out = append(out, p...)
		}
		return out
	}
	tests := []struct {
		name string
		part []groove.Note
		bass []groove.Note
		want string // the rules found, in order
		why  string
	}{
		{"a triad", n(0, quarter, 60, 64, 67), nil, "", "one hand"},
		{"two hands", n(0, quarter, 48, 62, 64, 69), nil, "", "a ninth in the left, a fourth in the right"},
		{"too wide", n(0, quarter, 37, 53, 69), nil, "span", "three notes of which no two lie within a ninth"},
		{"eleven fingers", n(0, quarter, 50, 53, 56, 57, 59, 60, 62, 63, 64, 65, 67), nil, "span", "five a hand"},
		{"ringing counts", cat(n(0, 4*quarter, 37), n(quarter, quarter, 53, 69)), nil, "span",
			"the bottom note is still held"},
		{"a finger's overlap", cat(n(0, quarter+20, 37), n(quarter, quarter, 55, 69)), nil, "",
			"a note that ends with the attack is no longer held"},
		{"low third", n(0, quarter, 45, 49), nil, "low", "a major third under B2 (low_interval_limits.csv)"},
		{"low fifth", n(0, quarter, 45, 52), nil, "", "a fifth is clear from C#2 up (low_interval_limits.csv)"},
		{"over the ceiling", n(0, quarter, 60, 64, 70), nil, "ceiling", "Bb4 is over A4"},
		{"off the keyboard", n(0, quarter, 20), nil, "range",
			"a piano begins at A0 (instrument_ranges: orchestration handbooks)"},
		{"trill", cat(n(0, 50, 60), n(100, 50, 60)), nil, "repeat", "one key after 69 ms"},
		{"double", cat(n(0, quarter, 60), n(quarter/2, quarter, 60)), nil, "overlap", "struck while it sounds"},
		{"octaves with the bass", cat(n(0, quarter, 64, 67, 72), n(groovetest.Bar44, quarter, 65, 69, 74)),
			cat(n(0, quarter, 36), n(groovetest.Bar44, quarter, 38)), "octaves", "C to D above and below"},
		{"octaves with the bass below", cat(n(0, quarter, 60, 64, 67), n(groovetest.Bar44, quarter, 62, 65, 67)),
			cat(n(0, quarter, 36), n(groovetest.Bar44, quarter, 38)), "octaves", "C to D under a G that stays"},
		{"octaves with the bass of one voice", cat(n(0, quarter, 60), n(groovetest.Bar44, quarter, 62)),
			cat(n(0, quarter, 36), n(groovetest.Bar44, quarter, 38)), "octaves", "found once"},
		{"inner octaves", cat(n(0, quarter, 55, 60, 64), n(groovetest.Bar44, quarter, 57, 62, 64)),
			cat(n(0, quarter, 36), n(groovetest.Bar44, quarter, 38)), "", "C to D in the middle: hardly heard"},
		{"contrary", cat(n(0, quarter, 64, 67), n(groovetest.Bar44, quarter, 62, 65)),
			cat(n(0, quarter, 36), n(groovetest.Bar44, quarter, 38)), "", "down over up"},
		{"broken chords", cat(n(0, quarter, 60), n(quarter, quarter, 64), n(groovetest.Bar44, quarter, 62),
			n(groovetest.Bar44+quarter, quarter, 65)),
			cat(n(0, quarter, 36), n(groovetest.Bar44, quarter, 38)), "", "E to F on top, over C to D"},
		{"octaves that do not move", cat(n(0, quarter, 64, 67, 69), n(groovetest.Bar44, quarter, 64, 67, 69)),
			cat(n(0, quarter, 33), n(groovetest.Bar44, quarter, 33)), "", "the same chord again"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			pass := groovetest.PassOf(t, "C|Dm|C|C", 3)
			part := groove.PassPart{Notes: make([][]groove.Note, len(timeline.PlayerNames))}
			part.Notes[timeline.Piano], part.Notes[timeline.Bass] = tt.part, tt.bass
			setup := timeline.PianoSetup{Span: 14}
			if strings.Contains(tt.name, "octaves with") {
				setup.Highest = 79
			}
			var rules []string
			for _, f := range auditPiano(setup, pass, part) {
				rules = append(rules, f.Rule)
				if f.Text == "" || f.Bar < 0 || f.Bar >= 4 {
					t.Errorf("finding without a sentence or a bar: %+v", f)
				}
			}
			if got := strings.Join(rules, " "); got != tt.want {
				t.Errorf("found %q, want %q: %s", got, tt.want, tt.why)
			}
		})
	}
	t.Run("too busy", func(t *testing.T) {
		part := groove.PassPart{Notes: make([][]groove.Note, len(timeline.PlayerNames))}
		for i := int64(0); i < 32; i++ {
			part.Notes[timeline.Piano] = append(part.Notes[timeline.Piano], n(i*quarter/2, 100, uint8(60+i%3))...)
		}
		got := auditPiano(timeline.PianoSetup{}, groovetest.PassOf(t, "C|C|C|C", 2), part)
		if len(got) != 1 || got[0].Rule != "density" {
			t.Errorf("two attacks a beat at energy 2: %+v", got)
		}
		part.Notes[timeline.Piano] = part.Notes[timeline.Piano][:30] // 30 of 16 beats: 1.875
		if got := auditPiano(timeline.PianoSetup{}, groovetest.PassOf(t, "C|C|C|C", 5), part); len(got) != 0 {
			t.Errorf("fewer than 1.9 attacks a beat at energy 5: %+v", got)
		}
	})
}

// Every feel at every energy, played as loosely as can be, in several takes, at
// the top of its tempo range, has nothing that the audit objects to.
func TestPianoOfEveryFeel(t *testing.T) {
	set := library.Builtin()
	takes := 5
	if testing.Short() {
		takes = 2
	}
	charts := []string{
		"C|G/B|Am7|F Fm6|C/G|G7sus4 G7|C|Bb C7",
		"Dm7|G13|Cmaj7|A7alt|Dm9|Db7#11|C69|F#m7b5 B7b9",
		"Cm|Ab|Fm|G7b9|Cm/Bb|Abmaj7|D7/F#|G7sus4 G",
	}
	for _, name := range library.Names() {
		f := set.Feels[name]
		for energy := 1; energy <= 5; energy++ {
			for i, chart := range charts {
				pass := groovetest.FeelPass(t, chart, f, energy)
				for take := 1; take <= takes; take++ {
					tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Bass: timeline.BassSetup{Strings: 4},
						Looseness: 1000, Take: take, Passes: []timeline.Pass{*pass}}
					part := groove.Perform(tl, set).Passes[0]
					if len(part.Notes[timeline.Piano]) == 0 {
						t.Fatalf("%s at %d plays no piano", name, energy)
					}
					for _, found := range auditPiano(tl.Piano, pass, part) {
						t.Errorf("%s, energy %d, chart %d, take %d, bar %d: %s: %s", name, energy, i, take, found.Bar+1,
							found.Rule, found.Text)
					}
				}
			}
			if t.Failed() {
				return
			}
		}
	}
}

// auditPiano is what the audit finds of the piano alone in one pass.
func auditPiano(setup timeline.PianoSetup, pass *timeline.Pass, part groove.PassPart) []Finding {
	set := &feel.Set{Feels: map[string]*feel.Feel{pass.Feel: groovetest.CompFeel("c===============")}}
	a := &audit{tl: &timeline.Timeline{Piano: setup}, out: &Report{}}
	newPassAudit(a, pass, &part, set).checkPiano()
	sort.SliceStable(a.out.Findings, func(i, j int) bool { return a.out.Findings[i].Tick < a.out.Findings[j].Tick })
	return a.out.Findings
}
