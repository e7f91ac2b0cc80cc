package pianist

import (
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// A held ninth does not take the third out of a plain minor chord: nothing else would say
// that it is minor.
func TestBareMinorChordsKeepTheirThird(t *testing.T) {
	pass := groovetest.Sing(groovetest.PassOf(t, "Cm", 3), [3]int64{0, bar44, 74})
	for _, n := range comp(groovetest.PlanOf(pass, groovetest.CompFeel("c==============="))) {
		if n.Key%12 == 3 {
			return
		}
	}
	t.Error("no Eb in Cm under a D")
}

// Under a voice from C4 up, no comp note is struck above what is sung or is sung an eighth
// later, and what rings ends before the voice dips under it. A lower voice has the comp above
// it. Common practice, no single source.
func TestCompStaysUnderTheVoice(t *testing.T) {
	for _, row := range []struct {
		name      string
		chart     string
		high, low int64
		dip       int64 // which eighth of eight is low
		clears    bool
		because   string
	}{
		{"a dip in the bar", "F|F", 76, 62, 5, true, "one D4 under E5s"},
		{"low at the change", "F|Bb", 77, 63, 0, true, "Eb4 as Bb is struck"},
		{"low just after", "F|Bb", 77, 62, 1, true, "D4 an eighth after Bb is struck"},
		{"a low voice", "F|Bb", 53, 50, 1, false, "the comp has no room under F3"},
	} {
		for energy := 2; energy <= 5; energy++ {
			var line [][3]int64
			for i := int64(0); i < 16; i++ {
				key := row.high
				if i%8 == row.dip {
					key = row.low
				}
				line = append(line, [3]int64{i * eighth, eighth, key})
			}
			pass := groovetest.Sing(groovetest.PassOf(t, row.chart, energy), line...)
			notes := comp(groovetest.PlanOf(pass, groovetest.CompFeel("c=======c=======")))
			if len(notes) == 0 {
				t.Fatalf("%s: nothing is played", row.name)
			}
			n, s, above := firstAbove(pass, notes)
			if above && row.clears {
				t.Errorf("%s, energy %d: %s at %d is above %s sung at %d: %s", row.name, energy,
					groovetest.KeyName(int(n.Key)), n.At, groovetest.KeyName(int(s.Key)), s.Tick, row.because)
			}
			if !above && !row.clears {
				t.Errorf("%s, energy %d: nothing is above the voice: %s", row.name, energy, row.because)
			}
		}
	}
}

// firstAbove is the first comp note that is above a sung note while that sounds, or that is
// struck less than an eighth before it.
func firstAbove(pass *timeline.Pass, notes []score.Note) (n score.Note, s timeline.SungNote, ok bool) {
	for _, n := range notes {
		for _, s := range pass.Sung {
			end := max(n.End(), n.At+eighth)
			if n.Key > s.Key && n.At < s.Tick+s.Length && end > s.Tick {
				return n, s, true
			}
		}
	}
	return n, s, false
}
