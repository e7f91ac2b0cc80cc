package drummer

import (
	"fmt"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// eachDrumFeel calls do with the feels that have fills and an energy of theirs at which somebody drums,
// in their own meter and, where a feel is for any meter, in some.
func eachDrumFeel(do func(name string, energy int, m meter.Meter)) {
	odd := []meter.Meter{{Num: 5, Den: 8}, {Num: 9, Den: 8}, {Num: 6, Den: 8}, {Num: 7, Den: 4}, {Num: 3, Den: 2},
		{Num: 3, Den: 4}}
	for _, name := range library.Names() {
		f := library.Builtin().Feels[name]
		for energy := 2; energy <= 5; energy++ {
			if f.Fills == "" || len(f.Levels[energy-1].Drums) == 0 {
				continue
			}
			meters := f.Meters
			if len(meters) == 0 {
				meters = odd
			}
			for _, m := range meters {
				do(name, energy, m)
			}
		}
	}
}

// fillingIn is a drummer in four bars with fills from ticks of every bar.
func fillingIn(t *testing.T, name string, energy int, m meter.Meter, take int, from ...int64) *Drummer {
	s := groovetest.Section{Name: "break", Chords: "C|F|G|C", Energy: energy, Feel: name, Meter: m, BPM: 100,
		Tacet: timeline.Only(timeline.Bass) | timeline.Only(timeline.Piano), Change: func(p *timeline.Pass) {
			for bar := range p.Bars {
				for _, at := range from {
					groovetest.Event(p, timeline.Fill, bar, at, nil)
				}
			}
		}}
	f := library.Builtin().Feels[name]
	s.BPM = (f.TempoLow + f.TempoHigh) / 2
	after := groovetest.Section{Name: "b", Chords: "C", Energy: energy, Feel: name, Meter: m, BPM: s.BPM}
	tl := groovetest.Song(t, s, after)
	tl.Take = take
	groovetest.Join(tl)
	d := &Drummer{}
	d.Prepare(plan.New(tl, &tl.Passes[0], library.Builtin()))
	return d
}

// A fill begins on the count that the song says, and from there the time is silent but for the hat's
// pedal. Common practice, no single source.
func TestAskedFillBeginsWhereItIsWritten(t *testing.T) {
	eachDrumFeel(func(name string, energy int, m meter.Meter) {
		counts := m.Beats()
		counts = append(counts, counts[len(counts)-1]/2/m.UnitTicks()*m.UnitTicks())
		for take, from := range counts {
			d := fillingIn(t, name, energy, m, take+1, from)
			first := map[int]int64{}
			for _, n := range d.Play(nil).Notes {
				bar := d.BarAt(n.At)
				at := n.At - d.Pass.Bars[bar].Start
				late := d.Swung(n.At) >= d.Swung(d.Pass.Bars[bar].Start+from)
				switch {
				case n.Group != 0 && n.Voice.Limb() == feel.Hand && first[bar] == 0:
					first[bar] = at + 1
				case n.Group == 0 && n.At > 0 && late && n.Voice.Limb() != feel.LeftFoot:
					t.Errorf("%s in %s at %d, from %d: key %d goes on at %d", name, m, energy, from, n.Key, at)
				}
			}
			for bar := range d.Pass.Bars {
				start := d.Pass.Bars[bar].Start
				if d.Swung(start+first[bar]-1) != d.Swung(start+from) {
					t.Errorf("%s in %s at %d: the fill from %d begins at %d", name, m, energy, from, first[bar]-1)
				}
			}
		}
	})
}

// A break of four bars of fills is a solo: no two bars are alike, no bar rests for longer than a beat
// and a half, and at 5 it has more strokes than at 2. Common practice, no single source.
func TestDrumBreakIsASolo(t *testing.T) {
	strokes := map[string][6]int{}
	eachDrumFeel(func(name string, energy int, m meter.Meter) {
		for take := 1; take <= 4; take++ {
			d := fillingIn(t, name, energy, m, take, 0)
			var bars [4]string
			last := int64(0)
			for _, n := range d.Play(nil).Notes {
				if n.Group == 0 {
					continue
				}
				bar := d.BarAt(n.At)
				bars[bar] += fmt.Sprint(n.Key, "@", n.At-d.Pass.Bars[bar].Start, "!", n.Touch, " ")
				if 2*(n.At-last) > 3*m.PlayedBeat() {
					t.Errorf("%s in %s at %d, take %d: silent from %d to %d", name, m, energy, take, last, n.At)
				}
				last = n.At
				s := strokes[name+m.String()]
				s[energy]++
				strokes[name+m.String()] = s
			}
			seen := map[string]int{}
			for bar, s := range bars {
				if before, ok := seen[s]; ok {
					t.Errorf("%s in %s at %d, take %d: bars %d and %d are alike: %s", name, m, energy, take,
						before+1, bar+1, s)
				}
				seen[s] = bar
			}
			if end := d.Pass.Length - last; end > m.PlayedBeat() {
				t.Errorf("%s in %s at %d, take %d: the last stroke is %d ticks before the line", name, m, energy,
					take, end)
			}
		}
	})
	for name, s := range strokes {
		if s[2] > 0 && s[5] <= s[2] {
			t.Errorf("%s: %d strokes at 5, %d at 2", name, s[5], s[2])
		}
	}
}
