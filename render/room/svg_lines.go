package room

import (
	"plinth/songspec/guide"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// envelope is the range that a player uses in one bar, in MIDI notes: that of the notes
// that begin there or, if none does, of those that ring into it.
type envelope struct {
	start, end int64
	low, high  int
}

// envelopes returns the envelopes of a player in a row, by bar. Bars in which he is silent
// have none.
func (s *sheet) envelopes(row *sheetRow, who timeline.Player) []envelope {
	var out []envelope
	for i := range s.r.tl.Passes {
		p := &s.r.tl.Passes[i]
		for j := range p.Bars {
			a := p.Start + p.Bars[j].Start
			b := a + p.Bars[j].Length
			if a < row.start || a >= row.end {
				continue
			}
			e := envelope{a, b, 127, 0}
			use := func(x meant) { e.low, e.high = min(e.low, x.key), max(e.high, x.key) }
			// A pushed note belongs to the bar that it is meant for.
			for _, x := range beginningIn(s.r.meant[who], a-pushReach, b) {
				if x.bar == p.FirstBar+j {
					use(x)
				}
			}
			if e.low > e.high {
				for _, x := range ringingInto(s.r.meant[who], a, b) {
					use(x)
				}
			}
			if e.low <= e.high {
				out = append(out, s.cutAtSilences(i, who, e)...)
			}
		}
	}
	return out
}

// cutAtSilences cuts a player's silences out of an envelope of a pass.
func (s *sheet) cutAtSilences(pass int, who timeline.Player, e envelope) []envelope {
	var out []envelope
	start := s.r.tl.Passes[pass].Start
	for _, q := range s.r.cues[pass].Silences(who) {
		from, to := start+q.Start, start+q.End
		if from >= e.end || to <= e.start {
			continue
		}
		if from > e.start {
			out = append(out, envelope{e.start, from, e.low, e.high})
		}
		e.start = to
		if e.start >= e.end {
			return out
		}
	}
	return append(out, e)
}

// pushReach is more than a push comes before its bar, in ticks.
const pushReach = 4 * meter.TicksPerQuarter

// ringingInto returns those of the last 16 notes before a bar from a to b that sound
// through half of it: a chord tied over from a push, a whole note of the bass.
func ringingInto(notes []meant, a, b int64) []meant {
	before := beginningIn(notes, -1<<40, a)
	var out []meant
	for i := len(before) - 1; i >= 0 && i >= len(before)-16; i-- {
		if before[i].end >= (a+b)/2 {
			out = append(out, before[i])
		}
	}
	return out
}

// windowsIn returns the windows of a row. Of a window that the row cuts, a piece under a
// beat is left out.
func (s *sheet) windowsIn(row *sheetRow) []guide.Window {
	var out []guide.Window
	for _, w := range guide.Within(s.r.tl, s.r.clock, s.r.Windows, row.start, row.end) {
		cut := w.Start == row.start && row.start > s.r.Song.Start || w.End == row.end && row.end < s.r.Song.End
		if !cut || w.Beats >= 1000 {
			out = append(out, w)
		}
	}
	return out
}
