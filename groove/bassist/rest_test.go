package bassist

import (
	"slices"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// The song comes to rest: its last chord is one long low note, and in the bar before it the bass holds the
// root or the fifth and leads nowhere.
func TestTheSongComesToRest(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		for i := range 3 * 5 * 3 {
			chart := []string{"C|Am|F|Dm7|G7|C", "Am|F|G7 C", "C|G|Em7|F|C/G G7|Ab"}[i%3]
			energy, take := 1+i/3%5, 1+i/15
			tl := played(t, f, chart, energy, energy, take)
			p := &tl.Passes[2]
			notes := bassOf(tl, 2, library.Builtin())
			last := p.Bars[len(p.Bars)-1]
			ending := p.Chords[len(p.Chords)-1]
			n := notes[len(notes)-1]
			if n.At != ending.Start || n.Value != int32(p.Length-n.At) || n.Key > 39 {
				t.Errorf("%s, %s, energy %d: the last note is %s at %d for %d", f.Name, chart, energy,
					groovetest.KeyName(int(n.Key)), n.At-last.Start, n.Value)
			}
			for _, n := range within(notes, p.Bars[len(p.Bars)-2].Start, ending.Start) {
				bass := chordAt(p, n.At).Bass.PC()
				if pc := int(n.Key) % 12; pc != bass && pc != (bass+7)%12 {
					t.Errorf("%s, %s, energy %d: %s before the end", f.Name, chart, energy,
						groovetest.KeyName(int(n.Key)))
				}
			}
		}
	})
}

// The last note before a stop is the chord's bass, and held to the stop.
func TestTheBassHoldsToAStop(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		if len(f.Meters) > 0 && f.Meters[0] != meter.Common {
			return
		}
		for i := range 5 * 3 * 3 {
			stop := []int64{quarter, 2 * quarter, 3*quarter + quarter/2}[i/15]
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G", Energy: 1 + i%5, Feel: f.Name,
				Change: func(p *timeline.Pass) {
					groovetest.Event(p, timeline.Stop, 1, stop, func(e *timeline.Event) {
						e.End = 2 * groovetest.Bar44
					})
				}}, groovetest.Section{Name: "b", Chords: "C", Energy: 3, Feel: f.Name})
			tl.Take = 1 + i/5%3
			before := within(bassOf(tl, 0, library.Builtin()), 0, groovetest.Bar44+stop)
			n := before[len(before)-1]
			if n.Key%12 != 5 || n.At+int64(n.Value) != groovetest.Bar44+stop {
				t.Errorf("%s, energy %d: %s to %d before the stop at %d", f.Name, 1+i%5,
					groovetest.KeyName(int(n.Key)), n.At+int64(n.Value)-groovetest.Bar44, stop)
			}
		}
	})
}

// A pushed note hangs: only the kick strikes it again before the second beat, and the note before it is
// not its root.
func TestAPushedNoteHangs(t *testing.T) {
	for i := range 5 * 10 {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "F|C|G|C", Energy: 1 + i%5,
			Feel: "backbeat-eighths", Change: func(p *timeline.Pass) {
				groovetest.Event(p, timeline.Push, 0, 3*quarter+quarter/2, nil)
			}}, groovetest.Section{Name: "b", Chords: "C", Energy: 3})
		tl.Take = 1 + i/5
		part := play(tl, 0, library.Builtin())
		kicks := kickTicks(part[timeline.Drums].Notes)
		push, notes := int64(3*quarter+quarter/2), part[timeline.Bass].Notes
		for _, n := range within(notes, push+1, groovetest.Bar44+quarter) {
			if !slices.Contains(kicks, n.At) {
				t.Errorf("take %d: struck again at %d", tl.Take, n.At)
			}
		}
		for _, n := range within(notes, push-quarter, push) {
			if n.Key%12 == 0 {
				t.Errorf("take %d: the pushed root at %d already", tl.Take, n.At)
			}
		}
	}
}
