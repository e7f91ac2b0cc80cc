package timeline

import (
	"fmt"
	"slices"

	"plinth/songspec/meter"
	"plinth/songspec/timecode"
)

// Picture is the picture that a song is for: how its frames are counted, and the frame of bar 1
// count 1.
type Picture struct {
	Count timecode.Count
	Start timecode.Frame
}

// Code is the time code of the frame that is nearest to a time from bar 1 count 1.
func (p *Picture) Code(micros int64) string { return p.Count.Code(p.Count.At(p.Start, micros)) }

// Landing is a place that comes at a time that the song file says.
type Landing struct {
	Tick   int64 // absolute
	Micros int64 // from bar 1 count 1
	What   string
	Change int64 // of the tempo up to it from the landing before, in hundredths of a per cent
}

// MinSecTenths writes microseconds as minutes and seconds with one decimal, to the nearest: "3:07.4".
func MinSecTenths(micros int64) string {
	s := (micros + 50_000) / 100_000
	return fmt.Sprintf("%d:%02d.%d", s/600, s/10%60, s%10)
}

// Played is the tempo, to a tenth, that is played from an absolute tick where pace is written: another
// one where the song has to be at a place in time. What a rit makes of it does not count.
func (t *Timeline) Played(pace Pace, tick int64) meter.BPM {
	for _, l := range t.Landings {
		if tick < l.Tick && !pace.Guided {
			if l.Change == 0 {
				break
			}
			return (pace.BPM*meter.BPM(10000+l.Change)/10000 + 50) / 100 * 100
		}
	}
	return pace.BPM
}

// TempoWords are a tempo in words, and how it is written where it is played otherwise: "129.6, written 132".
func (t *Timeline) TempoWords(pace Pace, tick int64) string {
	if played := t.Played(pace, tick); played != pace.BPM {
		return played.String() + ", written " + pace.BPM.String()
	}
	return pace.String()
}

// PlayedInside is Inside with the tempos as they are played, and with those that change where a place
// inside the pass has its time.
func (t *Timeline) PlayedInside(p *Pass) []BarChange {
	out := t.Inside(p)
	for i, c := range out {
		if b := &p.Bars[c.Bar]; c.What == "tempo" {
			out[i].Is = t.TempoWords(*b.Pace, p.Start+b.Start)
		}
	}
	for _, l := range t.Landings {
		if l.Tick <= p.Start || l.Tick >= p.Start+p.Length {
			continue
		}
		bar := p.BarAt(l.Tick - p.Start)
		b, pace := &p.Bars[bar], Pace{BPM: p.BPMAt(bar)}
		at := l.Tick - p.Start - b.Start
		if at == 0 && b.Pace != nil || t.Played(pace, l.Tick-1) == t.Played(pace, l.Tick) {
			continue
		}
		c := BarChange{Bar: bar, What: "tempo", Is: t.TempoWords(pace, l.Tick)}
		if at > 0 {
			c.Count = b.Meter.CountAt(at)
		}
		i := slices.IndexFunc(out, func(o BarChange) bool {
			return o.Bar > bar || at == 0 && o.Bar == bar && o.What != "energy"
		})
		if i < 0 {
			i = len(out)
		}
		out = slices.Insert(out, i, c)
	}
	return out
}
