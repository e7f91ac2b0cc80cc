package groove_test

import (
	"reflect"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// The bassist walks in the key of the bar: where bars have another key the notes between the
// chord's are of that key, and before it nothing is another. A pass that has the key as a whole
// sounds like one whose bars all have it.
func TestTheKeyIsTheBars(t *testing.T) {
	set := library.Builtin()
	key := func(text string) harmony.Key {
		k, err := harmony.ParseKey(text)
		if err != nil {
			t.Fatal(err)
		}
		return k
	}
	song := func(change func(p *timeline.Pass)) *timeline.Timeline {
		return groovetest.Song(t, groovetest.Section{Name: "verse", Feel: "swing", Energy: 4, BPM: 140, Change: change,
			Chords: "Dm7|Dm7|G7|C|Fm7|Fm7|Bb7|Eb|Fm7|Fm7|Bb7|Eb"})
	}
	plain := groove.Perform(song(nil), set)
	flat := groove.Perform(song(func(p *timeline.Pass) {
		p.Keys = []timeline.KeyChange{{Tick: p.Bars[4].Start, Key: key("Eb major")}}
	}), set)
	for _, bar := range barsThatDiffer(plain, flat, timeline.Bass, false) {
		t.Errorf("bar %d has another rhythm in another key", bar)
	}
	outside := func(perf *groove.Performance, k harmony.Key) (n int) {
		for _, m := range perf.Passes[0].Score.Parts[timeline.Bass].Notes {
			if m.At >= 16*quarter && m.At < 47*quarter && k.PCSet()&(1<<(m.Key%12)) == 0 {
				n++
			}
		}
		return n
	}
	if is, was := outside(flat, key("Eb major")), outside(plain, key("Eb major")); is >= was {
		t.Errorf("in Eb %d notes of the bass are outside the key, and %d without the change", is, was)
	}
	a := groove.Perform(song(func(p *timeline.Pass) { p.Key = key("Eb major") }), set)
	b := groove.Perform(song(func(p *timeline.Pass) {
		p.Keys = []timeline.KeyChange{{Tick: 0, Key: key("Eb major")}}
	}), set)
	if !reflect.DeepEqual(a.Parts, b.Parts) {
		t.Error("the key of all bars is not that of the pass")
	}
}
