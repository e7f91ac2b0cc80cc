package groove

import (
	"sort"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/voicing"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// chordOf reads a chord symbol.
func chordOf(t testing.TB, s string) harmony.Chord {
	t.Helper()
	c, err := harmony.ParseChord(s)
	if err != nil {
		t.Fatalf("chord %q: %v", s, err)
	}
	return c
}

// compFeel is a feel in 4/4 of which only the comp plays: the row is sixteen
// steps, the same at every energy, with the design's number of voices.
func compFeel(row string) *feel.Feel {
	f := &feel.Feel{Name: "test", Meters: []meter.Meter{meter.Common}, Grid: 16}
	for e := range f.Levels {
		lv := &f.Levels[e]
		lv.Energy, lv.Bars, lv.Voices = e+1, 1, []int{2, 3, 3, 4, 4}[e]
		lv.Comp = compRow(row)
	}
	return f
}

// compRow reads a row as groove files write it: - rest, = held, s a soft
// attack, a letter or digit an attack.
func compRow(row string) []feel.CompStep {
	var out []feel.CompStep
	for _, r := range strings.ReplaceAll(row, " ", "") {
		switch r {
		case '-':
			out = append(out, feel.CompStep{Touch: feel.Rest})
		case '=':
			out = append(out, feel.CompStep{Touch: feel.Sound})
		case 's':
			out = append(out, feel.CompStep{Touch: feel.Soft, Part: 'c'})
		default:
			out = append(out, feel.CompStep{Touch: feel.Normal, Part: byte(r)})
		}
	}
	return out
}

const bar44 = 4 * meter.TicksPerQuarter

// passOf lays bars of chords out in 4/4: bars are parted by |, the chords of a
// bar share it evenly.
func passOf(t testing.TB, chart string, energy int) *timeline.Pass {
	t.Helper()
	p := &timeline.Pass{Section: "verse", Feel: "test", EnergyFrom: energy, EnergyTo: energy,
		Meter: meter.Common, BPM: 90, FirstBar: 1, After: &timeline.Neighbour{Section: "next"},
		Tempos: []timeline.Tempo{{Tick: 0, Micros: 60_000_000 / 90}}}
	for i, text := range strings.Split(chart, "|") {
		start := int64(i) * bar44
		p.Bars = append(p.Bars, timeline.Bar{Start: start, Length: bar44, Meter: meter.Common, Text: text})
		symbols := strings.Fields(text)
		each := bar44 / int64(len(symbols))
		for k, s := range symbols {
			p.Chords = append(p.Chords, timeline.Span{Start: start + int64(k)*each,
				End: start + int64(k+1)*each, Chord: chordOf(t, s), Written: s})
		}
		p.Length = start + bar44
	}
	p.After.Chord = p.Chords[0].Chord
	return p
}

// planOf makes a pass ready with the default piano.
func planOf(pass *timeline.Pass, f *feel.Feel) *Plan {
	tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Take: 1}
	return NewPlan(tl, pass, &feel.Set{Feels: map[string]*feel.Feel{f.Name: f}})
}

// chordsOf voices a pass and returns the voicing of every chord.
func chordsOf(p *Plan) []voicing.Voicing {
	return p.voicings(p.Cues.Changes(timeline.Piano), p.listen(), nil, p.leftLine(p.Cues.Changes(timeline.Piano), p.listen()))
}

// names writes a voicing as note names with octaves, for messages.
func names(v voicing.Voicing) string {
	var out []string
	for _, k := range v.Notes[:v.N] {
		out = append(out, keyName(int(k)))
	}
	return strings.Join(out, " ")
}

// sortEvents puts events in the timeline's order.
func sortEvents(p *timeline.Pass) {
	sort.SliceStable(p.Events, func(i, j int) bool {
		a, b := p.Events[i], p.Events[j]
		if a.Tick != b.Tick {
			return a.Tick < b.Tick
		}
		return a.Kind < b.Kind
	})
}
