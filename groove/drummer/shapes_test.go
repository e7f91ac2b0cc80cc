package drummer

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
)

// The drums of a fill rise evenly: as they are played no stroke is more than 12 away from the
// one before, the last is the loudest but for chance, and no louder than the backbeat that it
// leads to. Common practice, no single source.
func TestFillsRiseEvenly(t *testing.T) {
	const chance = 6 // a stroke strays, and so does the backbeat
	set, pairs := library.Builtin(), 0
	for _, name := range []string{"ballad-eighths", "backbeat-eighths", "waltz", "shuffle", "gospel-six", "swing"} {
		for from := 2; from <= 5; from++ {
			for to := from; to <= 5; to++ {
				for take := 1; take <= takes; take++ {
					a, b := grooveSection(name, "a", "C|F|G|C", from), grooveSection(name, "b", "C|F|G|C", to)
					tl := takeOf(t, take, a, b)
					_, notes := notesOf(tl, 0)
					before, at := 0, int64(-1)
					for _, n := range played(tl, 0, set) {
						meant := &notes[n.Meant]
						if !isDrumOfFill(meant) || meant.At == at {
							continue
						}
						v := int(n.Velocity)
						if before > 0 {
							pairs++
							if v > before+12 || v < before-chance {
								t.Errorf("%s, %d to %d, take %d: %d after %d in fill", name, from, to, take, v, before)
							}
						}
						if most, _ := drummerOf(tl, 1, set).backbeatLevel(0, to); v > most+chance {
							t.Errorf("%s, %d to %d, take %d: %d in a fill into %d", name, from, to, take, v, most)
						}
						before, at = v, meant.At
					}
				}
			}
		}
	}
	if pairs < 300 {
		t.Fatalf("only %d pairs of strokes", pairs)
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

// A crash with which a pass opens is heard over the ride, also in a feel without a backbeat, as it is
// in a ballad. Common practice, no single source.
func TestOpeningCrashOverTheRide(t *testing.T) {
	for _, name := range library.Names() {
		f := library.Builtin().Feels[name]
		if len(f.Levels[4].Drums) == 0 || f.Kit == "brushes" {
			continue
		}
		tl := groovetest.Song(t, grooveSection(name, "a", "C|F", 2), grooveSection(name, "b", "C|F|G|C", 5))
		d := drummerOf(tl, 1, library.Builtin())
		notes := d.Play(nil).Notes
		shapes := d.Shapes(notes)
		ride, crash := 0, 0
		for i, n := range notes {
			switch k := kindOf(n.Key); {
			case k == kindCrash && n.At == 0:
				crash = shapes[i].Most
			case k == kindRide:
				ride = max(ride, shapes[i].Most)
			}
		}
		if crash < 75 || crash < ride {
			t.Errorf("%s: the crash has at most %d, the ride %d", name, crash, ride)
		}
	}
}
