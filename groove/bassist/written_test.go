package bassist

import (
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/library"
)

// The bass plays a line that the chart has written, and stays on the root of a borrowed minor fourth and
// of a chord that goes on by step after a bar.
func TestTheBassPlaysTheWrittenLine(t *testing.T) {
	for _, name := range []string{"ballad-eighths", "ballad-sixteenths", "backbeat-eighths", "half-time"} {
		for i := range 3 * 5 * 5 {
			chart := []string{"C G/B|Am Am/G|F C/E|Dm7 G", "F|Fm6|C|F|G|Am", "C|C/B|Am|G/B"}[i%3]
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: chart, Energy: 1 + i/3%5, Feel: name},
				groovetest.Section{Name: "b", Chords: "C", Energy: 3, Feel: name})
			tl.Take = 1 + i/15
			p := &tl.Passes[0]
			from, until := int64(0), p.Bars[len(p.Bars)-1].Start
			if i%3 == 1 {
				from, until = p.Bars[1].Start, p.Bars[2].Start // Fm6
			}
			for _, n := range within(bassOf(tl, 0, library.Builtin()), from, until) {
				if c := chordAt(p, n.At); int(n.Key)%12 != c.Bass.PC() {
					t.Errorf("%s, %s, energy %d, take %d: %s under %s", name, chart, 1+i/3%5, tl.Take,
						groovetest.KeyName(int(n.Key)), c)
				}
			}
		}
	}
}

// In bossa, two-beat and show-two the strokes of the row that carry the bar are there in every bar.
func TestTheFigureKeepsItsPlaces(t *testing.T) {
	for _, name := range []string{"bossa", "samba"} {
		f := library.Builtin().Feels[name]
		for i := range 4 * 4 * 5 {
			chart, energy, take := charts[i%4], 2+i/4%4, 1+i/16
			r := render(t, f, chart, energy, take)
			for _, b := range r.Passes[0].Bars {
				for _, at := range []int64{0, 2 * quarter} {
					if len(within(r.lines[0], b.Start+at, b.Start+at+1)) == 0 {
						t.Errorf("%s, energy %d, take %d: nothing at %d of bar %d", name, energy, take, at,
							b.Start/groovetest.Bar44)
					}
				}
			}
		}
	}
	for _, name := range []string{"two-beat", "show-two", "ballad-in-two", "slow-twelve", "gospel-six"} {
		f := library.Builtin().Feels[name]
		for i := range 4 * 5 * 5 {
			chart, energy, take := charts[i%4], 1+i/4%5, 1+i/20
			r := render(t, f, chart, energy, take)
			for _, b := range r.Passes[0].Bars {
				for _, n := range within(r.lines[0], b.Start, b.Start+b.Length) {
					at := n.At - b.Start
					switch {
					case name == "two-beat" && at%(quarter/2) != 0, f.Meters[0].Den == 2 && at%quarter != 0,
						f.Meters[0].Den == 8 && at%(3*quarter/2) == quarter/2:
						t.Errorf("%s, energy %d, take %d: a note at %d", name, energy, take, at)
					}
				}
			}
		}
	}
}

// When a section comes again, its walk is another.
func TestTheWalkIsAnother(t *testing.T) {
	f := library.Builtin().Feels["swing"]
	for i := range 4 * 2 * 5 {
		r := render(t, f, charts[i%4], 3+i/4%2, 1+i/8)
		if common(r.lines[0], r.lines[1]) > 0.98 {
			t.Errorf("%s, energy %d, take %d: note for note", charts[i%4], 3+i/4%2, 1+i/8)
		}
	}
}
