package midi

import (
	"plinth/groove"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

const (
	quarter = meter.TicksPerQuarter
	bar     = 4 * quarter
)

var (
	cMajor = harmony.Key{}
	eFlat  = harmony.Key{Tonic: harmony.Name{Step: 2, Alter: -1}}
	cMinor = harmony.Key{Minor: true}
)

// smallSong is six bars of 4/4 and one of 6/8, with a bar of click in front: two
// passes of a verse, then a chorus in another key at another tempo.
func smallSong() (*timeline.Timeline, *groove.Performance) {
	tl := &timeline.Timeline{
		Title:    "Lanterns on the Weir",
		CountIn:  1,
		Lead:     bar,
		LeadBars: 1,
		Passes: []timeline.Pass{
			{Index: 0, Section: "verse", Start: bar, Length: 2 * bar},
			{Index: 1, Section: "verse", Ordinal: 1, Start: 3 * bar, Length: 2 * bar},
			{Index: 2, Section: "chorus", Start: 5 * bar, Length: bar + 6*quarter/2},
		},
		Tempos: []timeline.Tempo{{Tick: 0, Micros: 833333}, {Tick: 3 * bar, Micros: 833333},
			{Tick: 5 * bar, Micros: 800000}},
		Meters: []timeline.MeterChange{{Tick: 0, Meter: meter.Common},
			{Tick: 6 * bar, Meter: meter.Meter{Num: 6, Den: 8}}},
		Keys: []timeline.KeyChange{{Tick: 0, Key: eFlat}, {Tick: 5 * bar, Key: cMinor}},
		End:  6*bar + 6*quarter/2,
	}
	perf := groove.NewPerformance()
	perf.Sounds = [][]groove.Sound{timeline.Drums: {{Kit: "brushes"}}, timeline.Bass: {{Program: 33}},
		timeline.Piano: {{Program: 0}}}
	for i := range int64(4) {
		perf.Click = append(perf.Click, groove.Note{Tick: i * quarter, Length: quarter / 4,
			Key: map[bool]uint8{true: 76, false: 77}[i == 0], Velocity: 90})
	}
	for i := bar; i < 6*bar; i += quarter {
		perf.Parts[timeline.Drums] = append(perf.Parts[timeline.Drums],
			groove.Note{Tick: int64(i), Length: 120, Key: 36, Velocity: 80},
			groove.Note{Tick: int64(i), Length: 120, Key: 42, Velocity: 1})
		// The bass plays one key after another without a gap.
		perf.Parts[timeline.Bass] = append(perf.Parts[timeline.Bass],
			groove.Note{Tick: int64(i), Length: quarter, Key: 39, Velocity: 127})
	}
	for _, key := range []uint8{55, 58, 63} {
		perf.Parts[timeline.Piano] = append(perf.Parts[timeline.Piano],
			groove.Note{Tick: bar, Length: tl.End - bar, Key: key, Velocity: 60})
	}
	return tl, perf
}
