package guide

import (
	"fmt"
	"sort"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// disagreements compares the file's tempo and meter with the song's in every bar of the
// voice. The voice is placed by beats, so neither moves a note. A file without tempo or
// meter is not compared.
func (l *layout) disagreements() []Problem {
	var tempo, meters []string
	notes := l.tl.Vocal.Notes
	if len(notes) == 0 {
		return nil
	}
	last := notes[len(notes)-1]
	end := last.Tick + last.Length
	tempoBar, meterBar := 0, 0
	for i := range l.tl.Passes {
		p := &l.tl.Passes[i]
		for j := range p.Bars {
			b := &p.Bars[j]
			at := p.Start + b.Start
			if at < l.at || at >= end {
				continue
			}
			number := p.FirstBar + j
			if m, ok := l.meterAt(at); ok && disagree(m, b.Meter) {
				if meterBar == 0 {
					meterBar = number
					meters = append(meters, fmt.Sprintf("%d/%d in the guide, %s in the song, at bar %d", m.Num, m.Den,
						b.Meter, number))
				} else if len(meters) == 1 {
					meters = append(meters, "and again later")
				}
			}
			if moving(p, j) {
				continue
			}
			file, ok := l.microsAt(at)
			song := songMicros(l.tl, at)
			// By more than 2%: rounding a tempo to whole beats differs less.
			if ok && song > 0 && dist(file, song)*50 > song && tempoBar == 0 {
				tempoBar = number
				tempo = append(tempo, fmt.Sprintf("%s beats a minute in the guide, %s in the song, at bar %d",
					bpm(file, b.Meter), bpm(song, b.Meter), number))
			}
		}
	}
	var out []Problem
	if len(meters) > 0 {
		out = append(out, Problem{Attr: "from", Summary: "The guide's meter is not the song's",
			Detail: fmt.Sprintf("It is %s. The voice is placed by beats, "+
				"so check that its bar lines meet the song's.", strings.Join(meters, " "))})
	}
	if len(tempo) > 0 {
		out = append(out, Problem{Summary: "The guide's tempo is not the song's",
			Detail: fmt.Sprintf("It is %s. The voice is placed by beats and follows the song's tempo.", tempo[0])})
	}
	return out
}

// disagree reports whether two meters differ in the length of the bar or in how it is
// counted. 2/2 and 4/4 agree: they are the same bar in other note values.
func disagree(m Meter, song meter.Meter) bool {
	a := meter.Meter{Num: m.Num, Den: m.Den}
	return int64(m.Num)*int64(song.Den) != int64(song.Num)*int64(m.Den) ||
		a.Compound() != song.Compound() && song.Groups == ""
}

// meterAt is the file's meter at an absolute tick of the song.
func (l *layout) meterAt(at int64) (Meter, bool) {
	m := l.file.Meters
	i := sort.Search(len(m), func(i int) bool { return l.tick(m[i].Tick) > at })
	if i == 0 {
		return Meter{}, false
	}
	return m[i-1], true
}

// microsAt is the file's tempo at an absolute tick of the song.
func (l *layout) microsAt(at int64) (int64, bool) {
	t := l.file.Tempos
	i := sort.Search(len(t), func(i int) bool { return l.tick(t[i].Tick) > at })
	if i == 0 {
		return 0, false
	}
	return t[i-1].Micros, true
}

func songMicros(tl *timeline.Timeline, at int64) int64 {
	i := sort.Search(len(tl.Tempos), func(i int) bool { return tl.Tempos[i].Tick > at })
	if i == 0 {
		return 0
	}
	return tl.Tempos[i-1].Micros
}

// moving reports whether a rit or a hold moves the song's tempo in a bar.
func moving(p *timeline.Pass, bar int) bool {
	b := &p.Bars[bar]
	for _, e := range p.Events {
		if (e.Kind == timeline.Rit || e.Kind == timeline.Hold) && e.Tick < b.Start+b.Length && e.End > b.Start {
			return true
		}
	}
	return false
}

// bpm is a tempo in beats a minute of the meter's beat, with at most one decimal.
func bpm(micros int64, m meter.Meter) string {
	beat := micros * m.TempoTicks() / meter.TicksPerQuarter
	tenths := (600_000_000 + beat/2) / beat
	if tenths%10 == 0 {
		return fmt.Sprintf("%d", tenths/10)
	}
	return fmt.Sprintf("%d.%d", tenths/10, tenths%10)
}

// sentence is an error's text with a full stop.
func sentence(s string) string { return strings.TrimRight(s, ".") + "." }

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func quoted(names []string) string {
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(q, ", ")
}
