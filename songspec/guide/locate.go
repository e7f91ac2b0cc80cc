package guide

import (
	"fmt"
	"slices"
	"sort"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// Position is a place in the song as a musician names it.
type Position struct {
	Tick  int64
	Pass  int    // index of the pass; -1 before the first
	Bar   int    // number of the bar in the song, from 1; the bars in front of it are 0, -1, …
	Count string // the nearest spoken count

	pass *timeline.Pass // nil before the first
}

// String is "bar 12 count 3".
func (p Position) String() string { return fmt.Sprintf("bar %d count %s", p.Bar, p.Count) }

// Words is the position in a message, with its bar in the section: `bar 12 count 3, bar 4 of "verse" (2)`.
func (p Position) Words() string {
	if p.pass == nil {
		return p.String()
	}
	return p.pass.BarWords(p.Bar-p.pass.FirstBar, " count "+p.Count)
}

// At is the position of an absolute tick. A note that is a little early or late gets the
// count that is meant: the nearest quarter of the meter's unit, or the nearest third where
// triplets are sung.
func At(tl *timeline.Timeline, tick int64) Position {
	out := Position{Tick: tick, Pass: -1, Count: "1"}
	sung := divisionSung(tl, tick)
	i := tl.PassAt(tick)
	if i < 0 {
		first := &tl.Passes[0]
		m := first.Bars[0].Meter
		length := m.BarTicks()
		bars := (first.Start - tick + length - 1) / length
		rel := nearCount(tick-first.Start+bars*length, m.UnitTicks(), sung)
		if rel == length {
			bars, rel = bars-1, 0
		}
		out.Bar, out.Count = 1-int(bars), m.CountAt(rel)
		return out
	}
	p := &tl.Passes[i]
	bar := p.BarAt(tick - p.Start)
	b := &p.Bars[bar]
	rel := nearCount(tick-p.Start-b.Start, b.Meter.UnitTicks(), sung)
	out.Pass, out.Bar, out.pass = i, p.FirstBar+bar, p
	switch {
	case rel < b.Length:
		out.Count = b.Meter.CountAt(rel)
		return out
	case bar+1 == len(p.Bars) && i+1 < len(tl.Passes):
		out.Pass++
		out.pass = &tl.Passes[out.Pass]
	case bar+1 == len(p.Bars):
		out.pass = nil // the end
	}
	out.Bar++ // rounded up onto the next bar line
	return out
}

// division is how the singer divides the beat.
type division int

const (
	unknown  division = iota // no sung note tells
	straight                 // in halves and quarters
	thirds
)

// nearCount is the spoken count nearest to rel, both in ticks from the bar line. If the
// division is not known, it is a third only where that is clearly nearer.
func nearCount(rel, unit int64, sung division) int64 {
	quarter, third := unit/4, unit/3
	q := (rel + quarter/2) / quarter * quarter
	t := (rel + third/2) / third * third
	switch sung {
	case straight:
		return q
	case thirds:
		return t
	}
	if d := dist(rel, t); d < dist(rel, q) && d <= unit/24 {
		return t
	}
	return q
}

// How many notes to either side tell how the singer divides the beat, and how far away they
// may be, in the meter's units.
const (
	aroundNotes = 32
	aroundUnits = 8
)

// divisionSung is how the notes near a tick divide the beat, judged by those that begin off
// it. So the end of a note in straight time is not named as a triplet, nor one among
// triplets as a sixteenth. Without sung notes only places of the song file are named, which
// may be either.
func divisionSung(tl *timeline.Timeline, tick int64) division {
	p := passNear(tl, tick)
	unit := p.Bars[p.BarAt(tick-p.Start)].Meter.UnitTicks()
	sung, inThirds, inQuarters := 0, 0, 0
	for i := range tl.Vocals {
		notes := tl.Vocals[i].Notes
		sung += len(notes)
		here := sort.Search(len(notes), func(k int) bool { return notes[k].Tick >= tick })
		for k := max(0, here-aroundNotes); k < min(len(notes), here+aroundNotes); k++ {
			at := notes[k].Tick
			if dist(at, tick) > aroundUnits*unit {
				continue
			}
			rel := ((at-p.Start)%unit + unit) % unit
			if min(rel, unit-rel) < unit/12 {
				continue // on the beat: says nothing
			}
			third := min(dist(rel, unit/3), dist(rel, 2*unit/3))
			quarter := min(dist(rel, unit/4), dist(rel, unit/2), dist(rel, 3*unit/4))
			if third < quarter {
				inThirds++
			} else {
				inQuarters++
			}
		}
	}
	switch {
	case sung == 0:
		return unknown
	case inThirds > inQuarters:
		return thirds
	}
	return straight
}

func dist(a, b int64) int64 { return max(a-b, b-a) }

// passNear is the pass at an absolute tick, the first one for a tick before it.
func passNear(tl *timeline.Timeline, tick int64) *timeline.Pass {
	return &tl.Passes[max(0, tl.PassAt(tick))]
}

// BarStart is the absolute tick at which a bar of the song begins: bars are counted from 1,
// those in front are 0, -1, and so on. ok is false when the song has no such bar.
func BarStart(tl *timeline.Timeline, bar int) (tick int64, ok bool) {
	if bar < 1 {
		first := &tl.Passes[0]
		tick = first.Start - int64(1-bar)*first.Bars[0].Meter.BarTicks()
		return tick, tick >= 0
	}
	for i := range tl.Passes {
		p := &tl.Passes[i]
		if n := bar - p.FirstBar; n < len(p.Bars) {
			return p.Start + p.Bars[n].Start, true
		}
	}
	return 0, false
}

// PitchName is a MIDI note number, 0 to 127, as a name with its octave: "Ab5"; C4 is 60. It is
// spelled in the key, but a white key outside the scale keeps its plain letter: E in Eb
// major, not Fb.
func PitchName(key int, in harmony.Key) string {
	n, scale := in.Spell(key%12), in.Scale()
	if n.Alter != 0 && !slices.Contains(scale[:], n) {
		for step := range int8(7) {
			if w := (harmony.Name{Step: step}); w.PC() == key%12 {
				n = w
			}
		}
	}
	return fmt.Sprintf("%s%d", n, (key-n.MIDI(0))/12)
}
