package groove_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// Accents are struck by hands: those of one weight differ in a section by 2 to 6 (robust
// deviation) in each voice, each is louder than all else in its bar, and none is clipped.
func TestAccentsDiffer(t *testing.T) {
	const song = "section \"a\" {\n chords = %q\n energy = %d\n accent \"2 4\" { weight = %d }\n}\n" +
		"section \"b\" {\n chords = \"| C | C |\"\n energy = %d\n}\n"
	for energy := 2; energy <= 5; energy++ {
		for weight := 1; weight <= 3; weight++ {
			spreads := map[score.Voice][]float64{}
			for _, feel := range touchFeels {
				for take := 1; take <= 4; take++ {
					_, perf := taken(t, feel, take, fmt.Sprintf(song, fourChords(8), energy, weight, energy))
					for who := range timeline.Player(len(timeline.PlayerNames)) {
						for voice, hits := range accents(t, perf, who) {
							spreads[voice] = append(spreads[voice], robust(slices.Collect(maps.Values(hits))))
						}
					}
				}
			}
			for voice, x := range spreads {
				// The loudest are close to the top, and closer to each other.
				if d := median(x); d < 1.4 || d > 6 || energy < 5 && voice != score.Right && d < 2 {
					t.Errorf("energy %d, weight %d, %s: accents differ by %.1f", energy, weight, voice, d)
				}
			}
		}
	}
}

// accents are the velocities of a player's accents in the first pass, by voice and tick. Each
// is over all else in its bar, and under the top.
func accents(t *testing.T, perf *groove.Performance, who timeline.Player) map[score.Voice]map[int64]float64 {
	t.Helper()
	others, out := map[int16]float64{}, map[score.Voice]map[int64]float64{}
	struck(perf, 0, who, func(v float64, n *score.Note) {
		if !n.Art.Has(score.Accent) {
			others[n.Bar] = max(others[n.Bar], v)
		}
	})
	struck(perf, 0, who, func(v float64, n *score.Note) {
		if !n.Art.Has(score.Accent) {
			return
		}
		if v <= others[n.Bar] || v > 126 {
			t.Errorf("%s: an accent at %.0f, all else in its bar up to %.0f", who, v, others[n.Bar])
		}
		if out[n.Voice] == nil {
			out[n.Voice] = map[int64]float64{}
		}
		out[n.Voice][n.At] = v
	})
	return out
}

// A bridge at 3 with accents on every other beat, or on 2& and 4, stays under the
// chorus at 4.
func TestAccentsStayUnderTheChorus(t *testing.T) {
	for i, feel := range append(touchFeels, touchFeels...) {
		hits := []string{"2 4", "2& 4"}[i/len(touchFeels)]
		for who := range timeline.Player(len(timeline.PlayerNames)) {
			bridge, chorus := 0.0, 0.0
			for take := 1; take <= 8; take++ {
				tl, perf := taken(t, feel, take, fmt.Sprintf("section \"bridge\" {\n chords = %q\n energy = 3\n"+
					" accent %q {}\n}\nsection \"chorus\" {\n chords = %q\n energy = 4\n}\n"+
					"section \"end\" {\n chords = \"| C | C |\"\n energy = 4\n}\n",
					fourChords(8), hits, fourChords(8)))
				// The last two bars lead to the chorus.
				loud := barMeans
				if who == timeline.Drums { // where only hits are left the mean of the strokes rises
					loud = barPowers
				}
				bridge += meanOf(loud(tl, perf, 0, who)[:6]...)
				chorus += meanOf(loud(tl, perf, 1, who)...)
			}
			if bridge >= chorus {
				t.Errorf("%s, %s, accents on %s: the bridge at %.1f, the chorus at %.1f", feel, who, hits,
					bridge/8, chorus/8)
			}
		}
	}
}

// A push is struck as the beat that it takes the place of, and not as the off-beat where it
// stands.
func TestPushIsAsStrongAsItsBeat(t *testing.T) {
	const song = "looseness = 0\nsection \"a\" {\n chords = %q\n energy = 3\n %s\n}\n" +
		"section \"b\" {\n chords = \"| C | C |\"\n energy = 3\n}\n"
	const bar, eighth = 4 * quarter, quarter / 2
	at := func(who timeline.Player, more string, tick int64) (loudest float64) {
		_, perf := taken(t, "backbeat-eighths", 1, fmt.Sprintf(song, fourChords(4), more))
		struck(perf, 0, who, func(v float64, n *score.Note) {
			if n.At == tick && n.Key != snareKey {
				loudest = max(loudest, v)
			}
		})
		return loudest
	}
	for _, who := range []timeline.Player{timeline.Bass, timeline.Piano} {
		beat, push := at(who, "", 2*bar), at(who, `push "2: 4&" {}`, 2*bar-eighth)
		if push < beat-1 || push == 0 {
			t.Errorf("%s: the push at %.0f, the beat at %.0f", who, push, beat)
		}
	}
}

// An accent is at least as loud as the loudest stroke of its kind in the two bars before it.
func TestAccentIsNoWeakerThanTheBackbeat(t *testing.T) {
	const song = "section \"a\" {\n chords = %q\n energy = %d\n fills = false\n accent \"5: 2 4\" {}\n}\n" +
		"section \"b\" {\n chords = \"| C | C |\"\n energy = %d\n}\n"
	seen := 0
	for energy := 2; energy <= 5; energy++ {
		for _, feel := range touchFeels {
			for take := 1; take <= 4; take++ {
				_, perf := taken(t, feel, take, fmt.Sprintf(song, fourChords(8), energy, energy))
				loudest := map[uint8]float64{}
				struck(perf, 0, timeline.Drums, func(v float64, n *score.Note) {
					if n.Bar == 2 || n.Bar == 3 {
						loudest[n.Key] = max(loudest[n.Key], v)
					}
				})
				struck(perf, 0, timeline.Drums, func(v float64, n *score.Note) {
					if most, ok := loudest[n.Key]; ok && n.Art.Has(score.Accent) {
						seen++
						if v < most {
							t.Errorf("%s at %d, take %d, key %d: an accent at %.0f after %.0f", feel, energy, take,
								n.Key, v, most)
						}
					}
				})
			}
		}
	}
	if seen < 100 {
		t.Errorf("only %d accents", seen)
	}
}
