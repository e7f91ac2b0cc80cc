package room

import (
	"bytes"
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/score"
	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// small is two bars of 4/4 at 60 that a musician can read. Voice: bar 1, G4 on 1
// for two beats and A4 on 3; silent from 4 to 4 of bar 2; C5 on 4. Piano: C3, E3
// on 1 and 3 of both bars, a hair late. Bass: C2 on 1, G2 on 3 in bar 1, C2 on 1
// in bar 2. Kick on all counts. An accent on 4 of bar 2, a push on 4& of bar 1, a stop
// on 3 of bar 2 for one beat.
func small(t testing.TB) (*timeline.Timeline, *groove.Performance) {
	t.Helper()
	key, err := harmony.ParseKey("C")
	if err != nil {
		t.Fatal(err)
	}
	f, err := harmony.ParseChord("F")
	if err != nil {
		t.Fatal(err)
	}
	c, err := harmony.ParseChord("C")
	if err != nil {
		t.Fatal(err)
	}
	p := timeline.Pass{Section: "verse", EnergyFrom: 2, EnergyTo: 2, Key: key, Meter: meter.Common, BPM: 60_000,
		Length: 7680, FirstBar: 1,
		Bars: []timeline.Bar{{Start: 0, Length: 3840, Meter: meter.Common},
			{Start: 3840, Length: 3840, Meter: meter.Common}},
		Chords: []timeline.Span{{Start: 0, End: 3840, Chord: c}, {Start: 3840, End: 7680, Chord: f}},
		Events: []timeline.Event{
			{Kind: timeline.Push, Bar: 0, Tick: 3360, End: 3360, Target: 3840, By: timeline.All},
			{Kind: timeline.Stop, Bar: 1, Tick: 5760, End: 6720, By: timeline.All},
			{Kind: timeline.Accent, Bar: 1, Tick: 6720, End: 6720, By: timeline.All, Weight: 2},
		}}
	tl := &timeline.Timeline{Title: "Two Bars", Passes: []timeline.Pass{p}, End: 7680,
		Tempos: []timeline.Tempo{{Micros: 1_000_000}}}
	sing(t, tl, sung{0, 1920, 67}, sung{1920, 960, 69}, sung{6720, 960, 72})
	perf := groove.NewPerformance()
	for _, at := range []int64{0, 1920, 3840, 5760} {
		for _, k := range []uint8{48, 52} {
			perf.Parts[timeline.Piano] = append(perf.Parts[timeline.Piano],
				groove.Note{Tick: at + 20, Length: 900, Key: k, Velocity: 60})
		}
	}
	perf.Parts[timeline.Bass] = []groove.Note{{Tick: 0, Length: 960, Key: 36, Velocity: 80},
		{Tick: 1920, Length: 960, Key: 43, Velocity: 80}, {Tick: 3840, Length: 960, Key: 36, Velocity: 80}}
	for at := int64(0); at < 7680; at += 960 {
		perf.Parts[timeline.Drums] = append(perf.Parts[timeline.Drums],
			groove.Note{Tick: at, Length: 100, Key: 36, Velocity: 90})
	}
	return tl, means(tl, perf)
}

// means adds the score to a performance that was made by hand: every note on the nearest
// twelfth of a beat.
func means(tl *timeline.Timeline, perf *groove.Performance) *groove.Performance {
	perf.Passes = make([]groove.PassPart, len(tl.Passes))
	for i := range perf.Passes {
		perf.Passes[i].Notes = make([][]groove.Note, len(timeline.PlayerNames))
		perf.Passes[i].Score.Parts = make([]score.Part, len(timeline.PlayerNames))
	}
	for who, notes := range perf.Parts {
		for _, n := range notes {
			i := max(0, tl.PassAt(n.Tick))
			at := (n.Tick - tl.Passes[i].Start + 40) / 80 * 80
			part := &perf.Passes[i].Score.Parts[who]
			part.Notes = append(part.Notes, score.Note{At: at, Value: int32(n.Length), Held: int32(n.Length), Cue: -1,
				Key: n.Key,
				Bar: int16(tl.Passes[i].BarAt(at))})
		}
	}
	return perf
}

// A bar that is not a whole number of sixteenths has one more step, for the rest of it.
func TestShortBars(t *testing.T) {
	for _, m := range []meter.Meter{{Num: 1, Den: 32}, {Num: 3, Den: 32}, {Num: 5, Den: 32}, {Num: 15, Den: 32}} {
		length := m.BarTicks()
		p := timeline.Pass{Section: "verse", EnergyFrom: 2, EnergyTo: 2, Meter: m, BPM: 60_000, Length: length,
			FirstBar: 1, Bars: []timeline.Bar{{Length: length, Meter: m}}, Chords: []timeline.Span{{End: length}}}
		tl := &timeline.Timeline{Passes: []timeline.Pass{p}, End: length, Tempos: []timeline.Tempo{{Micros: 1_000_000}}}
		perf := groove.NewPerformance()
		perf.Parts[timeline.Bass] = []groove.Note{{Tick: length - 40, Length: 20, Key: 40, Velocity: 60}}
		steps := Analyze(tl, means(tl, perf)).Song.Grid.Steps
		if want := int(length+239) / 240; len(steps) != want {
			t.Errorf("%v: %d steps, want %d", m, len(steps), want)
		}
	}
}

// Where halves are counted, every step has a spoken count.
func TestStepsOfHalves(t *testing.T) {
	m := meter.Meter{Num: 3, Den: 2}
	p := timeline.Pass{Section: "verse", EnergyFrom: 2, EnergyTo: 2, Meter: m, BPM: 60_000, Length: m.BarTicks(),
		FirstBar: 1, Bars: []timeline.Bar{{Length: m.BarTicks(), Meter: m}},
		Chords: []timeline.Span{{End: m.BarTicks()}}}
	tl := &timeline.Timeline{Passes: []timeline.Pass{p}, End: p.Length, Tempos: []timeline.Tempo{{Micros: 1_000_000}}}
	var counts []string
	for _, s := range Analyze(tl, means(tl, groove.NewPerformance())).Song.Grid.Steps {
		counts = append(counts, s.Count)
	}
	if got := strings.Join(counts, " "); got != "1 1e 1& 1a 2 2e 2& 2a 3 3e 3& 3a" {
		t.Errorf("the steps are %s", got)
	}
}

func TestAnalyzeSmall(t *testing.T) {
	r := Analyze(small(t))
	if len(r.Windows) != 1 || r.Windows[0].From.String() != "bar 1 count 4" || r.Windows[0].Beats != 4000 ||
		r.Windows[0].Micros != 4_000_000 {
		t.Errorf("windows %+v", r.Windows)
	}
	s := &r.Song
	// Eight beats: three sung, four chords, three bass notes.
	type row struct {
		name                string
		low, high, thousand int // the register; attacks in thousandths a beat
	}
	var registers []row
	for _, p := range s.registers() {
		registers = append(registers, row{p.name, p.part.P5, p.part.P95, p.part.Attacks})
	}
	wantRegisters := []row{{"voice", 67, 72, 375}, {"piano", 48, 52, 500}, {"bass", 36, 43, 375}}
	if !slices.Equal(registers, wantRegisters) {
		t.Errorf("registers %v, want %v", registers, wantRegisters)
	}
	// B0 to B1 is an octave less a semitone under C2: 23 to 35, twelve semitones.
	// G#2 to B2 is three, F3 to F#4 thirteen, C#5 to A7 above all.
	want := [][2]int{{23, 35}, {44, 47}, {53, 66}, {73, 105}}
	if len(s.Free) != len(want) {
		t.Fatalf("free %+v", s.Free)
	}
	for i, w := range want {
		if s.Free[i].Low != w[0] || s.Free[i].High != w[1] {
			t.Errorf("free %d to %d, want %v", s.Free[i].Low, s.Free[i].High, w)
		}
	}
	// An octave and more between F3 and F#4 by the reference: 53 to 66 holds it for
	// english horn (52-81), clarinet (50-89), bass clarinet, bassoon, horn, trumpet
	// (52-80), both trombones, harp, viola, cello; not for violin (55: eleven) or
	// oboe (58). Tuba and double bass end at 58 and 62.
	got := strings.Join(instrumentNames(s.Free[2].Seats), ",")
	const free = "english horn,clarinet,bass clarinet,bassoon,horn,trumpet,trombone,bass trombone,harp,viola,cello"
	if got != free {
		t.Errorf("seats %s, want %s", got, free)
	}
	if len(s.Free[1].Seats) != 0 {
		t.Errorf("nobody has an octave in three semitones: %+v", s.Free[1].Seats)
	}
	g := &s.Grid
	if len(g.Steps) != 16 || g.Bars != 2 || g.Thirds {
		t.Fatalf("grid %+v", g)
	}
	for i, st := range g.Steps {
		w := Step{Count: st.Count, Players: []int{0, 0, 0}, Free: true} // drums, bass, piano
		switch i {
		case 0:
			w.Voice, w.Players, w.Free = 50, []int{100, 100, 100}, false
		case 4:
			w.Players = []int{100, 0, 0}
		case 8:
			w.Voice, w.Players, w.Free = 50, []int{100, 50, 100}, false
		case 12:
			w.Voice, w.Players, w.Free = 50, []int{100, 0, 0}, false
		}
		if !reflect.DeepEqual(st, w) {
			t.Errorf("step %d is %+v, want %+v", i, st, w)
		}
	}
	if h := s.Hits; len(h) != 3 || h[0].Bar != 1 || h[0].Count != "4&" || h[0].Chord != "F" || h[1].Count != "3" ||
		h[1].Beats != 1000 || h[2].Count != "4" || h[2].Weight != 2 {
		t.Errorf("hits %+v", h)
	}
	if r.Climax.Pass != 0 || r.Climax.Bar != 2 || !strings.Contains(r.Climax.Why, "C5") {
		t.Errorf("climax %+v: the highest note is in bar 2", r.Climax)
	}
}

// Accents of neighbouring bars that are the same are said once.
func TestHitLine(t *testing.T) {
	var hits []Hit
	add := func(bar int, counts ...string) {
		for _, c := range counts {
			hits = append(hits, Hit{Kind: timeline.Accent, Bar: bar, LastBar: bar, Count: c, By: timeline.All})
		}
	}
	add(33, "2", "4")
	add(34, "2", "4")
	add(35, "1", "2&", "4")
	add(36, "2", "4")
	if got, want := hitLine(hits, timeline.Accent, timeline.All),
		"bars 33-34: 2 4; bar 35: 1 2& 4; bar 36: 2 4"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := hitLine(hits, timeline.Stop, timeline.All); got != "" {
		t.Errorf("no stop, but %q", got)
	}
}

// A swung band (2 to 1) is counted in thirds, a straight one in sixteenths.
func TestSwings(t *testing.T) {
	for _, tt := range []struct {
		name  string
		off   int64
		ratio int32 // long to short, in thousandths; 0: straight
		want  bool
	}{
		{"triplet swing", 480, 2000, true}, {"a hint of swing", 480, 1300, false}, {"straight eighths", 480, 0, false},
		{"triplets", 640, 0, true}, {"sixteenths", 720, 0, false},
	} {
		tl, perf := small(t)
		perf.Parts[timeline.Drums] = nil
		for at := int64(0); at < 7680; at += 960 {
			perf.Parts[timeline.Drums] = append(perf.Parts[timeline.Drums], groove.Note{Tick: at, Key: 42},
				groove.Note{Tick: at + tt.off, Key: 42})
		}
		means(tl, perf)
		if tt.ratio > 0 {
			perf.Passes[0].Score.Regions = []score.Region{{Kind: score.Swing, To: 7680, Name: "eighth", Index: tt.ratio,
				Count: 1000}}
		}
		g := Analyze(tl, perf).Song.Grid
		if g.Thirds != tt.want {
			t.Errorf("%s: thirds %v", tt.name, g.Thirds)
		}
		if tt.want && (len(g.Steps) != 12 || g.Steps[2].Count != "1l" || g.Steps[2].Players[timeline.Drums] != 100) {
			t.Errorf("%s: %+v", tt.name, g.Steps)
		}
	}
}

var songs = []string{"lanterns.song.hcl", "millers-clock.song.hcl", "high-water.song.hcl"}

// exampleReport is an example with a made-up voice in its sections.
func exampleReport(t testing.TB, name string) *Report {
	tl := exampleSong(t, name)
	for i := range tl.Passes { // a groove of the song's own is not read here
		if builtin().Feels[tl.Passes[i].Feel] == nil {
			tl.Passes[i].Feel = "waltz"
		}
	}
	sing(t, tl, tune(tl, 58, 75, func(s string) bool { return s != "intro" })...)
	return Analyze(tl, perform(tl, builtin()))
}

// What must hold of any song.
func TestAnalyzeExamples(t *testing.T) {
	for _, name := range songs {
		t.Run(name, func(t *testing.T) {
			r := exampleReport(t, name)
			check := func(s *Scope) {
				for _, f := range s.Free {
					for _, p := range s.registers() {
						if p.part != nil && f.Low <= p.part.P95 && f.High >= p.part.P5 {
							t.Errorf("%s: %d to %d is called free, the %s uses %d to %d", s.Name, f.Low, f.High, p.name,
								p.part.P5, p.part.P95)
						}
					}
					for _, seat := range f.Seats {
						ok := false
						for _, in := range orchestra {
							ok = ok || in.Name == seat.Instrument && seat.Low >= in.Low && seat.High <= in.High
						}
						if !ok || seat.High-seat.Low < 12 || seat.Low < f.Low || seat.High > f.High {
							t.Errorf("%s: seat %+v in %d to %d", s.Name, seat, f.Low, f.High)
						}
					}
				}
				for _, st := range s.Grid.Steps {
					for _, v := range append([]int{st.Voice}, st.Players...) {
						if v < 0 || v > 100 {
							t.Errorf("%s: step %+v", s.Name, st)
						}
					}
				}
			}
			check(&r.Song)
			for i := range r.Passes {
				check(&r.Passes[i])
			}
			for _, w := range r.Windows {
				for _, n := range r.tl.Vocals[0].Notes {
					if !w.Space && n.Tick < w.End && n.Tick+n.Length > w.Start {
						t.Errorf("the window at %s holds a sung note", w.From)
					}
				}
			}
			if len(r.Windows) == 0 || len(r.Hints) < 4 {
				t.Errorf("%d windows, %d hints", len(r.Windows), len(r.Hints))
			}
			for _, h := range r.Hints {
				if h.Where == "" || !strings.HasSuffix(h.Say, ".") || !strings.HasSuffix(h.Why, ".") {
					t.Errorf("hint %+v", h)
				}
			}
			if c := r.Climax; r.Passes[c.Pass].EnergyTo != r.Song.EnergyTo || c.Bar < r.Passes[c.Pass].FirstBar ||
				c.Bar > r.Passes[c.Pass].LastBar {
				t.Errorf("climax %+v", c)
			}
		})
	}
}

// The same song gives the same bytes in all four forms.
func TestSameBytes(t *testing.T) {
	a, b := exampleReport(t, songs[0]), exampleReport(t, songs[0])
	for name, write := range forms {
		var x, y bytes.Buffer
		if err := write(a, &x); err != nil {
			t.Fatal(err)
		}
		if err := write(b, &y); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(x.Bytes(), y.Bytes()) || x.Len() == 0 {
			t.Errorf("%s differs between two runs", name)
		}
	}
}

// JSON holds what the report holds, with bars and counts.
func TestJSON(t *testing.T) {
	r := Analyze(small(t))
	var b bytes.Buffer
	if err := r.JSON(&b); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Title   string
		Voice   string
		Seconds float64
		Windows []struct {
			Bar            int
			Count          string
			Beats, Seconds float64
		}
		Song struct {
			Voice struct{ P5, P95 struct{ Name string } }
			Free  []struct {
				Instruments []struct{ Name string }
			}
			Counts struct{ Steps []Step }
			Hits   []struct {
				Kind, Count string
				By          []string
			}
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Title != "Two Bars" || got.Voice != "Voice" || got.Seconds != 8 || len(got.Windows) != 1 ||
		got.Windows[0].Count != "4" || got.Windows[0].Beats != 4 || got.Windows[0].Seconds != 4 {
		t.Errorf("got %+v", got)
	}
	var more struct {
		FileBar int `json:"file_bar"`
		Windows []struct{ Chords []string }
		Passes  []struct {
			Players []string
			Lift    int
			Held    []struct {
				Bar   int
				Count string
				ToBar int `json:"to_bar"`
				Tones []struct {
					Name    string
					Against *struct {
						Sung string
						Bar  int
					}
				}
			}
		}
	}
	if err := json.Unmarshal(b.Bytes(), &more); err != nil {
		t.Fatal(err)
	}
	// C and F share C; nobody sings B or Db against it. The window lies over both.
	if p := more.Passes[0]; more.FileBar != 1 || strings.Join(more.Windows[0].Chords, " ") != "C F" ||
		strings.Join(p.Players, " ") != "drums bass piano" ||
		len(p.Held) != 1 || p.Held[0].Bar != 1 || p.Held[0].Count != "1" || p.Held[0].ToBar != 3 ||
		p.Held[0].Tones[0].Name != "C" || p.Held[0].Tones[0].Against != nil {
		t.Errorf("got %+v", more)
	}
	if got.Song.Voice.P5.Name != "G4" || got.Song.Voice.P95.Name != "C5" || len(got.Song.Free) != 4 ||
		len(got.Song.Counts.Steps) != 16 || len(got.Song.Hits) != 3 || got.Song.Hits[0].Kind != "push" ||
		len(got.Song.Hits[0].By) != 3 {
		t.Errorf("song %+v", got.Song)
	}
}

// A song without a vocal, without a band or without bars is reported all the same.
func TestAnalyzeLittle(t *testing.T) {
	tl, perf := small(t)
	tl.Vocals, tl.Passes[0].Sung = nil, nil
	quiet, _ := small(t)
	quiet.Vocals[0].Notes = []timeline.SungNote{}
	for name, r := range map[string]*Report{
		"no vocal": Analyze(tl, perf), "no band": Analyze(tl, nil), "silent vocal": Analyze(quiet, perf),
		"no bars": Analyze(&timeline.Timeline{}, nil),
	} {
		for form, write := range forms {
			var b bytes.Buffer
			if err := write(r, &b); err != nil || b.Len() == 0 {
				t.Errorf("%s as %s: %d bytes, %v", name, form, b.Len(), err)
			}
		}
	}
	if w := Analyze(tl, perf).Windows; len(w) != 0 {
		t.Errorf("without a vocal and without spaces nothing is known of the singer: %+v", w)
	}
	if w := Analyze(quiet, perf).Windows; len(w) != 1 || w[0].Beats != 8000 {
		t.Errorf("a silent singer leaves all of it: %+v", w)
	}
	var b bytes.Buffer
	_ = Analyze(tl, perf).Text(&b)
	if !strings.Contains(b.String(), "no guide vocal") {
		t.Error("the text does not say that there is no vocal")
	}
	_ = guide.Window{}
}

// The names in the JSON form never change, because other programs read them.
func TestJSONWords(t *testing.T) {
	tl, perf := small(t)
	sing(t, tl, sung{0, 1920, 67}, sung{1920, 960, 69}, sung{6720, 960, 72})
	var b bytes.Buffer
	if err := Analyze(tl, perf).JSON(&b); err != nil {
		t.Fatal(err)
	}
	var doc map[string]any
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	first := func(m map[string]any, key string) map[string]any { return m[key].([]any)[0].(map[string]any) }
	pass := first(doc, "passes")
	for _, tt := range []struct {
		of    map[string]any
		words string
	}{
		{doc, "title voice bars file_bar seconds climax windows song passes hints"},
		{pass, "name first_bar last_bar seconds energy key tempo lift players voice piano bass free windows counts " +
			"hits held"},
		{pass["voice"].(map[string]any), "p5 p95 lowest highest lower_quartile notes attacks_a_beat"},
		{first(pass, "free"), "low high instruments"},
		{first(doc, "windows"), "pass bar count to_bar to_count beats seconds space chords"},
		{pass["counts"].(map[string]any), "meter bars step steps"},
		{first(pass["counts"].(map[string]any), "steps"), "count voice piano bass drums free"},
		{first(pass, "held"), "bar count to_bar to_count chords tones"},
		{first(first(pass, "held"), "tones"), "name against"},
		{doc["climax"].(map[string]any), "pass name bar why"},
		{first(doc, "hints"), "where say why"},
	} {
		for _, w := range strings.Fields(tt.words) {
			if _, ok := tt.of[w]; !ok {
				t.Errorf("%q is gone from %v", w, tt.of)
			}
		}
	}
}

// No line of the examples' text is wider than 80 columns: it is read in a terminal.
func TestTextWidth(t *testing.T) {
	for _, name := range songs {
		var b bytes.Buffer
		if err := exampleReport(t, name).Text(&b); err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(b.String(), "\n") {
			if n := len([]rune(line)); n > 80 {
				t.Errorf("%s: %d columns: %s", name, n, line)
			}
		}
	}
}
