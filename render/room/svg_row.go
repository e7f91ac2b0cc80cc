package room

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// drawRow draws a row, from the back to the front.
func (s *sheet) drawRow(row *sheetRow) {
	s.octaveLines(row)
	right := s.x(row, row.end)
	s.windowSigns(row)
	for _, p := range playerRows {
		if p.pitched {
			s.playerBody(row, s.envelopes(row, p.who), p.style())
		}
	}
	s.stopLines(row)
	s.drawRect(10*plotLeft, row.y+10*headHeight, right, s.fieldBottom(row),
		`fill="none" stroke="#111" stroke-width="2"`)
	s.voiceLines(row)
	s.sectionNames(row)
	s.freeRangeSigns(row)
	s.windowWidths(row)
	s.hitStrip(row)
	s.energyProfile(row)
	s.barNumbers(row)
}

// octaveLines draws a dashed line at every C, with its name at the left.
func (s *sheet) octaveLines(row *sheetRow) {
	for key := (s.low + 11) / 12 * 12; key <= s.high; key += 12 {
		y := s.y(row, key)
		s.drawLine(10*plotLeft, y, s.x(row, row.end), y, `stroke="#999" stroke-width="1" stroke-dasharray="9 4 2 4"`)
		s.drawElements(pathElement(`fill="#111"`, "M%s %sh12l-6 8z", 10*(plotLeft-18), y-80))
		s.outlinedText(10*(plotLeft-22), y+20, 19, "end", "600", fmt.Sprintf("C%d", key/12-1))
	}
}

// playerBody draws the range of a player. Bars that follow each other become one shape:
// along their tops and back along their undersides.
func (s *sheet) playerBody(row *sheetRow, bars []envelope, style string) {
	for i := 0; i < len(bars); {
		j := i
		var d, back strings.Builder
		for ; j < len(bars) && (j == i || bars[j].start == bars[j-1].end); j++ {
			op := "V"
			if j == i {
				op = fmt.Sprintf("M%s ", units(s.x(row, bars[j].start)))
			}
			fmt.Fprintf(&d, "%s%sH%s", op, units(s.y(row, bars[j].high)-s.halfPitch()), units(s.x(row, bars[j].end)))
		}
		for k := j - 1; k >= i; k-- {
			fmt.Fprintf(&back, "V%sH%s", units(s.y(row, bars[k].low)+s.halfPitch()), units(s.x(row, bars[k].start)))
		}
		s.drawElements(pathElement(style+` stroke-linejoin="round"`, d.String()+back.String()+"z"))
		i = j
	}
}

// stopLines draws a dotted line where a stop begins.
func (s *sheet) stopLines(row *sheetRow) {
	for _, h := range s.r.Song.Hits {
		if h.Kind == timeline.Stop && h.Tick < row.end && h.End > row.start {
			x := s.x(row, h.Tick)
			s.drawLine(x, row.y+10*headHeight, x, s.fieldBottom(row),
				`stroke="#111" stroke-width="2" stroke-dasharray="2 4"`)
		}
	}
}

// voiceLines draws the line of each singer. Of several, each has dashes of its own and its name
// where it begins.
func (s *sheet) voiceLines(row *sheetRow) {
	for i, line := range s.r.lines {
		name := ""
		if len(s.r.lines) > 1 {
			name = s.r.tl.Vocals[i].Called()
		}
		s.voiceLine(row, line, ridgeStyle+ridgeDashes[i%len(ridgeDashes)], name)
	}
}

// voiceLine draws a voice as a line that is level on each note and breaks at rests, with a
// name at its beginning.
func (s *sheet) voiceLine(row *sheetRow, line []meant, style, name string) {
	var d strings.Builder
	last, drawn := int64(-1<<40), 0
	left, top := 0, 0 // of the first note
	for _, x := range line {
		a, b := max(x.tick, row.start), min(x.end, row.end)
		if b <= a || a > row.start && s.x(row, b) < drawn+3 { // too small to be seen
			continue
		}
		op := "L"
		if a-last >= meter.TicksPerQuarter/2 { // an eighth's rest parts the line
			op = "M"
		}
		y := s.y(row, x.key)
		if d.Len() == 0 {
			left, top = s.x(row, a), y
		}
		fmt.Fprintf(&d, "%s%s %sH%s", op, units(s.x(row, a)), units(y), units(max(s.x(row, a)+20, s.x(row, b))))
		last, drawn = b, s.x(row, b)
	}
	if d.Len() == 0 {
		return
	}
	const edge = `fill="none" stroke="#fff" stroke-width="8" stroke-linejoin="round" stroke-linecap="round"`
	s.drawElements(pathElement(edge, d.String()))
	s.drawElements(pathElement(style, d.String()))
	if name != "" {
		s.outlinedText(left, top-60, 19, "start", "700", cutText(name, 19, true, 10*160))
	}
}

// sectionNames draws a line at the start of each pass, with its number in a circle and its
// name.
func (s *sheet) sectionNames(row *sheetRow) {
	for i := range s.r.Passes {
		p := &s.r.Passes[i]
		if p.Start >= row.end || p.End <= row.start {
			continue
		}
		x, next := s.x(row, p.Start), s.x(row, p.End)
		top := row.y + 10*headHeight
		if p.Start >= row.start {
			s.drawLine(x, top-10*13, x, s.fieldBottom(row)+10*(hitHeight+powerHeight), `stroke="#111" stroke-width="2"`)
			s.drawElements(circleElement(x, top-10*28, "15", ` fill="#fff" stroke="#111" stroke-width="2"`))
			s.plainText(x, top-10*28+66, `font-size="19" text-anchor="middle" font-weight="700"`, strconv.Itoa(i+1))
		}
		name := p.Name
		if p.Start < row.start {
			name += ", on"
		}
		if t := cutText(name, 22, true, next-x-10*40); t != "" {
			s.outlinedText(x+10*21, top-10*20, 22, "start", "700", t)
		}
	}
}

// windowSign draws a window, as a wall opening is drawn on a plan.
func (s *sheet) windowSign(x1, x2, y1, y2 int) {
	s.drawRect(x1, y1, x2, y2, `fill="#ffe9a3"`)
	s.drawLine(x1, y1, x2, y1, `stroke="#111" stroke-width="1"`)
	s.drawLine(x1, y2, x2, y2, `stroke="#111" stroke-width="1"`)
	s.drawLine(x1, y1-20, x1, y2+20, `stroke="#111" stroke-width="4"`)
	s.drawLine(x2, y1-20, x2, y2+20, `stroke="#111" stroke-width="4"`)
}

// voiceField is where windows are drawn: in the singer's register over the song, or from
// C4 to C5 when no voice is known.
func (s *sheet) voiceField(row *sheetRow) (top, bottom int) {
	low, high := 60, 72
	if v := s.r.Song.Voice; v != nil {
		low, high = v.P5, v.P95
		high = max(high, low+9)
	}
	return s.y(row, min(high, s.high)) - s.halfPitch(), s.y(row, max(low, s.low)) + s.halfPitch()
}

// windowSigns draws the windows of a row.
func (s *sheet) windowSigns(row *sheetRow) {
	top, bottom := s.voiceField(row)
	for _, w := range s.windowsIn(row) {
		s.windowSign(s.x(row, w.Start)+15, s.x(row, w.End)-15, top, bottom)
	}
}

// windowWidths writes the length of each window in beats, with a dimension line where
// there is room.
func (s *sheet) windowWidths(row *sheetRow) {
	top, _ := s.voiceField(row)
	for _, w := range s.windowsIn(row) {
		x1, x2 := s.x(row, w.Start)+15, s.x(row, w.End)-15
		// A window that the row cuts is named with its whole length.
		all := s.r.Windows
		whole := all[sort.Search(len(all)-1, func(i int) bool { return all[i].End > w.Start })].Beats
		if whole < 2000 {
			continue
		}
		label := beatFigure(whole)
		if t := label + " beats"; x2-x1 > textWidth(t, 20, false)+10*24 {
			label = t
		}
		width, mid, y := textWidth(label, 20, false), (x1+x2)/2, top+10*26
		if x2-x1 < width+80 {
			y = top - 40
		}
		s.outlinedText(mid, y, 20, "middle", "700", label)
		if x2-x1 > width+10*24 {
			half := width/2 + 50
			s.drawLine(x1+50, y-60, mid-half, y-60, `stroke="#111" stroke-width="1.5"`)
			s.drawLine(mid+half, y-60, x2-50, y-60, `stroke="#111" stroke-width="1.5"`)
			s.drawElements(pathElement(`fill="#111"`, "M%s %sl9 -4v8z", x1+40, y-60),
				pathElement(`fill="#111"`, "M%s %sl-9 -4v8z", x2-40, y-60))
		}
	}
}

// heightSign draws a thin line with an arrow at each end: free height.
func (s *sheet) heightSign(x, y1, y2 int) {
	s.drawLine(x, y1, x, y2, `stroke="#111" stroke-width="1.5"`)
	s.drawElements(pathElement(`fill="#111"`, "M%s %sl-4 9h8z", x, y1),
		pathElement(`fill="#111"`, "M%s %sl-4 -9h8z", x, y2))
}

// freeRangeSigns draws the free ranges of each pass that is wide enough in the row: those
// above everything, and those between the parts from a fifth on. What is free under the
// lowest part is not shown.
func (s *sheet) freeRangeSigns(row *sheetRow) {
	for i := range s.r.Passes {
		p := &s.r.Passes[i]
		x1, x2 := s.x(row, p.Start), s.x(row, p.End)
		if x2-x1 < 10*44 || p.Start < row.start {
			continue
		}
		for _, f := range p.Free {
			if f.Low <= s.high-6 && f.Low > compassLow && (f.High > s.high || f.Semitones() >= 7) {
				s.freeRangeSign(row, p, f, x1+10*14, x2)
			}
		}
	}
}

// freeRangeSign draws one free range with its lowest and highest note.
func (s *sheet) freeRangeSign(row *sheetRow, p *Scope, f FreeRange, x, right int) {
	top, bottom := s.y(row, min(f.High, s.high))-s.halfPitch(), s.y(row, f.Low)+s.halfPitch()
	label, y := p.pitchRange(f.Low, f.High), (top+bottom)/2+10*7
	long := "free " + label
	if f.High > s.high { // open to the sky: named at its top, clear of the voice
		label = p.pitch(f.Low) + " up"
		long = "free from " + label
		top += 20
		y = top + 10*23
	}
	s.heightSign(x, top+10, bottom-10)
	for _, t := range []string{long, label} {
		if right-x > textWidth(t, 20, false)+10*22 {
			s.outlinedText(x+10*10, y, 20, "start", "400", t)
			return
		}
	}
}
