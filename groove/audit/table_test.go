package audit

import (
	"fmt"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/pianist"
	"plinth/groove/plan"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// TestFeelTable prints, with -v, what the band plays in every feel: attacks a bar of
// drums, bass and piano at energies 1 to 5, in the mean over a plain progression of
// eight bars without its fill and four takes, in the middle of the feel's tempo
// range. What grows from energy to energy is the whole band's attacks; none shrink.
func TestFeelTable(t *testing.T) {
	set := library.Builtin()
	t.Log("| feel | meter | tempo | swing | drums | bass | piano | syncopation |")
	t.Log("| --- | --- | --- | --- | --- | --- | --- | --- |")
	for _, name := range library.Names() {
		f := set.Feels[name]
		m := meter.Common
		written := "any"
		if len(f.Meters) > 0 {
			m = f.Meters[0]
			written = ""
			for i, x := range f.Meters {
				if i > 0 {
					written += ", "
				}
				written += x.String()
			}
		}
		bpm := (f.TempoLow + f.TempoHigh) / 2
		rows := make([]string, len(timeline.PlayerNames))
		lhl := ""
		last := 0
		for energy := 1; energy <= 5; energy++ {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|G/B|Am7|F|C/E|Dm7|G7sus4|G7",
				Energy: energy, Feel: name, Meter: m, BPM: bpm, NoFills: true},
				groovetest.Section{Name: "b", Chords: "C", Energy: energy, Feel: name, Meter: m, BPM: bpm})
			sum := Figures{Attacks: make([]int, len(timeline.PlayerNames))}
			const takes = 4
			for take := 1; take <= takes; take++ {
				tl.Take = take
				r := Song(tl, groove.Perform(tl, set), set)
				for who := range sum.Attacks {
					sum.Attacks[who] += r.Passes[0].Attacks[who]
				}
				sum.SyncopationMost = max(sum.SyncopationMost, r.Passes[0].SyncopationMost)
				if r.Passes[0].CompAttacks > int(pianist.AttacksPerBeat.At(energy)) {
					t.Errorf("%s, energy %d: %d attacks in a thousand beats", name, energy, r.Passes[0].CompAttacks)
				}
			}
			for who := range rows {
				if energy > 1 {
					rows[who] += " "
				}
				rows[who] += thousandths(sum.Attacks[who] / takes)
			}
			if energy > 1 {
				lhl += " "
			}
			lhl += fmt.Sprint(sum.SyncopationMost)
			if sum.SyncopationMost > f.Syncopation {
				t.Errorf("%s, energy %d: syncopation %d, the feel keeps to %d", name, energy, sum.SyncopationMost,
					f.Syncopation)
			}
			if total := sum.Total(); total < last {
				t.Errorf("%s: %d attacks in a thousand bars at energy %d, %d below", name, total/takes, energy,
					last/takes)
			} else {
				last = total
			}
		}
		swing := "straight"
		if f.Swing.Mode != "" {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C", Energy: 3, Feel: name, Meter: m,
				BPM: bpm})
			s := plan.New(tl, &tl.Passes[0], set).SwingIn(0)
			ratio := s.Long * 1000 / (s.Pair - s.Long)
			swing = fmt.Sprintf("%d.%02d at %d", ratio/1000, ratio%1000/10, bpm)
			if f.Swing.Unit == "sixteenth" {
				swing += ", sixteenths"
			}
		}
		t.Logf("| %s | %s | %d to %d | %s | %s | %s | %s | %s of %d |", name, written, f.TempoLow, f.TempoHigh, swing,
			rows[timeline.Drums], rows[timeline.Bass], rows[timeline.Piano], lhl, f.Syncopation)
	}
}
