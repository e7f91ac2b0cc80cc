package guide

import (
	"io/fs"
	"reflect"
	"testing"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// drawn is how a click follows a guide's tempo map: how far its clock is from the guide's, in
// microseconds, at bar lines and at any click, and the largest change of tempo from one beat to
// the next, in thousandths, in the guide and in the click.
type drawn struct{ bars, clicks, was, is int64 }

func draw(tl *timeline.Timeline, tempos []timeline.Tempo) (d drawn) {
	clicks := Clicks(tl, 0, tl.End)
	smooth := Smooth(clicks, timeline.NewClock(tempos))
	guide, click := timeline.NewClock(tempos), timeline.NewClock(smooth)
	for _, tick := range clicks {
		d.clicks = max(d.clicks, dist(guide.Micros(tick), click.Micros(tick)))
	}
	for i := range tl.Passes {
		p := &tl.Passes[i]
		for _, b := range p.Bars {
			end := p.Start + b.Start + b.Length
			d.bars = max(d.bars, dist(guide.Micros(end), click.Micros(end)))
		}
	}
	change := func(c *timeline.Clock, i int) int64 {
		a := (c.Exact(clicks[i]) - c.Exact(clicks[i-1])) / (clicks[i] - clicks[i-1])
		b := (c.Exact(clicks[i+1]) - c.Exact(clicks[i])) / (clicks[i+1] - clicks[i])
		return dist(a, b) * 1000 / min(a, b)
	}
	for i := 1; i+1 < len(clicks); i++ {
		d.was, d.is = max(d.was, change(guide, i)), max(d.is, change(click, i))
	}
	return d
}

// The tempo maps of 20 art songs, which editors wrote, and of 11 pop songs, which arrangers drew or
// tapped after the recording: the click stays within 20 ms of the guide at every bar line, and
// changes no more from beat to beat than the guide does.
func TestSmoothRealMaps(t *testing.T) {
	maps := 0
	check := func(name string, tl *timeline.Timeline, f *File) {
		tempos := f.TempoMap(tl, 1)
		if len(tempos) < 2 {
			return
		}
		maps++
		d := draw(tl, tempos)
		t.Logf("%-10s %3d tempos: %4.1f ms at a bar line, %4.1f at a click; from beat to beat %3d, was %3d thousandths",
			name, len(tempos), float64(d.bars)/1000, float64(d.clicks)/1000, d.is, d.was)
		if d.bars > 20_000 || d.clicks > 20_000 || d.is > d.was {
			t.Errorf("%s: %+v", name, d)
		}
	}
	for _, s := range artSongs(t) {
		f, err := Read(s.guide)
		if err != nil {
			t.Fatal(err)
		}
		f.Meters = nil
		check("art "+s.name, s.tl, f)
	}
	for _, s := range popSongs(t) {
		src, err := fs.ReadFile(s.Files, "raw.mid")
		if err != nil {
			t.Fatal(err)
		}
		f, err := Read(src)
		if err != nil {
			t.Fatal(err)
		}
		f.Meters = nil
		p := timeline.Pass{Meter: meter.Common, FirstBar: 1}
		for p.Length < scale(f.End, f.Division) {
			p.Bars = append(p.Bars, timeline.Bar{Start: p.Length, Length: 3840, Meter: meter.Common})
			p.Length += 3840
		}
		check("pop "+s.ID, &timeline.Timeline{Passes: []timeline.Pass{p}, End: p.Length}, f)
	}
	if maps != 31 {
		t.Errorf("%d tempo maps; the data sets have 31", maps)
	}
}

// A tempo that somebody taps: each beat is up to 15 ms early or late. The click has less than half of
// the changes.
func TestSmoothTaps(t *testing.T) {
	tl := song(t, "C", 100, 0, verse, chorus, verse, chorus)
	var tempos []timeline.Tempo
	late, seed := int64(0), uint32(1)
	for tick := int64(0); tick < tl.End; tick += 960 {
		seed = seed*1664525 + 1013904223 // Numerical Recipes
		next := int64(seed>>16)%30_000 - 15_000
		tempos = append(tempos, timeline.Tempo{Tick: tick, Micros: 600_000 + next - late})
		late = next
	}
	if d := draw(tl, tempos); d.bars > 20_000 || 2*d.is > d.was {
		t.Errorf("%+v", d)
	}
}

func TestSmoothKeeps(t *testing.T) {
	tl := song(t, "C", 100, 3840, verse, part{name: "dance", meter: "7/8", chords: []string{"C", "F"}}, chorus)
	clicks := Clicks(tl, 0, tl.End)
	// The bar in front, four of 4/4, two of 2+2+3 eighths, four of 4/4, and the last bar line.
	if len(clicks) != 4+16+6+16+1 || clicks[0] != 0 || clicks[22] != 5*3840+2*960 || clicks[42] != tl.End {
		t.Fatalf("clicks %v", clicks)
	}
	even := []timeline.Tempo{{Micros: 631_579}}
	if got := Smooth(clicks, timeline.NewClock(even)); !reflect.DeepEqual(got, even) {
		t.Errorf("an even tempo becomes %v", got)
	}
	// A rit over the last eight beats, from 100 to 60: it is as slow at the end, within 3 in 100.
	rit := []timeline.Tempo{{Micros: 600_000}}
	for i := range int64(8) {
		rit = append(rit, timeline.Tempo{Tick: tl.End - (8-i)*960, Micros: 600_000 + (i+1)*50_000})
	}
	got := Smooth(clicks, timeline.NewClock(rit))
	if last := got[len(got)-1].Micros; dist(last, 1_000_000) > 30_000 || got[0].Micros != 600_000 {
		t.Errorf("the rit becomes %v", got)
	}
	// Two tempos in one beat are one.
	got = Smooth(clicks[:5], timeline.NewClock([]timeline.Tempo{{Micros: 500_000}, {Tick: 480, Micros: 700_000},
		{Tick: 960, Micros: 600_000}}))
	if want := []timeline.Tempo{{Micros: 600_000}}; !reflect.DeepEqual(got, want) {
		t.Errorf("two tempos in a beat become %v", got)
	}
	// From the chorus on.
	start := tl.Passes[2].Start
	c := Clicks(tl, start, tl.End)
	if len(c) != 17 || c[0] != start || Smooth(c, timeline.NewClock(rit))[0].Tick != start {
		t.Errorf("the chorus alone: %v", c)
	}
}

// The file's ticks are laid on the song by beats, as its notes are.
func TestTempoMap(t *testing.T) {
	tl := song(t, "C", 60, 3840, verse)
	f, err := Read(file(0, cat(meta(0, 0x51, "\x0F\x42\x40"), meta(480, 0x51, "\x07\xA1\x20"),
		meta(0, 0x51, "\x09\x27\xC0"), meta(1920*4, 0x51, "\x01\x00\x00"), line("Vocal", 0, [3]int{67, 0, 480}))))
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		from int
		want []timeline.Tempo
	}{
		// SMF 1.0: 0F4240 is 1,000,000 microseconds a quarter, 0927C0 is 600,000. From bar 1 on, the
		// file's fifth bar is behind the song.
		{1, []timeline.Tempo{{Tick: 0, Micros: 1_000_000}, {Tick: 3840 + 960, Micros: 600_000}}},
		{0, []timeline.Tempo{{Tick: 0, Micros: 1_000_000}, {Tick: 960, Micros: 600_000},
			{Tick: 16320, Micros: 65_536}}},
		{9, nil},
	} {
		if got := f.TempoMap(tl, tt.from); !reflect.DeepEqual(got, tt.want) {
			t.Errorf("from bar %d: %v, want %v", tt.from, got, tt.want)
		}
	}
	if f.Tempos = nil; f.TempoMap(tl, 1) != nil {
		t.Error("a file without a tempo has a map")
	}
}
