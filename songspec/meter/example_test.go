package meter_test

import (
	"fmt"

	"plinth/songspec/meter"
)

func ExampleParse() {
	m, err := meter.Parse("7/8 3+2+2")
	fmt.Println(m, err)
	fmt.Println("a bar has", m.BarTicks(), "ticks, and felt beats at", m.Beats())
	_, err = meter.Parse("4/3")
	fmt.Println(err)
	// Output:
	// 7/8 3+2+2 <nil>
	// a bar has 3360 ticks, and felt beats at [0 1440 2400]
	// the lower number of a meter is 1, 2, 4, 8, 16 or 32
}

func ExamplePlace_Where() {
	place, err := meter.ParsePlace("2, last: 1 3&")
	if err != nil {
		fmt.Println(err)
		return
	}
	bars := []meter.Meter{meter.Common, meter.Common, meter.Common, meter.Common}
	moments, err := place.Where(bars, meter.Common)
	for _, at := range moments {
		fmt.Println("bar", at.Bar+1, "tick", at.Tick, "count", bars[at.Bar].CountAt(at.Tick))
	}
	fmt.Println(err)
	// Output:
	// bar 2 tick 0 count 1
	// bar 2 tick 2400 count 3&
	// bar 4 tick 0 count 1
	// bar 4 tick 2400 count 3&
	// <nil>
}

func ExamplePlaceError() {
	_, err := meter.ParsePlace("4: 2+")
	fmt.Println(err)
	// Output:
	// not a count: "2+": The half of a count is written with &: "2&".
}
