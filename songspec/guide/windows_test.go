package guide

import (
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// Two bars that a musician can read: bar 1 has G on 1 (a half note) and A on 3
// (a quarter); bar 2 begins with an upbeat quarter on 4. Rests: 4 of bar 1 to 4
// of bar 2, four beats, four seconds at 60; and nothing else.
func twoBars(t *testing.T, events ...timeline.Event) *timeline.Timeline {
	tl := song(t, "C", 60, 0, part{name: "verse", meter: "4/4", chords: []string{"C", "F"}, events: events})
	place(t, tl, file(0, line("Vocal", 0, [3]int{67, 0, 960}, [3]int{69, 960, 480}, [3]int{72, 3360, 480})))
	return tl
}

func TestWindowsTwoBars(t *testing.T) {
	w := Windows(twoBars(t))
	if len(w) != 1 {
		t.Fatalf("windows %+v", w)
	}
	if got := w[0]; got.From.String() != "bar 1 count 4" || got.To.String() != "bar 2 count 4" || got.Beats != 4000 ||
		got.Micros != 4_000_000 || got.Space || got.Pass != 0 {
		t.Errorf("window %+v", got)
	}
}

func TestWindowsSpace(t *testing.T) {
	// A space from 2& of bar 1 runs into the rest and makes one window of it.
	w := Windows(twoBars(t, timeline.Event{Kind: timeline.Space, Tick: 1440, End: 2880 + 480, Bar: 0}))
	if len(w) != 1 || w[0].From.String() != "bar 1 count 2&" || w[0].Beats != 5500 || !w[0].Space {
		t.Errorf("windows %+v", w)
	}
	tl := twoBars(t, timeline.Event{Kind: timeline.Space, Tick: 1440, End: 3360, Bar: 0})
	p := Check(tl, 0)
	if len(p) != 1 || !strings.Contains(p[0].Detail, "sings A4 at bar 1 count 3") {
		t.Errorf("problems %+v", p)
	}
	// Without a vocal nothing is known but the spaces.
	tl.Vocals = nil
	for i := range tl.Passes {
		tl.Passes[i].Sung = nil
	}
	if w := Windows(tl); len(w) != 1 || w[0].Beats != 2000 {
		t.Errorf("windows %+v", w)
	}
}

func TestWindowsMeters(t *testing.T) {
	// 12/8, dotted quarters: a rest of two of them is two beats. An eighth's rest
	// (480 ticks) and a quarter's (960) are none: shorter than a beat.
	tl := song(t, "G", 60, 0, part{name: "verse", meter: "12/8", chords: []string{"G", "D7"}})
	place(t, tl, file(0, line("Vocal", 0,
		[3]int{67, 0, 480},       // count 1, rest of a quarter less than the beat follows
		[3]int{67, 960, 480},     // counts 5-6
		[3]int{67, 2880, 2880}))) // bar 2 to its end
	// Two seconds less two microseconds: the tempo is 666,666 a quarter.
	tl.Tempos = []timeline.Tempo{{Tick: 0, Micros: 666_666}}
	w := Windows(tl)
	if len(w) != 1 || w[0].From.String() != "bar 1 count 7" || w[0].Beats != 2000 || w[0].Micros != 2_000_000-2 {
		t.Errorf("windows %+v", w)
	}
	// The part of it inside a pass.
	if in := Within(tl, timeline.NewClock(tl.Tempos), w, 3840, 5760); len(in) != 1 || in[0].Start != 3840 ||
		in[0].Beats != 1333 {
		t.Errorf("within %+v", in)
	}
}

func TestWindowsStart(t *testing.T) {
	// A pickup of one beat that the voice does not sing: the window begins there.
	tl := song(t, "C", 60, 3840, verse)
	tl.Pickup = 960
	place(t, tl, file(0, line("Vocal", 0, [3]int{67, 480, 480})))
	w := Windows(tl)
	if len(w) != 2 || w[0].From.String() != "bar 0 count 4" || w[0].Beats != 2000 || w[0].Pass != -1 ||
		w[1].To.String() != "bar 5 count 1" {
		t.Errorf("windows %+v", w)
	}
}

// A held A flat over Gmaj7 clashes, a semitone above the root. If it is short, or in the
// chord, it does not. Worked by hand.
func TestClashes(t *testing.T) {
	tl := song(t, "G", 60, 0, part{name: "verse", meter: "4/4", chords: []string{"Gmaj7", "Gmaj7", "C7b9", "Am/G"}})
	place(t, tl, file(0, line("Vocal", 0,
		[3]int{71, 0, 480},
		[3]int{80, 2880, 960},  // bar 2 count 3, Ab5, two beats
		[3]int{73, 3840, 480},  // bar 3 count 1: Db over C7b9, its own tone
		[3]int{73, 4320, 240},  // an eighth only
		[3]int{80, 5760, 480},  // bar 4 count 1: Ab over Am/G, above the bass alone
		[3]int{72, 6240, 1440}, // C over Am: the third
	)))
	clashes, suspensions := Clashes(tl, 0)
	if len(clashes) != 2 || len(suspensions) != 0 {
		t.Fatalf("clashes %v, suspensions %v", clashes, suspensions)
	}
	const first = `sung Ab5 over Gmaj7, bar 2 count 3 of "verse"`
	if got := clashes[0].String(); got != first || clashes[0].Tone != "G" {
		t.Errorf("got %q, want %q; %+v", got, first, clashes[0])
	}
	if got, want := clashes[1].String(), `sung Ab5 over Am/G, bar 4 count 1 of "verse"`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	p := Check(tl, 0)
	if len(p) != 2 || p[0].Summary != `Sung Ab5 over Gmaj7, bar 2 count 3 of "verse"` || p[0].Error {
		t.Errorf("problems %+v", p)
	}
}

// The four-three, nine-eight and six-five over a chord are suspensions when they go down by step
// at once, the textbooks' rule; where the line leaps, goes up, waits, or steps to no tone of the
// chord, the note clashes.
func TestSuspensions(t *testing.T) {
	for _, tt := range []struct {
		name  string
		chord string
		notes [][3]int
		is    bool
	}{
		{"four-three", "C", [][3]int{{65, 0, 960}, {64, 960, 480}}, true},
		{"nine-eight in minor", "E", [][3]int{{65, 0, 960}, {64, 960, 480}}, true},
		{"six-five", "Em", [][3]int{{72, 0, 960}, {71, 960, 480}}, true},
		{"after a breath", "C", [][3]int{{65, 0, 900}, {64, 1200, 480}}, true},
		{"to no tone of the next chord", "C", [][3]int{{65, 0, 1920}, {64, 1920, 480}}, false},
		{"by leap", "C", [][3]int{{65, 0, 960}, {60, 960, 480}}, false},
		{"upwards", "C", [][3]int{{65, 0, 960}, {67, 960, 480}}, false},
		{"too late", "C", [][3]int{{65, 0, 480}, {64, 1440, 480}}, false},
		{"no more comes", "C", [][3]int{{65, 0, 960}}, false},
	} {
		tl := song(t, "C", 60, 0, part{name: "verse", meter: "4/4", chords: []string{tt.chord, "F", "G", "C"}})
		place(t, tl, file(0, line("Vocal", 0, tt.notes...)))
		clashes, suspensions := Clashes(tl, 0)
		if len(clashes)+len(suspensions) != 1 || (len(suspensions) == 1) != tt.is {
			t.Errorf("%s: clashes %v, suspensions %v", tt.name, clashes, suspensions)
		}
		if p := Check(tl, 0); len(p) != len(clashes) { // a suspension is right, and no doubt
			t.Errorf("%s: %+v", tt.name, p)
		}
	}
}

func TestRange(t *testing.T) {
	tl := song(t, "Eb", 60, 0, verse)
	tl.Vocals[0].RangeLow, tl.Vocals[0].RangeHigh = 55, 72 // G3 to C5
	place(t, tl, file(0, line("Vocal", 0, [3]int{74, 0, 240}, [3]int{76, 240, 240}, [3]int{60, 960, 240},
		[3]int{55, 1920, 240}, [3]int{52, 2400, 120})))
	p := outOfRange(tl, &tl.Vocals[0])
	if len(p) != 2 ||
		p[0].Detail != `Sung E5, bar 1 count 1& of "verse", lies above the range G3 to C5; 2 of 5 notes do.` ||
		!strings.Contains(p[1].Detail, `Sung E3, bar 2 count 2 of "verse", lies below`) {
		t.Errorf("problems %+v", p)
	}
}

// A guide in another octave is reported if the singer's range shows it, or if hardly anybody
// sings there: many can sing a line of C4 to A4, few can an octave above.
func TestOctaveOff(t *testing.T) {
	for _, tt := range []struct {
		name      string
		move      int
		low, high int
		want      string // in the detail of the only problem; empty for none
	}{
		{"as sung, no range", 0, 0, 0, ""},
		{"an octave up, no range", 12, 0, 0, "an octave too high"},
		{"a bass, no range", -12, 0, 0, ""},
		{"two octaves down, no range", -24, 0, 0, "an octave too low"},
		{"as sung", 0, 55, 72, ""},
		{"a tenor in the treble clef", 12, 55, 72,
			"An octave lower 8 of 8 would fit: the guide may be written an octave too high, " +
				"as a tenor's line in the treble clef is."},
		{"an octave down", -12, 55, 72, "An octave higher 8 of 8 would fit: " +
			"the guide may be written an octave too low."},
	} {
		tl := song(t, "C", 60, 0, verse)
		tl.Vocals[0].RangeLow, tl.Vocals[0].RangeHigh = tt.low, tt.high
		var notes [][3]int
		for i, k := range []int{60, 64, 67, 69, 67, 64, 65, 67} {
			notes = append(notes, [3]int{k + tt.move, 480 * i, 240})
		}
		place(t, tl, file(0, line("Vocal", 0, notes...)))
		p := append(outOfRange(tl, &tl.Vocals[0]), farFromVoices(tl, &tl.Vocals[0])...)
		switch {
		case tt.want == "" && len(p) > 0:
			t.Errorf("%s: %+v", tt.name, p)
		case tt.want != "" && (len(p) != 1 || !strings.Contains(p[0].Detail, tt.want)):
			t.Errorf("%s: %+v, want %q", tt.name, p, tt.want)
		}
	}
}

func TestAt(t *testing.T) {
	tl := song(t, "C", 60, 3840, verse, part{name: "dance", meter: "6/8", chords: []string{"C"}})
	for _, tt := range []struct {
		tick   int64
		want   string
		reason string
	}{
		{3840, "bar 1 count 1", "bar 1 is behind the lead"},
		{3840 + 1920 - 30, "bar 1 count 3", "a little early is meant on the count"},
		{3840 + 3840 - 20, "bar 2 count 1", "early for the next bar"},
		{3840 + 320, "bar 1 count 1t", "a triplet"},
		{3840 + 720 + 25, "bar 1 count 1a", "a late sixteenth"},
		{3840 * 5, "bar 5 count 1", "the next pass"},
		{3840*5 + 480, "bar 5 count 2", "the counts of 6/8 are eighths"},
		{3840*5 + 2880, "bar 6 count 1", "the last bar line"},
		{2880, "bar 0 count 4", "in front of bar 1"},
		{3835, "bar 1 count 1", "early for bar 1"},
	} {
		if got := At(tl, tt.tick).String(); got != tt.want {
			t.Errorf("tick %d is %q, want %q: %s", tt.tick, got, tt.want, tt.reason)
		}
	}
}

// The end of a note two thirds into a beat is a triplet only among triplets: among straight
// eighths the rest is counted from the nearest sixteenth.
func TestAtBySinging(t *testing.T) {
	for _, tt := range []struct {
		name  string
		notes [][3]int // key, start, length in ticks of 480
		want  string
	}{
		{"straight eighths", [][3]int{{67, 0, 240}, {67, 240, 240}, {67, 480, 240}, {67, 720, 80}}, "bar 1 count 2a"},
		{"triplets", [][3]int{{67, 0, 160}, {67, 160, 160}, {67, 320, 160}, {67, 480, 160}, {67, 640, 160}},
			"bar 1 count 2l"},
		{"swung, and let go early", [][3]int{{67, 0, 320}, {67, 320, 160}, {67, 480, 128}}, "bar 1 count 2t"},
		{"swung eighths", [][3]int{{67, 0, 320}, {67, 320, 160}, {67, 480, 320}}, "bar 1 count 2l"},
		{"quarters", [][3]int{{67, 0, 480}, {67, 480, 320}}, "bar 1 count 2a"},
	} {
		tl := song(t, "C", 60, 0, verse)
		place(t, tl, file(0, line("Vocal", 0, tt.notes...)))
		if w := Windows(tl); len(w) != 1 || w[0].From.String() != tt.want {
			t.Errorf("%s: windows %+v, want one from %s", tt.name, w, tt.want)
		}
	}
}

// Nearest rank: of 1 to 20, the 5th percentile is 1, the lower quartile 5, the
// 95th 19 (definition: the smallest value with at least p in 100 at or below it).
func TestRegisterOf(t *testing.T) {
	var keys []int
	for i := 20; i > 0; i-- {
		keys = append(keys, i)
	}
	if got, want := RegisterOf(keys), (Register{Notes: 20, Low: 1, P5: 1, Quarter: 5, Median: 10, P95: 19,
		High: 20}); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if got := RegisterOf(nil); got != (Register{}) {
		t.Errorf("of nothing: %+v", got)
	}
}

// Three clashes are shown and all are counted; where every third note clashes, one stands for them.
func TestCheckCountsClashes(t *testing.T) {
	for clashing, want := range map[int][]string{
		3: {"", "", ""}, 5: {" Of 5 that do so it is the worst.", "", ""},
		12: {" Of 12 that do so it is the worst."},
	} {
		chords := strings.Fields(strings.Repeat("G ", 20))
		tl := song(t, "G", 60, 0, part{name: "verse", meter: "4/4", chords: chords})
		var notes [][3]int
		for bar := range 20 {
			key := 67 // the root
			if bar < clashing {
				key = 68
			}
			notes = append(notes, [3]int{key, bar * 1920, 960})
		}
		place(t, tl, file(0, line("Vocal", 0, notes...)))
		p := Check(tl, 0)
		if len(p) != len(want) {
			t.Errorf("%d clashes: %+v", clashing, p)
			continue
		}
		for i, w := range want {
			if !strings.HasSuffix(p[i].Detail, "held for 2 beats."+w) {
				t.Errorf("%d clashes: %d is %q", clashing, i, p[i].Detail)
			}
		}
	}
}
