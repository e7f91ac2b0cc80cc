package groove_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/timeline"
)

// aloneAt plays a 4/4 chart in a feel of the library without its bassist, on the grid,
// and returns the pianist's notes.
func aloneAt(t testing.TB, chart, name string, energy int, change func(p *timeline.Pass)) []groove.Note {
	t.Helper()
	set := library.Builtin()
	pass := groovetest.FeelPass(t, chart, set.Feels[name], energy)
	pass.Tacet = timeline.Only(timeline.Bass)
	if change != nil {
		change(pass)
		groovetest.SortEvents(pass)
	}
	tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Bass: timeline.BassSetup{Strings: 4}, Take: 1,
		Passes: []timeline.Pass{*pass}}
	perf := groove.Perform(tl, set)
	for _, f := range audit.Song(tl, perf, set).Findings {
		t.Errorf("%s at energy %d: %s: %s", name, energy, f.Rule, f.Text)
	}
	return perf.Passes[0].Notes[timeline.Piano]
}

// downAt are the keys that sound just after a tick, from below.
func downAt(notes []groove.Note, tick int64) []int {
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
				bar := int64(groovetest.Bar44)
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
					t.Errorf("%s at %d: under %s lies %s", name, energy, row.chord, groovetest.KeyName(low))
				}
				for _, pc := range row.over {
					if heard&(1<<pc) == 0 {
						t.Errorf("%s at %d: %s without its %s", name, energy, row.chord, groovetest.KeyNames[pc])
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
			seen[fmt.Sprint(downAt(notes, bar*groovetest.Bar44))] = true
		}
		if len(seen) != 3 {
			t.Errorf("energy %d: %v", energy, seen)
		}
	}
}

// The octave below is the fifth energy's only.
func TestLeftHandOctaves(t *testing.T) {
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
	const chart = "Cmaj9|A7alt|Dm11|G13b9|Db/C|F#m7b5|Bdim7|Eb13#11"
	setups := []timeline.PianoSetup{{Span: 7}, {Span: 9}, {Span: 14, Highest: 55}, {Span: 12, Highest: 60}}
	for _, setup := range setups {
		for energy := 1; energy <= 5; energy++ {
			pass := groovetest.FeelPass(t, chart, set.Feels["ballad-eighths"], energy)
			pass.Tacet = timeline.Only(timeline.Bass)
			tl := &timeline.Timeline{Piano: setup, Take: 1, Passes: []timeline.Pass{*pass}}
			perf := groove.Perform(tl, set)
			for _, f := range audit.Song(tl, perf, set).Findings {
				t.Errorf("%+v at %d: %s: %s", setup, energy, f.Rule, f.Text)
			}
			for _, c := range pass.Chords {
				if down := downAt(perf.Passes[0].Notes[timeline.Piano], c.Start); len(down) == 0 ||
					down[0]%12 != c.Chord.Bass.PC() {
					t.Errorf("%+v at %d: under %s lies %v", setup, energy, c.Written, down)
				}
			}
		}
	}
}

// The audit hears what the left hand leaves out and where it goes with the top voice.
func TestAuditHearsTheLeftHand(t *testing.T) {
	f := groovetest.CompFeel("c===============")
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
		tl := groovetest.Song(t,
			groovetest.Section{Name: "a", Chords: "C|Dm", Energy: 3, Tacet: timeline.Only(timeline.Bass)})
		tl.Piano.Highest = 79
		perf := groove.Perform(tl, set)
		var notes []groove.Note
		for bar, keys := range tt.keys {
			for _, k := range keys {
				notes = append(notes, groovetest.NoteAt(int64(bar)*groovetest.Bar44, groovetest.Bar44, k, 60))
			}
		}
		perf.Passes[0].Notes[timeline.Piano] = notes
		var rules []string
		for _, f := range audit.Song(tl, perf, set).Findings {
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
	const bar, eighth = groovetest.Bar44, groovetest.Eighth
	for energy := 1; energy <= 5; energy++ {
		notes := aloneAt(t, "C|F", "sustain", energy, func(p *timeline.Pass) {
			groovetest.Sing(p, [3]int64{0, bar - eighth, 61}, [3]int64{bar, bar - eighth, 65})
		})
		down := downAt(notes, quarter)
		if len(down) < 2 || down[0]%12 != 0 || down[0] > 50 {
			t.Errorf("energy %d: under a held Db sounds %v", energy, down)
		}
		for _, k := range down[min(1, len(down)):] {
			if max(k-61, 61-k)%12 == 1 {
				t.Errorf("energy %d: %s rubs against the held Db", energy, groovetest.KeyName(k))
			}
		}
	}
}

// A pass without its bassist is its own: what is edited in another, or who keeps out
// there, moves nothing in it, and where the bassist plays nothing changes.
func TestLeftHandIsOfItsPass(t *testing.T) {
	set := groovetest.Set(nil)
	play := func(first string, tacet timeline.Players) *groove.Performance {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: first, Energy: 2, Tacet: tacet},
			groovetest.Section{Name: "b", Chords: "Am|F|C/E|G", Energy: 2, Tacet: timeline.Only(timeline.Bass)},
			groovetest.Section{Name: "c", Chords: "C|G/B|Am|G", Energy: 3})
		tl.Looseness = 400
		return groove.Perform(tl, set)
	}
	was := play("C|F|G", 0)
	for _, now := range []*groove.Performance{play("C|Bb7|Eb|G", 0),
		play("C|F|G", timeline.Only(timeline.Bass)), play("C|F|G", timeline.Only(timeline.Drums))} {
		for pass := 1; pass < 3; pass++ {
			for who := range was.Passes[pass].Notes {
				if timeline.Player(who) != timeline.Drums &&
					!reflect.DeepEqual(was.Passes[pass].Notes[who], now.Passes[pass].Notes[who]) {
					t.Errorf("%s of pass %d moved", timeline.Player(who), pass)
				}
			}
		}
	}
	for _, n := range was.Passes[2].Notes[timeline.Piano] {
		if n.Key < 48 && n.Tick < 3*groovetest.Bar44-quarter { // C3, the comp's floor, but in the song's last chord
			t.Errorf("%s in a pass with a bassist", groovetest.KeyName(int(n.Key)))
		}
	}
}
