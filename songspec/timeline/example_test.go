package timeline_test

import (
	"fmt"

	"plinth/songspec/timeline"
)

func ExampleTimeline_PassAt() {
	bar := int64(3840) // 4/4
	song := timeline.Timeline{Passes: []timeline.Pass{
		{Section: "verse", Start: bar, Length: 8 * bar}, // after a bar of count-in
		{Section: "chorus", Start: 9 * bar, Length: 4 * bar},
	}}
	for _, tick := range []int64{0, 5 * bar, 9 * bar, 99 * bar} {
		fmt.Print(song.PassAt(tick), " ")
	}
	// Output:
	// -1 0 1 1
}

func ExamplePass_EnergyAt() {
	pass := timeline.Pass{EnergyFrom: 2, EnergyTo: 4, Bars: make([]timeline.Bar, 5)}
	for bar := range pass.Bars {
		fmt.Print(pass.EnergyAt(bar), " ")
	}
	// Output:
	// 2 3 3 4 4
}

func ExampleClock() {
	// 120 quarters a minute, and from the third quarter on 60.
	clock := timeline.NewClock([]timeline.Tempo{{Tick: 0, Micros: 500_000}, {Tick: 1920, Micros: 1_000_000}})
	fmt.Println(clock.Micros(1920), clock.Micros(2880), timeline.MinSec(clock.Micros(2880)))
	// Output:
	// 1000000 2000000 0:02
}
