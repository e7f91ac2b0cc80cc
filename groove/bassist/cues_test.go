package bassist

import (
	"slices"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/timeline"
)

// In a bar of hits all hits are as long, half a beat at most.
func TestHitsAreShort(t *testing.T) {
	const eighth = quarter / 2
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G", Energy: 3, Change: func(p *timeline.Pass) {
		for _, at := range []int64{0, eighth, 2 * quarter, 3*quarter + eighth} {
			groovetest.Event(p, timeline.Accent, 1, at, func(e *timeline.Event) { e.Alone = true })
		}
	}})
	notes := within(bassOf(tl, 0, groovetest.Set(nil)), groovetest.Bar44, 2*groovetest.Bar44)
	if len(notes) != 4 {
		t.Fatalf("%d notes for 4 hits", len(notes))
	}
	for i, n := range notes {
		if n.Value != eighth {
			t.Errorf("hit %d is written as %d ticks", i+1, n.Value)
		}
	}
}

// A chord that begins in a stop has its bass as soon as the stop is over.
func TestBassComesInAfterAStop(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G", Energy: 3, Change: func(p *timeline.Pass) {
		groovetest.Event(p, timeline.Stop, 0, 3*quarter, func(e *timeline.Event) { e.End += quarter })
	}})
	after := within(bassOf(tl, 0, withBass("1=======1=======")), 3*quarter, 2*groovetest.Bar44)
	if at := int64(groovetest.Bar44 + quarter); len(after) != 2 || after[0].At != at || after[0].Key%12 != 5 {
		t.Errorf("after the stop %v, want F on 2", after)
	}
}

// A chorus that comes in stronger begins on the low octave.
func TestLowOctaveAtTheLift(t *testing.T) {
	for _, row := range []struct {
		before, here int
		low          bool
	}{{2, 4, true}, {3, 5, true}, {4, 4, false}, {5, 4, false}, {1, 3, false}} {
		for _, strings := range []int{4, 5} {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|Bb|D", Energy: row.before},
				groovetest.Section{Name: "b", Chords: "E|A|B|E", Energy: row.here})
			tl.Bass.Strings = strings
			key := int(bassOf(tl, 1, withBass("1==============="))[0].Key)
			if low := key < Lowest(tl.Bass)+12; low != row.low && (row.low || strings == 4) {
				t.Errorf("%d to %d on %d strings: the first note is %s", row.before, row.here, strings,
					groovetest.KeyName(key))
			}
		}
	}
}

// A bass that is not the root is played in halves, or with its fifth where the chord has it.
func TestSlashBassIsCalm(t *testing.T) {
	set := withBass("1=1=1=1=1=1=1=a=")
	for _, row := range []struct {
		chord   string
		classes []int
	}{{"C/E", []int{4, 4}}, {"G/B", []int{11, 11}}, {"Am7/C", []int{0, 7, 0, 7, 0, 7, 0, 7}}} {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: row.chord + "|F|G", Energy: 4},
			groovetest.Section{Name: "b", Chords: "C", Energy: 4})
		var got []int
		for _, n := range within(bassAlone(tl, 0, set), 0, groovetest.Bar44) {
			got = append(got, int(n.Key)%12)
		}
		if !slices.Equal(got, row.classes) {
			t.Errorf("%s: %v, want %v", row.chord, got, row.classes)
		}
	}
}

// The song's bass is its own, or the first feel's that has a bass; and walking notes of an
// acoustic bass are let go before the next.
func TestAcousticBass(t *testing.T) {
	set := library.Builtin()
	for _, row := range []struct {
		first, second, sound string
		tacet                timeline.Players
		want                 bool
	}{
		{"swing", "backbeat-eighths", "", 0, true},
		{"backbeat-eighths", "swing", "", 0, false},
		{"backbeat-eighths", "swing", "", timeline.Only(timeline.Bass), true},
		{"swing", "swing", "finger", 0, false},
		{"backbeat-eighths", "swing", "acoustic", 0, true},
	} {
		tl := groovetest.Song(t,
			groovetest.Section{Name: "a", Chords: "C|F", Energy: 4, Feel: row.first, Tacet: row.tacet},
			groovetest.Section{Name: "b", Chords: "C|C|C|C", Energy: 4, Feel: row.second})
		tl.Bass.Sound = row.sound
		if got := Acoustic(tl, set); got != row.want {
			t.Errorf("%+v: acoustic %t", row, got)
		}
		if row.second != "swing" {
			continue
		}
		notes, gaps := bassOf(tl, 1, set), 0
		for i := range notes[1:] {
			if notes[i].Key != notes[i+1].Key && notes[i].End() < notes[i+1].At {
				gaps++
			}
		}
		if lets := row.sound != "finger"; lets != (gaps > len(notes)/2) {
			t.Errorf("%+v: %d gaps in %d notes", row, gaps, len(notes))
		}
	}
}

// The feels on an acoustic bass.
func TestFeelsOnAcousticBass(t *testing.T) {
	var got []string
	eachFeel(func(f *feel.Feel) {
		if f.BassSound == acoustic {
			got = append(got, f.Name)
		}
	})
	slices.Sort(got)
	want := []string{"bossa", "brushes-ballad", "jazz-waltz", "swing", "two-beat", "waltz"}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
