package groovetest

import (
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Bar44 is a bar of 4/4 in ticks.
const Bar44 = 4 * meter.TicksPerQuarter

// WildChords are bars of chords that go further from each other than those of a song.
const WildChords = "C|Am7/G F#dim|Fmaj7 Fm6|Eb7/Db|N.C.|Bsus4 B7|E/G# Am|D9|G7sus4|Db|Gb7 F7|C6"

// Chord reads a chord symbol.
func Chord(t testing.TB, s string) harmony.Chord {
	t.Helper()
	c, err := harmony.ParseChord(s)
	if err != nil {
		t.Fatalf("chord %q: %v", s, err)
	}
	return c
}

// CompFeel is a feel in 4/4 of which only the comp plays: each figure is sixteen steps, or
// sixteen over sixteen with / between the hands, the same at every energy, with the design's
// number of voices.
func CompFeel(figures ...string) *feel.Feel {
	f := &feel.Feel{Name: "test", Meters: []meter.Meter{meter.Common}, Grid: 16}
	for e := range f.Levels {
		lv := &f.Levels[e]
		lv.Energy, lv.Bars, lv.Voices = e+1, 1, []int{2, 3, 3, 4, 4}[e]
		for _, row := range figures {
			right, left, two := strings.Cut(row, "/")
			fig := feel.Figure{Right: CompRow(right)}
			if two {
				fig.Left = CompRow(left)
			}
			lv.Comp = append(lv.Comp, fig)
		}
	}
	return f
}

// PassOf lays bars of chords out in 4/4: bars are parted by |, the chords of a
// bar share it evenly.
func PassOf(t testing.TB, chart string, energy int) *timeline.Pass {
	t.Helper()
	p := &timeline.Pass{Section: "verse", Feel: "test", EnergyFrom: energy, EnergyTo: energy,
		Meter: meter.Common, BPM: 90_000, FirstBar: 1, After: &timeline.Neighbour{Section: "next", Energy: energy},
		Tempos: []timeline.Tempo{{Tick: 0, Micros: 60_000_000 / 90}}}
	for i, text := range strings.Split(chart, "|") {
		start := int64(i) * Bar44
		p.Bars = append(p.Bars, timeline.Bar{Start: start, Length: Bar44, Meter: meter.Common, Text: text})
		symbols := strings.Fields(text)
		each := Bar44 / int64(len(symbols))
		for k, s := range symbols {
			p.Chords = append(p.Chords, timeline.Span{Start: start + int64(k)*each,
				End: start + int64(k+1)*each, Chord: Chord(t, s), Written: s})
		}
		p.Length = start + Bar44
	}
	p.After.Chord = p.Chords[0].Chord
	return p
}

// PlanOf makes a pass ready with the default piano.
func PlanOf(pass *timeline.Pass, f *feel.Feel) *plan.Plan {
	tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Take: 1}
	return plan.New(tl, pass, &feel.Set{Feels: map[string]*feel.Feel{f.Name: f}})
}

// FeelPass lays a 4/4 chart out in a feel's own meter: two chords a bar share it
// at the beat in its middle.
func FeelPass(t testing.TB, chart string, f *feel.Feel, energy int) *timeline.Pass {
	m := meter.Common
	if len(f.Meters) > 0 {
		m = f.Meters[0]
	}
	p := PassOf(t, chart, energy)
	p.Feel, p.Meter, p.BPM, p.Fills, p.Lead = f.Name, m, meter.Whole(f.TempoHigh), true, true
	p.After.Energy, p.After.Feel = energy, f.Name
	tempo := int64(max(f.TempoHigh, 60))
	p.Tempos = []timeline.Tempo{{Micros: 60_000_000 * meter.TicksPerQuarter / (tempo * m.TempoTicks())}}
	beats := m.Beats()
	at := func(tick int64) int64 {
		bar, in := tick/Bar44, tick%Bar44
		if in > 0 {
			in = beats[(len(beats)+1)/2]
		}
		return bar*m.BarTicks() + in
	}
	for i := range p.Chords {
		p.Chords[i].Start, p.Chords[i].End = at(p.Chords[i].Start), at(p.Chords[i].End)
	}
	for i := range p.Bars {
		p.Bars[i] = timeline.Bar{Start: int64(i) * m.BarTicks(), Length: m.BarTicks(), Meter: m}
	}
	p.Length = int64(len(p.Bars)) * m.BarTicks()
	return p
}
