package groove

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec/timeline"
)

// aloneAt plays a 4/4 chart in a feel of the library without its bassist, on the grid,
// and returns the pianist's notes.
func aloneAt(t testing.TB, chart, name string, energy int, change func(p *timeline.Pass)) []Note {
	t.Helper()
	set := library.Builtin()
	pass := feelPass(t, chart, set.Feels[name], energy)
	pass.Tacet = timeline.Only(timeline.Bass)
	if change != nil {
		change(pass)
		sortEvents(pass)
	}
	tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Bass: timeline.BassSetup{Strings: 4}, Take: 1}
	part := PerformPass(tl, pass, set)
	for _, f := range AuditPiano(tl.Piano, pass, part) {
		t.Errorf("%s at energy %d: %s: %s", name, energy, f.Rule, f.Text)
	}
	return part.Notes[timeline.Piano]
}

// downAt are the keys that sound just after a tick, from below.
func downAt(notes []Note, tick int64) []int {
	var on [128]bool
	for _, n := range notes {
		if n.Tick <= tick+2 && n.Tick+n.Length > tick+2 {
			on[n.Key] = true
		}
	}
	var out []int
	for k, down := range on {
		if down {
			out = append(out, k)
		}
	}
	return out
}

// What sounds by the end of each chord has the chord's bass at the bottom and the tones
// that tell it from the others over it. The tones are those of the chord symbols'
// usual reading; that the root or the slash bass lies lowest is common practice.
func TestLeftHandChordByChord(t *testing.T) {
	rows := []struct {
		chord string
		bass  int   // pitch class
		over  []int // pitch classes that must sound as well
	}{
		{"Fm", 5, []int{8, 0}},
		{"Fm/Eb", 3, []int{5, 8}},
		{"Dbmaj7", 1, []int{5, 0}},
		{"Dm7", 2, []int{5, 0}},
		{"Dm/F", 5, []int{2, 9}},
		{"C7sus4", 0, []int{5, 10}},
		{"Bdim7", 11, []int{2, 8}},
		{"G7", 7, []int{11, 5}},
		{"F#m7b5", 6, []int{9, 0, 4}},
		{"C/E", 4, []int{0, 7}},
		{"Bb/C", 0, []int{10, 2}},
	}
	for _, name := range []string{"sustain", "ballad-eighths", "slow-twelve", "two-beat"} {
		f := library.Builtin().Feels[name]
		for energy := 1; energy <= 5; energy++ {
			for _, row := range rows {
				notes := aloneAt(t, row.chord+"|"+row.chord, name, energy, nil)
				bar := int64(bar44)
				if len(f.Meters) > 0 {
					bar = f.Meters[0].BarTicks()
				}
				low, heard := 128, 0
				for _, n := range notes {
					if n.Tick >= -2 && n.Tick < bar-2 {
						heard |= 1 << (n.Key % 12)
					}
				}
				for _, k := range downAt(notes, 0) {
					low = min(low, k)
				}
				if low%12 != row.bass || low < 29 || low > 50 {
					t.Errorf("%s at %d: under %s lies %s", name, energy, row.chord, keyName(low))
				}
				for _, pc := range row.over {
					if heard&(1<<pc) == 0 {
						t.Errorf("%s at %d: %s without its %s", name, energy, row.chord, keyNames[pc])
					}
				}
			}
		}
	}
}

// Chords that a bassist alone tells apart are no longer the same.
func TestLeftHandTellsChordsApart(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		notes := aloneAt(t, "Fm|Fm/Eb|Dbmaj7", "sustain", energy, nil)
		seen := map[string]bool{}
		for bar := int64(0); bar < 3; bar++ {
			seen[fmt.Sprint(downAt(notes, bar*bar44))] = true
		}
		if len(seen) != 3 {
			t.Errorf("energy %d: %v", energy, seen)
		}
	}
}

// The line moves by the shorter way, a bass line going down stays one, and the octave
// below is the fifth energy's only.
func TestLeftHandLine(t *testing.T) {
	line := func(chart string, energy int) (keys []int) {
		pass := passOf(t, chart, energy)
		pass.Tacet = timeline.Only(timeline.Bass)
		p := planOf(pass, compFeel("c==============="))
		return p.leftLine(p.Cues.Changes(timeline.Piano), p.listen())
	}
	// The lament, and a walk up to the dominant: steps all the way.
	for _, chart := range []string{"Am|Am/G|F|E", "C|G/B|Am|C/G|F", "F|F/G|F/A|Bb|Bb/C"} {
		for energy := 1; energy <= 5; energy++ {
			keys := line(chart, energy)
			for i := 1; i < len(keys); i++ {
				if abs(keys[i]-keys[i-1]) > 2 {
					t.Errorf("%s at %d leaps: %v", chart, energy, keys)
				}
			}
		}
	}
	for energy := 1; energy <= 5; energy++ {
		octaves := 0
		for _, n := range aloneAt(t, "F|G|A|Bb", "pulse", energy, nil) {
			if n.Key < 36 {
				octaves++
			}
		}
		if octaves > 0 != (energy == 5) {
			t.Errorf("energy %d: %d octaves below", energy, octaves)
		}
	}
}

// A small hand gets what it can hold, and so does one under a low ceiling.
func TestLeftHandSmallHand(t *testing.T) {
	set := library.Builtin()
	for _, setup := range []timeline.PianoSetup{{Span: 7}, {Span: 9}, {Span: 14, Highest: 55}, {Span: 12, Highest: 60}} {
		for energy := 1; energy <= 5; energy++ {
			pass := feelPass(t, "Cmaj9|A7alt|Dm11|G13b9|Db/C|F#m7b5|Bdim7|Eb13#11", set.Feels["ballad-eighths"], energy)
			pass.Tacet = timeline.Only(timeline.Bass)
			part := PerformPass(&timeline.Timeline{Piano: setup, Take: 1}, pass, set)
			for _, f := range AuditPiano(setup, pass, part) {
				t.Errorf("%+v at %d: %s: %s", setup, energy, f.Rule, f.Text)
			}
			for _, c := range pass.Chords {
				if down := downAt(part.Notes[timeline.Piano], c.Start); len(down) == 0 || down[0]%12 != c.Chord.Bass.PC() {
					t.Errorf("%+v at %d: under %s lies %v", setup, energy, c.Written, down)
				}
			}
		}
	}
}

// The audit hears what the left hand leaves out and where it goes with the top voice.
func TestAuditHearsTheLeftHand(t *testing.T) {
	f := compFeel("c===============")
	set := &feel.Set{Feels: map[string]*feel.Feel{f.Name: f}}
	tests := []struct {
		name string
		keys [2][]uint8 // under C and under Dm
		want string
	}{
		{"as it should be", [2][]uint8{{36, 64, 67}, {38, 62, 65}}, ""},
		{"without the root", [2][]uint8{{36, 64, 67}, {53, 57, 60}}, "bass"},
		{"in octaves", [2][]uint8{{36, 64, 67, 72}, {38, 65, 69, 74}}, "octaves"},
		{"muddy", [2][]uint8{{36, 64, 67}, {38, 45, 48, 65}}, "low"},
		{"too wide", [2][]uint8{{36, 64, 67}, {38, 53, 69}}, "span"},
	}
	for _, tt := range tests {
		tl := song(t, section{name: "a", chords: "C|Dm", energy: 3, tacet: timeline.Only(timeline.Bass)})
		tl.Piano.Highest = 79
		perf := Perform(tl, set)
		var notes []Note
		for bar, keys := range tt.keys {
			for _, k := range keys {
				notes = append(notes, Note{Tick: int64(bar) * bar44, Length: bar44, Key: k, Velocity: 60})
			}
		}
		perf.Passes[0].Notes[timeline.Piano] = notes
		var rules []string
		for _, f := range Audit(tl, perf, set).Findings {
			rules = append(rules, f.Rule)
		}
		if got := strings.Join(rules, " "); got != tt.want {
			t.Errorf("%s: found %q, want %q", tt.name, got, tt.want)
		}
	}
}

// The bass stays under the singer, whose held note rubs against it: a bassist would play
// it as well. The right hand goes on keeping clear.
func TestLeftHandUnderTheSinger(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		notes := aloneAt(t, "C|F", "sustain", energy, func(p *timeline.Pass) {
			sing(p, [3]int64{0, bar44 - eighth, 61}, [3]int64{bar44, bar44 - eighth, 65})
		})
		down := downAt(notes, quarter)
		if len(down) < 2 || down[0]%12 != 0 || down[0] > 50 {
			t.Errorf("energy %d: under a held Db sounds %v", energy, down)
		}
		for _, k := range down[min(1, len(down)):] {
			if rubs(k, 61) {
				t.Errorf("energy %d: %s rubs against the held Db", energy, keyName(k))
			}
		}
	}
}

// A pass without its bassist is its own: what is edited in another, or who keeps out
// there, moves nothing in it, and where the bassist plays nothing changes.
func TestLeftHandIsOfItsPass(t *testing.T) {
	set := testSet(nil)
	play := func(first string, tacet timeline.Players) *Performance {
		tl := song(t, section{name: "a", chords: first, energy: 2, tacet: tacet},
			section{name: "b", chords: "Am|F|C/E|G", energy: 2, tacet: timeline.Only(timeline.Bass)},
			section{name: "c", chords: "C|G/B|Am|G", energy: 3})
		tl.Looseness = 400
		return Perform(tl, set)
	}
	was := play("C|F|G", 0)
	for _, now := range []*Performance{play("C|Bb7|Eb|G", 0), play("C|F|G", timeline.Only(timeline.Bass)), play("C|F|G", timeline.Only(timeline.Drums))} {
		for pass := 1; pass < 3; pass++ {
			for who := range was.Passes[pass].Notes {
				if timeline.Player(who) != timeline.Drums && !reflect.DeepEqual(was.Passes[pass].Notes[who], now.Passes[pass].Notes[who]) {
					t.Errorf("%s of pass %d moved", timeline.Player(who), pass)
				}
			}
		}
	}
	for _, n := range was.Passes[2].Notes[timeline.Piano] {
		if n.Key < compFloor {
			t.Errorf("%s in a pass with a bassist", keyName(int(n.Key)))
		}
	}
}
