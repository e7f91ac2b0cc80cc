package audit

import (
	"fmt"

	"plinth/groove"
	"plinth/songspec/timeline"
)

// Figures are what a pass is measured by. Rates and means are in thousandths, so
// that they are the same on every machine.
type Figures struct {
	Section  string
	Ordinal  int // among the section's passes, from 0
	FirstBar int // number of its first bar in the song, from 1
	Bars     int
	Energy   [2]int // at its first and its last bar

	// Attacks a bar by player, in thousandths: strokes of the kit, notes of the bass,
	// chords of the comp (what is struck within 90 ms is one).
	Attacks []int
	// Velocity is the mean velocity by player, in thousandths.
	Velocity []int
	// CompAttacks and CompNotes are the comp's attacks and notes a beat, in
	// thousandths. The beat is the one that the tempo counts.
	CompAttacks, CompNotes int
	// Syncopation is the LHL syncopation of kick and snare a bar, in thousandths, over
	// the bars without fill and event; SyncopationMost is that of the busiest.
	Syncopation, SyncopationMost int
	// CompLow and CompHigh are the comp's lowest and highest note (MIDI numbers), 0
	// without a comp. CompSpan is the mean distance in thousandths of a semitone from
	// the bottom to the top of what sounds at an attack, CompCentre its mean middle.
	CompLow, CompHigh    int
	CompSpan, CompCentre int
	// Changes are the changes of chord that the comp plays; in TopStill of them its
	// highest note moves two semitones or less.
	Changes, TopStill int
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
	f := Figures{Attacks: make([]int, len(pa.part.Notes)), Velocity: make([]int, len(pa.part.Notes)),
		Section: p.Section, Ordinal: p.Ordinal, FirstBar: p.FirstBar, Bars: len(p.Bars),
		Energy: [2]int{p.EnergyFrom, p.EnergyTo}}
	for who, notes := range pa.part.Notes {
		sum := 0
		for _, n := range notes {
			sum += int(n.Velocity)
		}
		f.Attacks[who] = mean(len(notes), f.Bars)
		f.Velocity[who] = mean(sum, len(notes))
	}
	pa.compFigures(&f)
	bars := 0
	for bar := range p.Bars {
		if lhl, ok := pa.syncopation(bar); ok {
			bars++
			f.Syncopation += lhl
			f.SyncopationMost = max(f.SyncopationMost, lhl)
		}
	}
	f.Syncopation = mean(f.Syncopation, bars)
	return f
}

// compFigures measures the comp.
func (pa *passAudit) compFigures(f *Figures) {
	notes := pa.part.Notes[timeline.Piano]
	chords := pa.chords
	f.Attacks[timeline.Piano] = mean(len(chords), f.Bars)
	beats := int64(0) // in thousandths
	for _, b := range pa.pass.Bars {
		beats += 1000 * b.Length / b.Meter.TempoTicks()
	}
	if beats > 0 {
		f.CompAttacks = int(int64(len(chords)) * 1_000_000 / beats)
		f.CompNotes = int(int64(len(notes)) * 1_000_000 / beats)
	}
	span, middle := 0, 0
	for _, c := range chords {
		low, high := c.keys[0], c.keys[len(c.keys)-1]
		span += high - low
		middle += low + high
		if f.CompLow == 0 || low < f.CompLow {
			f.CompLow = low
		}
		f.CompHigh = max(f.CompHigh, high)
	}
	f.CompSpan, f.CompCentre = mean(span, len(chords)), mean(middle, 2*len(chords))
	pa.topFigures(f, notes)
}

// topFigures follows the top voice from change to change.
func (pa *passAudit) topFigures(f *Figures, notes []groove.Note) {
	changes := pa.plan.Cues.Changes(timeline.Piano)
	before := 0
	for i, top := range pa.tops(changes, notes) {
		if top == 0 {
			continue
		}
		if before > 0 && !changes[i].Same {
			f.Changes++
			if max(top-before, before-top) <= 2 {
				f.TopStill++
			}
		}
		before = top
	}
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
