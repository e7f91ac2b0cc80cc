package songspec

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"plinth/songspec/guide"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// breathing is a guide of so many bars of 4/4 that goes between 52 and 68 and comes nearly to rest
// on every eighth bar line, a tempo a beat.
func breathing(bars int) *guide.File {
	f := &guide.File{Division: 480, End: int64(bars) * 1920}
	for beat := range bars * 4 {
		bpm := 60 + 8*math.Sin(float64(beat)/5)
		if beat%32 == 31 {
			bpm = 35
		}
		f.Tempos = append(f.Tempos, guide.Tempo{Tick: int64(beat) * 480, Micros: int64(60e6 / bpm)})
	}
	return f
}

// followed resolves a song that names a guide.
func followed(t *testing.T, f *guide.File, text string) (*timeline.Timeline, string) {
	t.Helper()
	file, diags := Parse("t.song.hcl", []byte("vocal \"v.mid\" {}\n"+text))
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	if n, ok := file.Leader(); n != 0 || !ok {
		t.Fatal("nobody leads")
	}
	tl, diags := file.Resolve(Env{Guide: f})
	return tl, fmt.Sprint(diags)
}

// The verse goes as the guide, the chorus in time, and its last bars as the guide again. Where the
// band follows, the guide's own clock says when each bar comes: sounds 20 ms apart are heard as one
// (common practice, no single source).
func TestFollow(t *testing.T) {
	f := breathing(40)
	tl, said := followed(t, f, `
count_in = 1
section "verse" {
  tempo  = "guide"
  chords = "|: C | F | G | C :|x4"
  bars "5-6" { tempo = 72 }
  bars "7-" { tempo = "a tempo" }
}
section "chorus" {
  tempo  = 96
  chords = "| C | F | G | C |"
  bars "3-" { tempo = "guide" }
}
`)
	if tl == nil {
		t.Fatal(said)
	}
	// The guide's clock, worked out here from its tempos alone; the guide stands on bar 1.
	at := func(tick int64) (micros float64) {
		tick -= tl.Lead
		for i, s := range f.Tempos {
			start, end := 2*s.Tick, int64(math.MaxInt64)
			if i+1 < len(f.Tempos) {
				end = 2 * f.Tempos[i+1].Tick
			}
			if tick > start {
				micros += float64(min(tick, end)-start) * float64(s.Micros) / 960
			}
		}
		return micros
	}
	clock := timeline.NewClock(tl.Tempos)
	lasts := func(from, to int) (band, guide float64) { // bars of the file, from 1
		a, b := int64(from-1)*3840, int64(to)*3840
		return float64(clock.Exact(b)-clock.Exact(a)) / 960, at(b) - at(a)
	}
	for _, run := range [][2]int{{2, 5}, {8, 17}, {20, 21}} {
		for to := run[0]; to <= run[1]; to++ {
			band, guide := lasts(run[0], to)
			off := math.Abs(band - guide)
			if off > 20_000 || to == run[1] && off > 100 {
				t.Errorf("bars %d to %d: %.0f microseconds in the band, %.0f in the guide", run[0], to, band, guide)
			}
		}
	}
	// Its first tempo also holds in front.
	if front, _ := lasts(1, 1); math.Abs(front-4*float64(f.Tempos[0].Micros)) > 20_000 {
		t.Errorf("a count-in of %.0f microseconds, the guide's first tempo is %d", front, f.Tempos[0].Micros)
	}
	for _, row := range []struct {
		from, to int
		bpm      float64
	}{{6, 7, 72}, {18, 19, 96}} {
		if band, _ := lasts(row.from, row.to); math.Abs(band-float64(4*(row.to-row.from+1))*60e6/row.bpm) > 50 {
			t.Errorf("bars %d to %d last %.0f microseconds; the song says %.0f", row.from, row.to, band, row.bpm)
		}
	}
	// What is said of the tempo: its mean, worked out anew over bars 1-4 and 7-16.
	verse := &tl.Passes[0]
	one, _ := lasts(2, 5)
	two, _ := lasts(8, 17)
	mean := 14 * 4 * 60e6 / (one + two)
	if got := float64(verse.BPM) / 1000; !verse.Guided || math.Abs(got-mean) > 0.051 {
		t.Errorf("the verse goes at %v, its mean is %.2f", verse.Pace(), mean)
	}
	if c := &tl.Passes[1]; c.Guided || c.BPM != meter.Whole(96) || !c.Bars[2].Pace.Guided {
		t.Errorf("the chorus begins at %v, and goes on with %v", c.Pace(), c.Bars[2].Pace)
	}
	if c := tl.Inside(verse); len(c) != 2 || c[0].Is != "72" || c[1].What != "tempo" || !tl.Vocals[0].Leads {
		t.Errorf("inside the verse: %v", c)
	}
}

// A guide that is followed from the pickup on: the bars in front go with it, too.
func TestFollowInFront(t *testing.T) {
	f := breathing(6)
	file, _ := Parse("t.song.hcl", []byte(`
tempo    = "guide"
count_in = 1
pickup   = 1
vocal "v.mid" { from = -1 }
section "a" { chords = "| C | F | G | C |" }
`))
	tl, diags := file.Resolve(Env{Guide: f})
	if tl == nil {
		t.Fatal(diags)
	}
	clock, want := timeline.NewClock(tl.Tempos), int64(0)
	for i := range 8 {
		want += f.Tempos[i].Micros
	}
	if got := clock.Micros(tl.Lead); tl.LeadBars != 2 || max(got-want, want-got) > 20_000 {
		t.Errorf("%d bars in front that last %d, in the guide %d", tl.LeadBars, got, want)
	}
}

// Times in a song that follows a guide: the rest of it gives.
func TestFollowToPicture(t *testing.T) {
	f := breathing(20)
	song := func(at string) string {
		return fmt.Sprintf(`
section "verse" {
  tempo  = "guide"
  chords = "| C | F | G | C |"
}
section "dance" {
  tempo  = 90
  chords = "|: C | F | G | C :|x3"
}
section "end" {
  chords = "| C |"
}
form {
  play "verse" {}
  play "dance" {}
  play "end" { at = "%s" }
}
`, at)
	}
	free, said := followed(t, f, song("0:50"))
	if free == nil {
		t.Fatal(said)
	}
	clock := timeline.NewClock(free.Tempos)
	end, dance := free.Passes[2].Start, free.Passes[1].Start
	// A frame at 24 a second is 41,667 microseconds; half a microsecond a quarter is all that is lost.
	if got := clock.Micros(end); got < 50_000_000-50 || got > 50_000_000+50 {
		t.Errorf("the end comes at %d microseconds", got)
	}
	other, _ := followed(t, f, song("0:51"))
	if a, b := clock.Micros(dance), timeline.NewClock(other.Tempos).Micros(dance); a != b {
		t.Errorf("the verse changes with the picture: it lasts %d and %d", a, b)
	}
	for _, row := range []struct{ what, text, want string }{
		{"too soon for the guide", song("0:10"), "A time that only the guide could change"},
		{"far off", song("1:30"), "Too far from the tempo"},
	} {
		tl, said := followed(t, f, row.text)
		if tl != nil || !strings.Contains(said, row.want) {
			t.Errorf("%s: %s", row.what, said)
		}
	}
}

// Guides that cannot be followed, and one that need not be.
func TestFollowInVain(t *testing.T) {
	const song = "tempo = \"guide\"\nsection \"a\" { chords = \"|: C | F | G | C :|x2\" }\n"
	quick := breathing(8)
	for i := range quick.Tempos {
		quick.Tempos[i].Micros /= 10
	}
	for _, row := range []struct {
		what string
		f    *guide.File
		want string
		ok   bool
	}{
		{"no tempo", &guide.File{Division: 480, End: 1920}, "A guide without a tempo", false},
		{"ten times as quick", quick, "A guide too quick to follow", false},
		{"one tempo", &guide.File{Division: 480, Tempos: []guide.Tempo{{Micros: 750_000}}}, "write tempo = 80.", true},
		{"unread", nil, "no diagnostics", true}, // whoever reads the guide reports that
	} {
		tl, said := followed(t, row.f, song)
		if (tl != nil) != row.ok || !strings.Contains(said, row.want) {
			t.Errorf("%s: %s", row.what, said)
		}
	}
}

// The example of the reference: the verse and the chorus's last bar go as the guide, the rest at 72.
func TestFollowInTheReadme(t *testing.T) {
	examples := examplesWith(t, "README.md", "tempo  = \"guide\"")
	if len(examples) != 1 {
		t.Fatalf("%d examples", len(examples))
	}
	file, _ := Parse("t.song.hcl", []byte(examples[0]))
	tl, diags := file.Resolve(Env{Guide: breathing(8)})
	if tl == nil {
		t.Fatal(diags)
	}
	clock := timeline.NewClock(tl.Tempos)
	last := func(bar int64) float64 { return float64(clock.Exact(bar*3840)-clock.Exact((bar-1)*3840)) / 960e6 }
	in72 := 4 * 60.0 / 72
	for bar, inTime := range []bool{false, false, false, false, true, true, true, false} {
		if got := last(int64(bar) + 1); (math.Abs(got-in72) < 1e-4) != inTime {
			t.Errorf("bar %d lasts %.3f s; in time it is %.3f", bar+1, got, in72)
		}
	}
}
