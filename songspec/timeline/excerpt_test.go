package timeline_test

import (
	"fmt"
	"slices"
	"testing"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

func ExampleTimeline_Named() {
	song := timeline.Timeline{Passes: formOf("verse chorus verse chorus tag")}
	for _, name := range []string{"chorus", "chorus (2)", "chorus (3)", "tag (1)", "bridge"} {
		fmt.Println(name, song.Named(name))
	}
	// Output:
	// chorus [1 3]
	// chorus (2) [3]
	// chorus (3) []
	// tag (1) [4]
	// bridge []
}

// A waltz in a song in 4/4 is counted in as a waltz, at its tempo and not at that of the hold
// on its first beat.
func TestExcerptIsCountedIn(t *testing.T) {
	waltz, err := meter.Parse("3/4")
	if err != nil {
		t.Fatal(err)
	}
	const bar, bar3 = 3840, 2880
	passes := formOf("verse dance verse")
	for i, start := range []int64{bar, 2 * bar, 2*bar + 4*bar3} {
		p := &passes[i]
		p.Start, p.Meter, p.Length, p.Tempos = start, meter.Common, bar, []timeline.Tempo{{Micros: 600_000}}
		if p.Section == "dance" {
			p.Meter, p.Length = waltz, 4*bar3
			p.Tempos = []timeline.Tempo{{Micros: 900_000}, {Tick: 960, Micros: 500_000}}
		}
	}
	song := &timeline.Timeline{
		CountIn: 1, Pickup: 960, Lead: bar, LeadBars: 1, Passes: passes, End: 3*bar + 4*bar3,
		Tempos: []timeline.Tempo{{Micros: 600_000}, {Tick: 2 * bar, Micros: 900_000},
			{Tick: 2*bar + 960, Micros: 500_000}, {Tick: 2*bar + 4*bar3, Micros: 600_000}},
		Meters: []timeline.MeterChange{{Meter: meter.Common}, {Tick: 2 * bar, Meter: waltz},
			{Tick: 2*bar + 4*bar3, Meter: meter.Common}},
		Keys: []timeline.KeyChange{{}},
	}
	cut, _ := song.Excerpt([]int{1})
	wantTempos := []timeline.Tempo{{Micros: 500_000}, {Tick: bar3, Micros: 900_000},
		{Tick: bar3 + 960, Micros: 500_000}}
	if cut.Lead != bar3 || cut.LeadBars != 1 || cut.Pickup != 0 || cut.End != 5*bar3 ||
		!slices.Equal(cut.Tempos, wantTempos) || !slices.Equal(cut.Meters, []timeline.MeterChange{{Meter: waltz}}) {
		t.Errorf("lead %d (%d bars), pickup %d, end %d, tempos %v, meters %v", cut.Lead, cut.LeadBars, cut.Pickup,
			cut.End, cut.Tempos, cut.Meters)
	}
	both, stretches := song.Excerpt([]int{0, 2})
	if both.Lead != bar || both.Pickup != 960 || both.End != 3*bar || len(stretches) != 2 ||
		!slices.Equal(both.Tempos, []timeline.Tempo{{Micros: 600_000}}) ||
		!slices.Equal(both.Meters, []timeline.MeterChange{{Meter: meter.Common}}) {
		t.Errorf("the verses: lead %d, pickup %d, end %d, %v, tempos %v, meters %v", both.Lead, both.Pickup, both.End,
			stretches, both.Tempos, both.Meters)
	}
}

// A singer is heard in an excerpt where she sings in its bars, at the same place of the bar: what she holds over
// the first or the last bar line ends there. One whose guide was never read has nothing.
func TestExcerptIsSung(t *testing.T) {
	const bar = 3840
	passes := formOf("verse chorus verse chorus")
	for i := range passes {
		passes[i].Start, passes[i].Length, passes[i].Meter = int64(i+1)*bar, bar, meter.Common
		passes[i].Tempos = []timeline.Tempo{{Micros: 600_000}}
	}
	sung := []timeline.SungNote{{Tick: bar, Length: 960, Key: 60}, {Tick: 2*bar - 480, Length: 960, Key: 62},
		{Tick: 2*bar + 960, Length: 480, Key: 64}, {Tick: 3 * bar, Length: 480, Key: 65},
		{Tick: 5*bar - 960, Length: 1920, Key: 67}}
	song := &timeline.Timeline{CountIn: 1, Lead: bar, LeadBars: 1, Passes: passes, End: 5 * bar,
		Vocals: []timeline.Vocal{{Name: "Ada", Notes: sung}, {Name: "Tom"}}}
	cut, _ := song.Excerpt([]int{1, 3})
	want := []timeline.SungNote{{Tick: bar, Length: 480, Key: 62}, {Tick: bar + 960, Length: 480, Key: 64},
		{Tick: 3*bar - 960, Length: 960, Key: 67}}
	if len(cut.Vocals) != 2 || cut.Vocals[0].Name != "Ada" || !slices.Equal(cut.Vocals[0].Notes, want) {
		t.Errorf("Ada sings %+v", cut.Vocals)
	}
	if cut.Vocals[1].Notes != nil {
		t.Errorf("Tom sings %v", cut.Vocals[1].Notes)
	}
	if none, _ := song.Excerpt([]int{2}); none.Vocals[0].Notes == nil || len(none.Vocals[0].Notes) != 1 {
		t.Errorf("in verse (2): %v", none.Vocals[0].Notes)
	}
	if len(song.Vocals[0].Notes) != 5 || song.Vocals[0].Notes[1].Length != 960 {
		t.Error("the song's own notes were changed")
	}
}
