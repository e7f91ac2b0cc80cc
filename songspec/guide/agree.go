package guide

import (
	"fmt"
	"sort"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// disagreements compares the file's tempo and meter with the song's in every bar of the
// voice. The voice is placed by beats, so neither moves a note. A file without tempo or
// meter is not compared, nor is the tempo of a guide that leads.
func (l *layout) disagreements() (out problems) {
	var tempo, meters, again string
	notes := l.v.Notes
	if len(notes) == 0 {
		return nil
	}
	last := notes[len(notes)-1]
	end := last.Tick + last.Length
	for i := range l.tl.Passes {
		p := &l.tl.Passes[i]
		for j := range p.Bars {
			b := &p.Bars[j]
			at := p.Start + b.Start
			if at < l.at || at >= end {
				continue
			}
			m := inForce(l.file.Meters, at, func(m Meter) int64 { return l.tick(m.Tick) })
			if m.Num > 0 && disagree(m, b.Meter) {
				if meters == "" {
					meters = fmt.Sprintf("%d/%d in the guide, %s in the song, in %s", m.Num, m.Den, b.Meter,
						p.BarWords(j, ""))
				} else {
					again = " and again later"
				}
			}
			if tempo != "" || l.v.Leads || moving(p, j) {
				continue
			}
			file := inForce(l.file.Tempos, at, func(t Tempo) int64 { return l.tick(t.Tick) }).Micros
			song := inForce(l.tl.Tempos, at, func(t timeline.Tempo) int64 { return t.Tick }).Micros
			// By more than 2%: rounding a tempo to whole beats differs less.
			if file > 0 && song > 0 && dist(file, song)*50 > song {
				tempo = fmt.Sprintf("%s beats a minute in the guide, %s in the song, in %s",
					bpm(file, b.Meter), bpm(song, b.Meter), p.BarWords(j, ""))
			}
		}
	}
	if meters != "" {
		out.add("from", "The guide's meter is not the song's",
			"It is %s%s. The voice is placed by beats, so check that its bar lines meet the song's.", meters, again)
	}
	if tempo != "" && !l.v.Rough {
		out.add("", "The guide's tempo is not the song's",
			"It is %s. The voice is placed by beats and follows the song's tempo.", tempo)
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

// inForce is the last of row, which is in order of time, that begins no later than a tick; the
// zero value if none does.
func inForce[T any](row []T, at int64, startOf func(T) int64) (last T) {
	if i := sort.Search(len(row), func(i int) bool { return startOf(row[i]) > at }); i > 0 {
		last = row[i-1]
	}
	return last
}

// moving reports whether a rit, a hold or a caesura moves the song's tempo in a bar.
func moving(p *timeline.Pass, bar int) bool {
	b := &p.Bars[bar]
	for _, e := range p.Events {
		moves := e.Kind.MovesTempo() || e.Kind == timeline.Hold || e.Kind == timeline.Caesura
		if moves && e.Tick < b.Start+b.Length && e.End > b.Start {
			return true
		}
	}
	return false
}

// bpm is a tempo in beats a minute of the meter's beat, with at most one decimal.
func bpm(micros int64, m meter.Meter) string {
	beat := micros * m.TempoTicks() / meter.TicksPerQuarter
	return wording.Thousandths((600_000_000 + beat/2) / beat * 100)
}
