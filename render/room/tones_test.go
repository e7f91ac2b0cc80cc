package room

import (
	"io"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// charted is a song of passes in 4/4 at 60, one chord a bar, all at one energy.
func charted(t testing.TB, key string, passes ...string) *timeline.Timeline {
	t.Helper()
	k, err := harmony.ParseKey(key)
	if err != nil {
		t.Fatal(err)
	}
	tl := &timeline.Timeline{Title: "Charted", Tempos: []timeline.Tempo{{Micros: 1_000_000}}}
	bar := 1
	for i, chart := range passes {
		p := timeline.Pass{Index: i, Section: "verse", Ordinal: i, EnergyFrom: 2, EnergyTo: 2, Key: k,
			Meter: meter.Common, BPM: 60_000, Start: tl.End, FirstBar: bar}
		for _, sym := range strings.Fields(chart) {
			c := harmony.NoChord()
			if sym != "N.C." {
				if c, err = harmony.ParseChord(sym); err != nil {
					t.Fatal(err)
				}
			}
			p.Bars = append(p.Bars, timeline.Bar{Start: p.Length, Length: 3840, Meter: meter.Common})
			p.Chords = append(p.Chords, timeline.Span{Start: p.Length, End: p.Length + 3840, Chord: c})
			p.Length += 3840
			bar++
		}
		tl.End += p.Length
		tl.Passes = append(tl.Passes, p)
	}
	return tl
}

// Read off the chords by hand. C Am F share C; C Am alone C and E, but the line
// with the fewest changes holds C. G and Em share G and B. N.C. holds nothing, and
// one chord is no stretch.
func TestHeldTones(t *testing.T) {
	for _, tt := range []struct{ name, chart, want string }{
		{"three in a row", "C Am F", "bars 1-3: C"},
		{"two lines", "G Em C Am", "bars 1-3: G | "},
		{"both tones of a pair", "G Em F#7", "bars 1-2: G and B"},
		{"the bass holds too", "Ab Bb/Ab", "bars 1-2: Ab"},
		{"no chord between", "C N.C. C", ""},
		{"one chord", "C C C", ""},
		{"nothing in common", "C F# C", ""},
		{"borrowed", "Ab Abm6 Eb/Bb", "bars 1-3: Eb"},
		{"no double flat", "Cb7 A", "bars 1-2: A"},
	} {
		r := Analyze(charted(t, "C", tt.chart), nil)
		var words []string
		for _, h := range r.Passes[0].Held {
			words = append(words, heldWords(h))
		}
		if got := strings.Join(words, " | "); got != strings.TrimSuffix(tt.want, " | ") {
			t.Errorf("%s: got %q, want %q", tt.name, got, tt.want)
		}
	}
}

// E is in C, Am and E; over it the voice holds F for two beats, a semitone away.
// F for half a beat is only passing.
func TestHeldToneAgainstVoice(t *testing.T) {
	tl := charted(t, "C", "C Am E")
	sing(t, tl, sung{0, 480, 65}, sung{960, 1920, 64}, sung{3840, 1920, 65})
	h := Analyze(tl, nil).Passes[0].Held
	if len(h) != 1 || heldWords(h[0]) != "bars 1-3: E (F4 is sung against it, bar 2 count 1)" {
		t.Errorf("held %+v", h)
	}
}

// The chords under a window are those that sound in it.
func TestChordsOver(t *testing.T) {
	tl := charted(t, "C", "C F G7 C")
	sing(t, tl, sung{0, 1920, 67}, sung{8640, 960, 67})
	r := Analyze(tl, nil)
	if len(r.Windows) != 2 || strings.Join(r.chordsOver(r.Windows[0]), " ") != "C F G7" ||
		strings.Join(r.chordsOver(r.Windows[1]), " ") != "G7 C" {
		t.Errorf("windows %+v, over %v and %v", r.Windows, r.chordsOver(r.Windows[0]), r.chordsOver(r.Windows[1]))
	}
}

// In a song at one energy the climax is where the highest note is sung for the last time.
// It is not the loudest pass, which may be an interlude.
func TestClimaxOfLevelSong(t *testing.T) {
	tl := charted(t, "C", "C F", "C F", "G C")
	if c := Analyze(tl, nil).Climax; c.Pass != -1 {
		t.Errorf("no voice, one energy, but a climax: %+v", c)
	}
	sing(t, tl, sung{0, 960, 67}, sung{7680, 960, 72}, sung{11520, 960, 72}, sung{15360, 960, 71})
	c := Analyze(tl, nil).Climax
	if c.Pass != 1 || c.Bar != 4 || !strings.Contains(c.Why, "the energy is 2 throughout") {
		t.Errorf("climax %+v", c)
	}
	// Two passes share the top: the reader is told so.
	tl.Passes[1].EnergyFrom, tl.Passes[1].EnergyTo, tl.Passes[2].EnergyFrom, tl.Passes[2].EnergyTo = 4, 4, 4, 4
	perf := groove.NewPerformance()
	perf.Parts[timeline.Piano] = []groove.Note{{Tick: 7680, Length: 960, Key: 60, Velocity: 90},
		{Tick: 15360, Length: 960, Key: 60, Velocity: 50}}
	c = Analyze(tl, means(tl, perf)).Climax
	if c.Pass != 1 || !strings.HasPrefix(c.Why, "energy 4, as in another pass, but the band is fullest here") {
		t.Errorf("climax %+v", c)
	}
}

// The hint about the highest notes is true of every note, not of nineteen in twenty. There
// is none when the singer is not known.
func TestReached(t *testing.T) {
	tl := charted(t, "C", "C F C F C F", "C F", "C F")
	var low []sung
	for i := int64(0); i < 21; i++ {
		low = append(low, sung{i * 960, 900, 67})
	}
	high := append(append([]sung{}, low...), sung{6 * 3840, 900, 76})
	sing(t, tl, high...)
	if pass, before := Analyze(tl, nil).firstHighPass(); pass != 1 || before != 67 {
		t.Errorf("pass %d, %d before", pass, before)
	}
	high[9].key = 76 // one early note, less than one in twenty
	sing(t, tl, high...)
	if pass, before := Analyze(tl, nil).firstHighPass(); pass != 0 {
		t.Errorf("76 has been sung in pass 0, but it is said that %d is the top until pass %d", before, pass)
	}
	tl.Vocals = nil
	for i := range tl.Passes {
		tl.Passes[i].Sung = nil
	}
	perf := groove.NewPerformance()
	for i := int64(0); i < 9; i++ {
		perf.Parts[timeline.Piano] = append(perf.Parts[timeline.Piano],
			groove.Note{Tick: i * 3840, Length: 960, Key: uint8(60 + i)})
	}
	for _, h := range Analyze(tl, means(tl, perf)).Hints {
		if strings.Contains(h.Say, "Nothing goes above") {
			t.Errorf("without a voice it is said that %s", h.Say)
		}
	}
}

// The room under the comp is told by pass: a bass that climbs in the second closes
// what is free in the first. F2 to E3 in pass 1 (bass to E2, comp from F3), Db3 to
// E3 in pass 2 (bass to C3).
func TestUnderHints(t *testing.T) {
	tl := charted(t, "C", "C F", "C F", "C F")
	tl.Passes[1].Section, tl.Passes[2].Section = "chorus", "bridge"
	perf := groove.NewPerformance()
	for i := int64(0); i < 24; i++ {
		bass := uint8(40) // E2
		if i >= 8 {
			bass = 48 // C3
		}
		if i >= 16 {
			bass = 36 // C2
		}
		perf.Parts[timeline.Bass] = append(perf.Parts[timeline.Bass],
			groove.Note{Tick: i * 960, Length: 900, Key: bass})
		perf.Parts[timeline.Piano] = append(perf.Parts[timeline.Piano],
			groove.Note{Tick: i * 960, Length: 900, Key: 53})
	}
	var got []string
	for _, h := range Analyze(tl, means(tl, perf)).underHints() {
		got = append(got, h.Say)
	}
	want := []string{
		"There is an octave or more under the comp in bridge from Db2 to E3, for bass clarinet, bassoon, trombone, " +
			"bass trombone, tuba, harp, cello and double bass.",
		"There is room for one held line under the comp in verse from F2 to E3 and chorus from Db3 to E3; Db3 to E3 " +
			"is in all of them, for horn, bassoon, trombone, cello and bass clarinet.",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// The longest song that is allowed, with hits in every bar and a voice that rests in every
// bar, is reported whole: each stop, each push but the last, which leads nowhere, and the
// accents outside stops, all but one with a push. Time in the square of the bars would be
// noticed here.
func TestAnalyzeLong(t *testing.T) {
	tl := charted(t, "C", strings.Repeat("C F G7 Am ", 2500))
	p := &tl.Passes[0]
	var notes []sung
	for i := range p.Bars {
		at := p.Bars[i].Start
		notes = append(notes, sung{at, 1900, 67})
		p.Events = append(p.Events, timeline.Event{Kind: timeline.Accent, Bar: i, Tick: at, End: at, By: timeline.All,
			Weight: 2},
			timeline.Event{Kind: timeline.Stop, Bar: i, Tick: at + 1920, End: at + 2880, By: timeline.All},
			timeline.Event{Kind: timeline.Accent, Bar: i, Tick: at + 1920, End: at + 1920, By: timeline.All, Weight: 2},
			timeline.Event{Kind: timeline.Push, Bar: i, Tick: at + 3360, End: at + 3360, Target: at + 3840,
				By: timeline.All})
	}
	sing(t, tl, notes...)
	r := Analyze(tl, nil)
	for name, write := range forms {
		if err := write(r, io.Discard); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if len(r.Windows) != 10000 || len(r.Song.Hits) != 10000+9999+10000 {
		t.Errorf("%d windows, %d hits", len(r.Windows), len(r.Song.Hits))
	}
}
