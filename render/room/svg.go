package room

import (
	"bytes"
	"fmt"
	"io"
	"sort"

	"plinth/songspec/timeline"
)

// The picture is drawn like the long section of a valley in a surveyor's set:
// the bass is the ground, the comp the mass built on it, the voice the ridge line
// over both, the windows openings with their width written in, and under the
// section runs the strip of figures that such drawings have. Everything is told
// apart by hatching, weight and shape; colour only repeats it (brown and blue,
// which every common colour blindness keeps apart).

// Measures of the sheet in SVG user units; the sheet is sheetWidth wide.
const (
	sheetWidth  = 1200
	plotLeft    = 84
	plotRight   = 20
	plotWidth   = sheetWidth - plotLeft - plotRight
	titleHeight = 128
	headHeight  = 46 // section bubbles over a row
	fieldHeight = 260
	hitHeight   = 34
	powerHeight = 80 // the energy profile
	scaleHeight = 30 // bar numbers
	rowGap      = 34
	rowHeight   = headHeight + fieldHeight + hitHeight + powerHeight + scaleHeight + rowGap
	rowBars     = 44 // bars of 4/4 that a row holds before another begins
	leastBars   = 14 // where passes are short
	maxRows     = 24
)

// sheet is a picture while it is drawn. Coordinates are kept in tenths of a unit,
// as integers.
type sheet struct {
	r    *Report
	b    bytes.Buffer
	rows []sheetRow
	span int64 // ticks that fill the width
	low  int   // lowest and highest MIDI note of the field
	high int
}

// sheetRow is one row: a stretch of the song.
type sheetRow struct {
	start, end int64
	y          int // top, in tenths
}

// SVG writes the picture. It refers to nothing outside itself.
func (r *Report) SVG(w io.Writer) error {
	s := &sheet{r: r}
	s.layOut()
	height := titleHeight + len(s.rows)*rowHeight
	s.printf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" role="img" aria-labelledby="room-t room-d" `+
		`font-family="'Gill Sans','Gill Sans MT','Lato','Carlito','DejaVu Sans',sans-serif" fill="#111">`+"\n",
		sheetWidth, height)
	s.printf(`<title id="room-t">%s</title><desc id="room-d">%s</desc>`+"\n", escape("The room in "+r.Title),
		escape(s.describe()))
	s.defs()
	s.printf(`<rect width="%d" height="%d" fill="#fff"/>`+"\n", sheetWidth, height)
	s.titleBlock()
	for i := range s.rows {
		s.row(&s.rows[i])
	}
	s.printf("</svg>\n")
	_, err := w.Write(s.b.Bytes())
	return err
}

func (s *sheet) printf(format string, args ...any) { fmt.Fprintf(&s.b, format, args...) }

// defs are the hatches.
func (s *sheet) defs() {
	s.printf(`<defs>
<pattern id="room-ground" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="7" height="7" fill="#f3e6d0"/><path d="M0 0V7" stroke="#6b3f00" stroke-width="4.6"/></pattern>
<pattern id="room-mass" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" fill="#eaf2f9"/><path d="M0 3H6" stroke="#2c6a9e" stroke-width="1.3"/></pattern>
<pattern id="room-power" width="5" height="5" patternUnits="userSpaceOnUse"><rect width="5" height="5" fill="#fff"/><circle cx="2.5" cy="2.5" r="1.25" fill="#111"/></pattern>
</defs>
`)
}

// describe is the picture in words, for who cannot see it.
func (s *sheet) describe() string {
	r := s.r
	d := fmt.Sprintf("%d bars in %d passes; %d windows without voice.", r.Bars, len(r.Passes), len(r.Windows))
	if r.Climax.Pass >= 0 {
		d += fmt.Sprintf(" The energy is highest in %s, bar %d.", r.Passes[r.Climax.Pass].Name, r.Climax.Bar)
	}
	return d
}

// layOut chooses the rows and the pitches of the field.
func (s *sheet) layOut() {
	r := s.r
	start, end := r.Song.Start, r.Song.End
	total := max(1, end-start)
	full := r.rowTicks()
	n := min(maxRows, int((total+full-1)/full))
	cuts := []int64{start}
	for k := 1; k < n; k++ {
		want := start + total*int64(k)/int64(n)
		if at := s.cutNear(want, total/int64(n)); at > cuts[len(cuts)-1] && at < end {
			cuts = append(cuts, at)
		}
	}
	cuts = append(cuts, max(end, start+1))
	for i := 0; i+1 < len(cuts); i++ {
		s.rows = append(s.rows, sheetRow{cuts[i], cuts[i+1], 10 * (titleHeight + i*rowHeight)})
		s.span = max(s.span, cuts[i+1]-cuts[i])
	}
	s.low, s.high = 127, 0
	see := func(low, high int) { s.low, s.high = min(s.low, low), max(s.high, high) }
	for _, who := range []timeline.Player{timeline.Bass, timeline.Piano} {
		for _, x := range r.meant[who] {
			see(int(x.key), int(x.key))
		}
	}
	if r.tl.Vocal != nil {
		for _, x := range r.tl.Vocal.Notes {
			see(int(x.Key), int(x.Key))
		}
	}
	if r.Song.Voice == nil && len(r.Windows) > 0 || s.low > s.high {
		see(48, 72) // windows stand there when no voice is known
	}
	// A little ground below, and an octave of sky above for what is free there.
	s.low, s.high = max(0, s.low-2), min(127, max(s.high+14, s.low+48))
}

// rowTicks is how much of the song a row may hold: rowBars bars of 4/4, and fewer,
// down to leastBars, where the passes are so short that their names would not fit.
func (r *Report) rowTicks() int64 {
	const bar = 4 * 960
	if len(r.Passes) == 0 {
		return rowBars * bar
	}
	lengths := make([]int64, len(r.Passes))
	for i := range r.Passes {
		lengths[i] = r.Passes[i].End - r.Passes[i].Start
	}
	sort.Slice(lengths, func(i, j int) bool { return lengths[i] < lengths[j] })
	return min(max(7*lengths[len(lengths)/2], leastBars*bar), rowBars*bar)
}

// cutNear is the start of a pass near a tick, or of a bar when no pass begins
// within a third of a row.
func (s *sheet) cutNear(want, row int64) int64 {
	best, gap := int64(-1), row/3
	for i := range s.r.Passes {
		if at := s.r.Passes[i].Start; abs64(at-want) <= gap {
			best, gap = at, abs64(at-want)
		}
	}
	if best >= 0 {
		return best
	}
	if i := s.r.tl.PassAt(want); i >= 0 {
		p := &s.r.tl.Passes[i]
		for j := range p.Bars {
			if at := p.Start + p.Bars[j].Start; at >= want {
				return at
			}
		}
		return p.Start + p.Length
	}
	return want
}

func abs64(n int64) int64 {
	if n < 0 {
		return -n
	}
	return n
}

// x is a tick's place in a row, in tenths.
func (s *sheet) x(row *sheetRow, tick int64) int {
	tick = min(max(tick, row.start), row.end)
	return 10*plotLeft + int((tick-row.start)*10*plotWidth/s.span)
}

// y is the middle of a pitch, edge the line between it and the one above.
func (s *sheet) y(row *sheetRow, key int) int {
	return row.y + 10*headHeight + (s.high-key)*10*fieldHeight/(s.high-s.low)
}

func (s *sheet) half() int { return 5 * fieldHeight / (s.high - s.low) }

func (s *sheet) bottom(row *sheetRow) int { return row.y + 10*(headHeight+fieldHeight) }

// n writes tenths.
func n(tenths int) string {
	sign := ""
	if tenths < 0 {
		sign, tenths = "-", -tenths
	}
	if tenths%10 == 0 {
		return fmt.Sprintf("%s%d", sign, tenths/10)
	}
	return fmt.Sprintf("%s%d.%d", sign, tenths/10, tenths%10)
}

// text writes a text with a paper-coloured edge, so that it reads on hatching.
func (s *sheet) text(x, y, size int, anchor, weight, t string) {
	s.printf(`<text x="%s" y="%s" font-size="%d" text-anchor="%s" font-weight="%s" stroke="#fff" stroke-width="5" `+
		`stroke-linejoin="round" paint-order="stroke">%s</text>`+"\n",
		n(x), n(y), size, anchor, weight, escape(t))
}

func (s *sheet) line(x1, y1, x2, y2 int, style string) {
	s.printf(`<path d="M%s %sL%s %s" %s/>`+"\n", n(x1), n(y1), n(x2), n(y2), style)
}

func (s *sheet) rect(x1, y1, x2, y2 int, style string) {
	s.printf(`<rect x="%s" y="%s" width="%s" height="%s" %s/>`+"\n", n(x1), n(y1), n(max(0, x2-x1)), n(max(0, y2-y1)),
		style)
}

// titleBlock is the title with the key to the hatches.
func (s *sheet) titleBlock() {
	r := s.r
	room := 10 * (sheetWidth - 40)
	if r.FileBar > 1 { // the sequencer counts the bars in front
		room -= 10 * 290
		s.text(10*(sheetWidth-plotRight), 10*44, 21, "end", "400",
			fmt.Sprintf("bar 1 is bar %d of the file", r.FileBar))
	}
	s.text(10*20, 10*46, 38, "start", "700", cutText(r.Title, 38, true, room))
	s.text(10*20, 10*74, 21, "start", "400", cutText(fmt.Sprintf("%d bars · %s · %s", r.Bars, timeline.MinSec(r.Micros),
		r.voiceWords()), 21, false, 10*(sheetWidth-40)))
	x, y := 10*20, 10*96
	item := func(width int, name string, draw func(x, y int)) {
		draw(x, y)
		s.text(x+width+10*7, y+10*17, 20, "start", "400", name)
		x += width + 10*7 + wide(name, 20) + 10*14
	}
	item(400, "voice", func(x, y int) {
		s.printf(`<path d="M%s %sh8l3 -6h8l3 -6h7l4 8h7" fill="none" stroke="#111" stroke-width="4.5" `+
			`stroke-linejoin="round" stroke-linecap="round"/>`+"\n", n(x), n(y+150))
	})
	item(400, "piano", func(x, y int) {
		s.rect(x, y, x+400, y+220, `fill="url(#room-mass)" stroke="#2c6a9e" stroke-width="1.5"`)
	})
	item(400, "bass", func(x, y int) {
		s.rect(x, y, x+400, y+220, `fill="url(#room-ground)" stroke="#4a2b00" stroke-width="2"`)
	})
	item(400, "window: no voice", func(x, y int) { s.opening(x, x+400, y, y+220) })
	item(120, "free room", func(x, y int) { s.upright(x+60, y, y+220) })
	item(140, "accent", func(x, y int) { s.mark(timeline.Accent, x+70, y+200, 2) })
	item(200, "push", func(x, y int) { s.mark(timeline.Push, x+100, y+200, 2) })
	item(280, "stop", func(x, y int) { s.rect(x, y+70, x+280, y+190, `fill="#111"`) })
	item(200, "hold", func(x, y int) { s.mark(timeline.Hold, x+100, y+200, 2) })
}
