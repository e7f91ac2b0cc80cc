package timeline_test

import (
	"fmt"

	"plinth/songspec/timeline"
)

func ExamplePass_Sweeps() {
	// energy = "2 to 4", bars "4-5" { energy = 1 }, bars "6-" { energy = 5 }
	pass := timeline.Pass{Bars: make([]timeline.Bar, 8)}
	for bar := range pass.Bars {
		pass.Bars[bar].Energy = timeline.EvenEnergy(2, 4, bar, 8)
		switch {
		case bar >= 5:
			pass.Bars[bar].Energy = timeline.EvenEnergy(5, 5, 0, 1)
		case bar >= 3:
			pass.Bars[bar].Energy = timeline.EvenEnergy(1, 1, 0, 1)
		}
	}
	for _, s := range pass.Sweeps() {
		fmt.Printf("bars %d-%d: %d to %d\n", s.First+1, s.End, s.From, s.To)
	}
	// Output:
	// bars 1-3: 2 to 3
	// bars 4-5: 1 to 1
	// bars 6-8: 5 to 5
}
