package room

import (
	"fmt"

	"plinth/songspec/timeline"
)

// wedge is the sign of an accent, larger by its weight (1 to 3).
func (s *sheet) wedge(x, y, weight int) {
	h, w := 90+35*weight, 40+10*weight
	s.drawElements(pathElement(`fill="#111"`, "M%s %sl%s %sh%sz", x, y-h, w, h, -2*w))
}

// backArrow is the sign of a push.
func (s *sheet) backArrow(x, y int) {
	s.drawElements(
		pathElement(`fill="#fff" stroke="#111" stroke-width="2" stroke-linejoin="round"`,
			"M%s %sl10 -6v12z", x-60, y-80),
		pathElement(`stroke="#111" stroke-width="2"`, "M%s %sh9", x+40, y-80))
}

// fermata is the sign of a hold.
func (s *sheet) fermata(x, y int) {
	s.drawElements(
		pathElement(`fill="none" stroke="#111" stroke-width="2.5"`, "M%s %sa9 9 0 0 1 18 0", x-90, y-30),
		circleElement(x, y-50, "2.5", ""))
}

// flag is the sign of a cue.
func (s *sheet) flag(x, y int) {
	s.drawElements(pathElement(`fill="#fff" stroke="#111" stroke-width="2" stroke-linejoin="round"`,
		"M%s %sv-15h11l-4 4 4 4h-11", x, y))
}

// tracks are the sign of a caesura: two strokes.
func (s *sheet) tracks(x, y int) {
	for _, left := range [2]int{110, 50} {
		s.drawElements(pathElement(`stroke="#111" stroke-width="2.5"`, "M%s %sl7 -12", x-left, y-10))
	}
}

// hitSigns draw the kinds of hits on the strip, whose line lies at base.
var hitSigns = map[timeline.EventKind]func(s *sheet, row *sheetRow, h Hit, base int){
	timeline.Accent: func(s *sheet, row *sheetRow, h Hit, base int) {
		s.wedge(s.x(row, h.Tick), base, max(1, h.Weight))
	},
	timeline.Push: func(s *sheet, row *sheetRow, h Hit, base int) { s.backArrow(s.x(row, h.Tick), base) },
	timeline.Stop: func(s *sheet, row *sheetRow, h Hit, base int) {
		x := s.x(row, h.Tick)
		s.drawRect(x, base-130, max(s.x(row, h.End), x+40), base, `fill="#111"`)
	},
	timeline.Cue:  func(s *sheet, row *sheetRow, h Hit, base int) { s.flag(s.x(row, h.Tick), base) },
	timeline.Hold: func(s *sheet, row *sheetRow, h Hit, base int) { s.fermata(s.x(row, h.Tick), base) },
	timeline.Rit:  (*sheet).ritardando, timeline.Accel: (*sheet).ritardando,
	timeline.Caesura: func(s *sheet, row *sheetRow, h Hit, base int) { s.tracks(s.x(row, h.End), base) },
}

// hitStrip draws the strip of hits.
func (s *sheet) hitStrip(row *sheetRow) {
	base := s.fieldBottom(row) + 10*(hitHeight-8)
	s.rowLabel(10*(plotLeft-14), base-20, "hits")
	s.drawLine(10*plotLeft, base, s.x(row, row.end), base, `stroke="#111" stroke-width="1"`)
	for _, h := range s.r.Song.Hits {
		if h.Tick >= row.start && h.Tick < row.end {
			hitSigns[h.Kind](s, row, h, base)
		}
	}
}

// ritardando draws a rit or an accel: a dashed line under the strip, as long as the tempo
// changes, with the tempo that it reaches.
func (s *sheet) ritardando(row *sheetRow, h Hit, base int) {
	x1, x2, y := s.x(row, h.Tick), s.x(row, h.End), base+10*14
	s.drawLine(x1, y, x2, y, `stroke="#111" stroke-width="2" stroke-dasharray="6 4"`)
	at, anchor, t := x2+10*6, "start", fmt.Sprintf("to %s", h.To)
	if at+textWidth(t, 17, false) >= s.x(row, row.end) {
		at, anchor = x1-10*6, "end"
	}
	s.outlinedText(at, y+10*6, 17, anchor, "400", t)
}

// energyProfile draws the energy as steps with their figures, and the sign of the climax.
func (s *sheet) energyProfile(row *sheetRow) {
	base := s.fieldBottom(row) + 10*(hitHeight+powerHeight)
	unit := 10 * (powerHeight - 30) / 5
	s.rowLabel(10*(plotLeft-8), base-10*14, "energy")
	for i := range s.r.tl.Passes {
		p := &s.r.tl.Passes[i]
		was := -1
		for j := 0; j < len(p.Bars); {
			e, k := p.EnergyAt(j), j
			for k < len(p.Bars) && p.EnergyAt(k) == e {
				k++
			}
			a, b := p.Start+p.Bars[j].Start, p.Start+p.Bars[k-1].Start+p.Bars[k-1].Length
			j = k
			if b <= row.start || a >= row.end {
				continue
			}
			x1, x2 := s.x(row, a), s.x(row, b)
			s.drawRect(x1, base-e*unit, x2, base, `fill="url(#room-power)" stroke="#111" stroke-width="1.5"`)
			if e != was && x2-x1 > 10*16 {
				s.outlinedText(x1+10*8, base-10*6, 20, "start", "700", fmt.Sprint(e))
			}
			was = e
		}
	}
	s.drawLine(10*plotLeft, base, s.x(row, row.end), base, `stroke="#111" stroke-width="2"`)
	s.climaxSign(row, base-5*unit)
}

// climaxSign marks the climax: a triangle with a point in it, as a summit on a map.
func (s *sheet) climaxSign(row *sheetRow, y int) {
	c := s.r.Climax
	if c.Pass < 0 {
		return
	}
	p := &s.r.tl.Passes[c.Pass]
	i := c.Bar - p.FirstBar
	if i < 0 || i >= len(p.Bars) {
		return
	}
	at := p.Start + p.Bars[i].Start
	if at < row.start || at >= row.end {
		return
	}
	// The mark stands over the middle of its bar, its word inside the pass.
	x := (s.x(row, at) + s.x(row, at+p.Bars[i].Length)) / 2
	left, right := s.x(row, p.Start), s.x(row, p.Start+p.Length)
	x = min(max(x, left+10*14), max(right-10*14, left+10*14))
	y -= 10 * 23
	s.drawElements(
		pathElement(`fill="#fff" stroke="#111" stroke-width="2.5" stroke-linejoin="round"`,
			"M%s %sl11 19h-22z", x, y),
		circleElement(x, y+130, "2.5", ""))
	word, anchor := x+10*17, "start"
	if width := textWidth("climax", 20, false) + 10*17; x+width > right && x-width >= 10*plotLeft {
		word, anchor = x-10*17, "end"
	}
	s.outlinedText(word, y+10*18, 20, anchor, "700", "climax")
}

// barNumbers writes a number where a pass begins and at every fourth bar, and a tick at
// each bar.
func (s *sheet) barNumbers(row *sheetRow) {
	top := s.fieldBottom(row) + 10*(hitHeight+powerHeight)
	s.rowLabel(10*(plotLeft-8), top+10*22, "bar")
	free := 10 * plotLeft
	for i := range s.r.tl.Passes {
		p := &s.r.tl.Passes[i]
		for j := range p.Bars {
			at := p.Start + p.Bars[j].Start
			if at < row.start || at >= row.end {
				continue
			}
			x, t := s.x(row, at), fmt.Sprint(p.FirstBar+j)
			length, line, text := 10*5, `stroke="#111" stroke-width="1"`, `font-size="18" font-weight="400"`
			head := j == 0 || at == row.start
			if head {
				length, line, text = 10*9, `stroke="#111" stroke-width="2"`, `font-size="18" font-weight="700"`
			}
			s.drawLine(x, top, x, top+length, line)
			if (head || j%4 == 0) && x >= free {
				s.plainText(x, top+10*25, text, t)
				free = x + textWidth(t, 18, false) + 10*12
			}
		}
	}
}
