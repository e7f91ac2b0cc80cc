package heard

import (
	"path/filepath"
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// What is heard of the band are the notes of its parts, at the times of the tempo map, each in a bar
// that is its own: it begins in it, or a push before it, but for what belongs to the bar before.
func TestNotesAreThoseOfTheFile(t *testing.T) {
	for _, path := range songfiletest.Examples(t, filepath.Join("..", "..", "examples")) {
		_, tl, set := songfiletest.Example(t, path)
		perf := groove.Perform(tl, set)
		song := Of(tl, perf)
		clock := timeline.NewClock(tl.Tempos)
		early := 0
		for who, notes := range perf.Parts {
			part := song.Parts[who]
			if len(part.Notes) != len(notes) || part.Who != Who(who) || part.Who.String() != timeline.PlayerNames[who] {
				t.Fatalf("%s: %s has %d notes of %d", path, part.Who, len(part.Notes), len(notes))
			}
			for i, n := range part.Notes {
				end := clock.Micros(notes[i].Tick + notes[i].Length)
				if n.At != clock.Micros(notes[i].Tick) || n.At+n.Length != end ||
					n.Tick != notes[i].Tick || n.Ticks != notes[i].Length {
					t.Errorf("%s: %s note %d at %d for %d", path, part.Name, i, n.At, n.Length)
				}
				bar := song.Bars[n.Bar]
				if n.At < bar.At {
					early++
				}
				if n.At < bar.At-1_500_000 || n.At > bar.End+50_000 {
					t.Errorf("%s: %s note %d at %d is far from bar %d at %d", path, part.Name, i, n.At, n.Bar, bar.At)
				}
			}
		}
		if early == 0 {
			t.Errorf("%s: no note comes before its bar", path)
		}
		if last := song.Bars[len(song.Bars)-1]; last.End != song.End || len(song.Bars) != tl.LeadBars+tl.SongBars() {
			t.Errorf("%s: %d bars up to %d of %d", path, len(song.Bars), last.End, song.End)
		}
	}
}

// A singer who enters at once is given his first note in the count-in; one who hears the band first is not,
// nor does a pitch sound into a pickup of the band.
func TestStartingPitch(t *testing.T) {
	base := "count_in = 1\nsection \"a\" {\n  energy = 2\n  chords = \"| C | F | G | C |\"\n}\n" +
		"form {\n  play \"a\" {}\n}\n"
	for name, row := range map[string]struct {
		change func(tl *timeline.Timeline)
		want   bool
	}{
		"at once":     {func(tl *timeline.Timeline) { tl.Vocals[0].Notes[0].Tick = tl.Lead }, true},
		"second bar":  {func(tl *timeline.Timeline) { tl.Vocals[0].Notes[0].Tick = tl.Lead + 3840 }, true},
		"after intro": {func(tl *timeline.Timeline) { tl.Vocals[0].Notes[0].Tick = tl.Lead + 2*3840 }, false},
		"upbeat":      {func(tl *timeline.Timeline) { tl.Vocals[0].Notes[0].Tick = tl.Lead - 960 }, true},
		"long upbeat": {func(tl *timeline.Timeline) { tl.Vocals[0].Notes[0].Tick = tl.Lead - 2880 }, false},
		"nobody":      {func(tl *timeline.Timeline) { tl.Vocals = nil }, false},
		"unison": {func(tl *timeline.Timeline) {
			tl.Vocals[0].Notes[0].Tick = tl.Lead
			tl.Vocals = append(tl.Vocals, tl.Vocals[0])
		}, true},
	} {
		tl, set, err := songfiletest.ExampleText("t.song.hcl", base)
		if err != nil {
			t.Fatal(err)
		}
		tl.Vocals = []timeline.Vocal{{Notes: []timeline.SungNote{{Length: 960, Key: 64}}}}
		row.change(tl)
		song := Of(tl, groove.Perform(tl, set))
		i := slices.IndexFunc(song.Parts, func(p Part) bool { return p.Who == Pitch })
		if (i >= 0) != row.want {
			t.Errorf("%s: a pitch is given: %v", name, i >= 0)
		}
		if i >= 0 {
			notes := song.Parts[i].Notes
			if n := notes[0]; len(notes) != 1 || n.Key != 64 || n.At != 0 || n.Bar != 0 || n.Tick != 0 ||
				n.Ticks != 1920 {
				t.Errorf("%s: %+v", name, notes)
			}
		}
	}
}

// An excerpt has no score: its notes belong to the bars in which they begin.
func TestExcerpt(t *testing.T) {
	_, tl, set := songfiletest.Example(t, filepath.Join("..", "..", "examples", "lanterns.song.hcl"))
	cut, perf := groove.Excerpt(tl, groove.Perform(tl, set), tl.Named("chorus"))
	song := Of(cut, perf)
	for _, p := range song.Parts {
		for i, n := range p.Notes {
			if bar := song.Bars[n.Bar]; n.At < bar.At || n.At >= bar.End {
				t.Errorf("%s note %d at %d is in the bar from %d to %d", p.Name, i, n.At, bar.At, bar.End)
			}
		}
	}
}
