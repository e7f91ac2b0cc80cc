package audit

import (
	"fmt"

	"plinth/songspec/timeline"
)

// Figures are what a pass is measured by. Rates are in thousandths, so that they are the same
// on every machine.
type Figures struct {
	Section  string
	FirstBar int // number of its first bar in the song, from 1
	Bars     int
	Energy   [2]int // at its first and its last bar

	// Attacks a bar by player, in thousandths: strokes of the kit, notes of the bass,
	// chords of the comp (what is struck within 90 ms is one).
	Attacks []int
	// CompAttacks are the comp's attacks a beat, in thousandths. The beat is the one that the
	// tempo counts.
	CompAttacks int
	// SyncopationMost is the LHL syncopation of kick and snare in the busiest of the bars
	// without fill and event.
	SyncopationMost int
}

// Total is the attacks a bar of the whole band, in thousandths.
func (f *Figures) Total() int {
	n := 0
	for _, a := range f.Attacks {
		n += a
	}
	return n
}

// figures measures a pass.
func (pa *passAudit) figures() Figures {
	p := pa.pass
	f := Figures{Section: p.Section, FirstBar: p.FirstBar, Bars: len(p.Bars),
		Energy: [2]int{p.EnergyFrom, p.EnergyTo}, Attacks: make([]int, len(pa.part.Notes))}
	for who, notes := range pa.part.Notes {
		f.Attacks[who] = mean(len(notes), f.Bars)
	}
	f.Attacks[timeline.Piano] = mean(len(pa.chords), f.Bars)
	beats := int64(0) // in thousandths
	for bar, b := range p.Bars {
		beats += 1000 * b.Length / b.Meter.PlayedBeat()
		if lhl, ok := pa.syncopation(bar); ok {
			f.SyncopationMost = max(f.SyncopationMost, lhl)
		}
	}
	if beats > 0 {
		f.CompAttacks = int(int64(len(pa.chords)) * 1_000_000 / beats)
	}
	return f
}

// mean is sum over n in thousandths, 0 when n is 0.
func mean(sum, n int) int {
	if n == 0 {
		return 0
	}
	return sum * 1000 / n
}

// thousandths writes a figure in thousandths with one decimal, rounded half up.
func thousandths(n int) string {
	n = (n + 50) / 100
	return fmt.Sprintf("%d.%d", n/10, n%10)
}
