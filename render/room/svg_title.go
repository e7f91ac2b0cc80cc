package room

import (
	"fmt"
	"slices"

	"plinth/songspec/timeline"
)

// titleBlock draws the title, the song in figures, and the key to hatches and signs.
func (s *sheet) titleBlock() {
	r := s.r
	room := 10 * (sheetWidth - 40)
	if r.FileBar > 1 { // the sequencer counts the bars in front
		room -= 10 * 290
		s.outlinedText(10*(sheetWidth-plotRight), 10*44, 21, "end", "400",
			fmt.Sprintf("bar 1 is bar %d of the file", r.FileBar))
	}
	s.outlinedText(10*20, 10*46, 38, "start", "700", cutText(r.Title, 38, true, room))
	facts := fmt.Sprintf("%d bars · %s · %s", r.Bars, timeline.MinSec(r.Micros), r.voiceSource())
	s.outlinedText(10*20, 10*74, 21, "start", "400", cutText(facts, 21, false, 10*(sheetWidth-40)))
	x, y := 10*20, 10*96
	item := func(width int, name string, draw func(x, y int)) {
		draw(x, y)
		s.outlinedText(x+width+10*7, y+10*17, 20, "start", "400", name)
		x += width + 10*7 + textWidth(name, 20, false) + 10*14
	}
	item(400, "voice", func(x, y int) {
		s.drawElements(pathElement(ridgeStyle, "M%s %sh8l3 -6h8l3 -6h7l4 8h7", x, y+150))
	})
	for _, p := range playerRows {
		if p.pitched {
			item(400, p.who.String(), func(x, y int) { s.drawRect(x, y, x+400, y+220, p.style()) })
		}
	}
	item(400, "window: no voice", func(x, y int) { s.windowSign(x, x+400, y, y+220) })
	item(120, "free room", func(x, y int) { s.heightSign(x+60, y, y+220) })
	item(140, "accent", func(x, y int) { s.wedge(x+70, y+200, 2) })
	item(200, "push", func(x, y int) { s.backArrow(x+100, y+200) })
	item(280, "stop", func(x, y int) { s.drawRect(x, y+70, x+280, y+190, `fill="#111"`) })
	item(200, "hold", func(x, y int) { s.fermata(x+100, y+200) })
	if slices.ContainsFunc(s.r.Song.Hits, func(h Hit) bool { return h.Kind == timeline.Caesura }) {
		item(200, "caesura", func(x, y int) { s.tracks(x+160, y+200) })
	}
}
