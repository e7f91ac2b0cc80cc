package page

import (
	"strconv"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
)

// bar writes a bar of a stretch.
func (w *writer) bar(b []byte, s *stretch, i int, at func(int64) int64) []byte {
	start, end := s.bars[i].Tick, s.bars[0].Tick
	m, energy, inside := w.tl.Meters[0].Meter, 0, i+1
	var chords []timeline.Span
	text := ""
	if s.pass == nil {
		end = start + w.tl.Lead/int64(len(s.bars))
	} else {
		p := &s.pass.Bars[i]
		end += p.Start + p.Length
		m, energy, inside = p.Meter, s.pass.EnergyAt(i), s.pass.NumberOf(i)
		chords, text = outline.ChordsIn(s.pass, p), strings.Join(strings.Fields(p.Text), " ")
	}
	b = field(b, `{"at":`, at(start))
	b = field(b, `,"length":`, at(end)-at(start))
	b = field(b, `,"tick":`, start-s.bars[0].Tick)
	b = field(b, `,"ticks":`, end-start)
	b = field(b, `,"inside":`, int64(inside))
	b = field(b, `,"energy":`, int64(energy))
	b = append(b, `,"beats":[`...)
	for j, beat := range m.Beats() {
		if beat < end-start {
			b = strconv.AppendInt(separate(b, j), at(start+beat), 10)
		}
	}
	b = appendText(append(b, `],"meter":`...), m.String())
	b = append(b, `,"chords":[`...)
	for j, c := range chords {
		name, from := c.Chord.String(), s.bars[0].Tick+c.Start
		if from < start {
			name, from = "/", start
		}
		b = field(separate(b, j), `{"at":`, at(from))
		b = append(appendText(append(b, `,"text":`...), name), '}')
	}
	b = appendText(append(b, `],"text":`...), text)
	return append(b, '}')
}

// events writes the events of a pass as they are played.
func events(b []byte, p *timeline.Pass, start int64, at func(int64) int64) []byte {
	for i, played := range cue.Events(p) {
		e := &p.Events[i]
		tick := e.Tick
		if played.Acts && played.Moved != 0 && played.Moved == played.By {
			tick = played.At
		}
		b = field(separate(b, i), `{"bar":`, int64(e.Bar))
		b = field(b, `,"at":`, at(start+tick))
		b = field(b, `,"end":`, at(start+max(tick, e.End)))
		b = appendText(append(b, `,"kind":`...), e.Kind.String())
		b = appendText(append(b, `,"text":`...), outline.Describe(e, played, p, &p.Bars[e.Bar]))
		if e.Text != "" {
			b = appendText(append(b, `,"cue":`...), e.Text)
		}
		b = append(b, `,"by":[`...)
		for j, who := range played.By.Names() {
			b = appendText(separate(b, j), who)
		}
		b = strconv.AppendBool(append(b, `],"acts":`...), played.Acts)
		b = append(b, '}')
	}
	return b
}
