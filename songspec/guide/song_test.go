package guide

import (
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// part is a section of a hand-made song: one chord symbol a bar.
type part struct {
	name   string
	meter  string
	chords []string
	events []timeline.Event
}

// song lays parts out as a timeline in one key, with lead ticks in front.
func song(t testing.TB, key string, bpm int, lead int64, parts ...part) *timeline.Timeline {
	t.Helper()
	k, err := harmony.ParseKey(key)
	if err != nil {
		t.Fatal(err)
	}
	tl := &timeline.Timeline{Title: "Lanterns on the Weir", Lead: lead,
		Vocals: []timeline.Vocal{{Path: "guide.mid", From: 1, Line: 9}}}
	at, bar := lead, 1
	for i, pt := range parts {
		m, err := meter.Parse(pt.meter)
		if err != nil {
			t.Fatal(err)
		}
		p := timeline.Pass{Index: i, Section: pt.name, Key: k, Meter: m, BPM: meter.Whole(bpm),
			EnergyFrom: 2, EnergyTo: 2, Start: at, FirstBar: bar, Events: pt.events}
		for _, sym := range pt.chords {
			c, err := harmony.ParseChord(sym)
			if err != nil {
				t.Fatal(err)
			}
			p.Bars = append(p.Bars, timeline.Bar{Start: p.Length, Length: m.BarTicks(), Meter: m, Text: sym})
			p.Chords = append(p.Chords, timeline.Span{Start: p.Length, End: p.Length + m.BarTicks(), Chord: c,
				Written: sym})
			p.Length += m.BarTicks()
			bar++
		}
		if i == 0 {
			tl.LeadBars = int(lead / m.BarTicks())
			tl.Tempos = []timeline.Tempo{{Tick: 0, Micros: (60_000_000*960/m.TempoTicks() + int64(bpm)/2) / int64(bpm)}}
		}
		at += p.Length
		tl.Passes = append(tl.Passes, p)
	}
	tl.End = at
	return tl
}

// apply reads and places a file that can be read.
func apply(t testing.TB, tl *timeline.Timeline, singer int, src []byte) []Problem {
	t.Helper()
	f, err := Read(src)
	if err != nil {
		t.Fatal(err)
	}
	return Place(tl, singer, f)
}

// place reads and places a file that must be good.
func place(t testing.TB, tl *timeline.Timeline, src []byte) []Problem {
	t.Helper()
	out := apply(t, tl, 0, src)
	for _, p := range out {
		if p.Error {
			t.Fatalf("%s: %s", p.Summary, p.Detail)
		}
	}
	return out
}
