package bassist

import (
	"plinth/groove/drummer"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// play is what drummer and bassist play in a pass of a song, on the grid.
func play(tl *timeline.Timeline, pass int, set *feel.Set) []score.Part {
	p := plan.New(tl, &tl.Passes[pass], set)
	out := make([]score.Part, len(timeline.PlayerNames))
	var d drummer.Drummer
	d.Prepare(p)
	out[timeline.Drums] = d.Play(out)
	var b Bassist
	b.Prepare(p)
	out[timeline.Bass] = b.Play(out)
	return out
}

// bassOf is the bassist's part of it.
func bassOf(tl *timeline.Timeline, pass int, set *feel.Set) []score.Note {
	return play(tl, pass, set)[timeline.Bass].Notes
}

// bassAlone is what the bassist plays where no drummer is heard.
func bassAlone(tl *timeline.Timeline, pass int, set *feel.Set) []score.Note {
	var b Bassist
	b.Prepare(plan.New(tl, &tl.Passes[pass], set))
	return b.Play(make([]score.Part, len(timeline.PlayerNames))).Notes
}

// withBass is a feel whose bass row is the same at every energy.
func withBass(tab string) *feel.Set {
	return groovetest.Set(func(f *feel.Feel) {
		for i := range f.Levels {
			f.Levels[i].Bass = groovetest.BassRow(tab)
		}
	})
}

// within are the notes that begin from one tick up to another.
func within(notes []score.Note, from, to int64) []score.Note {
	var out []score.Note
	for _, n := range notes {
		if n.At >= from && n.At < to {
			out = append(out, n)
		}
	}
	return out
}

func abs(x int) int { return max(x, -x) }
