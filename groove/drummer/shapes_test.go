package drummer

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
)

func TestFillSwells(t *testing.T) {
	// Groove MIDI Dataset, 519 fills: the last third is 18 louder than the first.
	var notes []score.Note
	tl := groovetest.Song(t, groovetest.Long(4, 5))
	for i := int64(0); i < 16; i++ {
		n := newStroke(snareVoice, i*strokeTicks, (i+1)*strokeTicks, feel.Normal)
		n.Group = 1
		notes = append(notes, n)
	}
	swell := drummerOf(tl, 0, groovetest.Set(nil)).Shapes(notes)
	if swell[0].Swell != -9 || swell[15].Swell != 9 {
		t.Errorf("from %d to %d", swell[0].Swell, swell[15].Swell)
	}
}

// A fill is no louder than what it leads to: its hands stay within a few units of the
// backbeat of the section that follows, in every feel, into 4 and into 5. Common
// practice, no single source.
func TestFillIsNoLouderThanTheChorus(t *testing.T) {
	const over = 8 // the backbeat strays, too
	set := library.Builtin()
	fills := 0
	for _, name := range []string{"ballad-eighths", "ballad-sixteenths", "slow-twelve", "gospel-six",
		"backbeat-eighths", "half-time", "waltz"} {
		f := set.Feels[name]
		for _, row := range [][2]int{{3, 4}, {4, 4}, {4, 5}, {5, 5}} {
			for take := 1; take <= 6; take++ {
				a := groovetest.Section{Name: "a", Chords: "C|F", Energy: row[0], Feel: name,
					Meter: f.Meters[0], BPM: f.TempoLow}
				b := a
				b.Name, b.Chords, b.Energy = "b", "C|F|G|C", row[1]
				tl := groovetest.Song(t, a, b)
				tl.Take = take
				groovetest.Join(tl)
				drums := played(tl, 0, set)
				var fill uint8
				for _, s := range drummerOf(tl, 0, set).chooseFills() {
					for _, n := range groovetest.Within(drums, s.Start, s.End) {
						if groovetest.LimbOfKey(n.Key) == feel.Hand {
							fill = max(fill, n.Velocity)
						}
					}
					fills++
				}
				if backbeat := groovetest.Loudest(played(tl, 1, set), snareVoice.Key); fill > backbeat+over {
					t.Errorf("%s, %d to %d, take %d: a fill of %d into a backbeat of %d", name, row[0], row[1], take,
						fill, backbeat)
				}
			}
		}
	}
	if fills < 100 {
		t.Fatalf("only %d fills", fills)
	}
}
