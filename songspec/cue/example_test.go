package cue_test

import (
	"fmt"

	"plinth/songspec/cue"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// onePush is a bar of C and a bar of F, which the band pushes by an eighth.
func onePush() *timeline.Pass {
	c, _ := harmony.ParseChord("C")
	f, _ := harmony.ParseChord("F")
	bar := meter.Common.BarTicks()
	push := timeline.Event{Kind: timeline.Push, Tick: bar - 480, Target: bar, By: timeline.All}
	onBeat := timeline.Event{Kind: timeline.Accent, Bar: 1, Tick: bar, End: bar, By: timeline.All, Weight: 2}
	return &timeline.Pass{
		Length: 2 * bar, EnergyFrom: 3, EnergyTo: 3, Meter: meter.Common,
		Bars:   []timeline.Bar{{Length: bar, Meter: meter.Common}, {Start: bar, Length: bar, Meter: meter.Common}},
		Chords: []timeline.Span{{End: bar, Chord: c}, {Start: bar, End: 2 * bar, Chord: f}},
		Events: []timeline.Event{push, onBeat},
	}
}

func ExampleOf() {
	for _, change := range cue.Of(onePush()).Changes(timeline.Bass) {
		fmt.Println(change.Chord, change.Start, change.End, change.Pushed())
	}
	// Output:
	// C 0 3360 false
	// F 3360 7680 true
}

func ExampleEvents() {
	p := onePush()
	for i, played := range cue.Events(p) {
		fmt.Println(p.Events[i].Kind, played.At, played.Target, played.By.Names(), "moved:", played.Moved.Names())
	}
	// Output:
	// push 3360 3840 [drums bass piano] moved: []
	// accent 3360 3840 [drums bass piano] moved: [drums bass piano]
}
