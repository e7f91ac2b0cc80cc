package main

import (
	"math/rand"
	"strings"
	"testing"

	"plinth/groove/library"
	"plinth/groove/load"
	"plinth/songspec/meter"
)

// Every chart can be read, in every feel, and has the changes of a pop chart.
func TestCharts(t *testing.T) {
	var onOne, onThree ratio
	r := rand.New(rand.NewSource(1))
	for range 4 {
		for _, feel := range library.Index() {
			text := chartText(r, feel)
			in := load.Read("own", []byte(text), noFiles{})
			for _, d := range in.Diags {
				// The push of the bridge comes by chance, and so do seven bars of which one has two chords.
				if d.Summary != "A push without a change of chord" && !strings.HasPrefix(d.Summary, "7 bars, ") {
					t.Fatalf("%v\n%s", d, text)
				}
			}
			for _, p := range in.Timeline.Passes {
				if p.Feel != feel.Name || p.BPM < meter.Whole(feel.TempoLow) || p.BPM > meter.Whole(feel.TempoHigh) {
					t.Fatalf("%s at %d in %s", p.Feel, p.BPM, feel.Name)
				}
				for i, c := range p.Chords[1:] {
					bar := p.Bars[p.BarAt(c.Start)]
					if c.Start == bar.Start {
						onOne.count(c.Chord != p.Chords[i].Chord)
					}
				}
				for _, bar := range p.Bars {
					if feel.Meters == "4/4" && p.Section != "close" {
						onThree.count(len(strings.Fields(strings.Trim(bar.Text, "|"))) == 2)
					}
				}
			}
		}
	}
	if x := onOne.share(); x < .60 || x > .72 {
		t.Errorf("the chord changes on 1 in %.2f of the bars", x)
	}
	if x := onThree.share(); x < .23 || x > .33 {
		t.Errorf("the chord changes on 3 in %.2f of the bars", x)
	}
}
