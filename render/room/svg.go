package room

import (
	"bytes"
	"fmt"
	"io"
	"slices"

	"plinth/songspec/meter"
)

// The picture is like the long section of a valley in a surveyor's drawings: the bass is
// the ground, the comp the mass on it, the voice the ridge line over both, and a window an
// opening with its width written in it. Strips of figures run under the section. Hatch,
// weight and shape tell everything apart; colour only repeats them (brown and blue, which
// the common kinds of colour blindness keep apart).

// Measures of the sheet in SVG units.
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
	leastBars   = 12 // where passes are short
	maxRows     = 24
)

// sheet is a picture while it is drawn. All coordinates are integers in tenths of an SVG
// unit.
type sheet struct {
	r    *Report
	b    bytes.Buffer
	rows []sheetRow
	span int64 // ticks that fill the width
	low  int   // lowest and highest MIDI note of the field
	high int
}

// sheetRow is one row of the picture: a stretch of the song between two absolute ticks.
type sheetRow struct {
	start, end int64
	y          int // top, in tenths
}

// SVG writes the picture. It loads nothing from outside. The error is that of w.
func (r *Report) SVG(w io.Writer) error {
	_, err := io.WriteString(w, r.picture())
	return err
}

// picture is the picture as a file, described in words for readers who cannot see it.
func (r *Report) picture() string {
	s := &sheet{r: r}
	s.layOutRows()
	height := titleHeight + len(s.rows)*rowHeight
	s.printf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" role="img" aria-labelledby="room-t room-d" `+
		`font-family="'Gill Sans','Gill Sans MT','Lato','Carlito','DejaVu Sans',sans-serif" fill="#111">`+"\n",
		sheetWidth, height)
	described := fmt.Sprintf("%d bars in %d passes; %d windows without voice.", r.Bars, len(r.Passes), len(r.Windows))
	if r.Climax.Pass >= 0 {
		described += fmt.Sprintf(" The energy is highest in %s, bar %d.", r.Passes[r.Climax.Pass].Name, r.Climax.Bar)
	}
	s.printf(`<title id="room-t">%s</title><desc id="room-d">%s</desc>`+"\n", escape("The room in "+r.Title),
		escape(described))
	s.hatchDefs()
	s.printf(`<rect width="%d" height="%d" fill="#fff"/>`+"\n", sheetWidth, height)
	s.titleBlock()
	for i := range s.rows {
		s.drawRow(&s.rows[i])
	}
	s.printf("</svg>\n")
	return s.b.String()
}

// hatchDefs defines the hatches: the players' from the lowest up, then that of the energy.
func (s *sheet) hatchDefs() {
	var hatches []hatch
	for _, p := range playerRows {
		if p.pitched {
			hatches = append(hatches, p.hatch)
		}
	}
	slices.Reverse(hatches)
	s.printf("<defs>\n")
	for _, h := range append(hatches, energyHatch) {
		s.printf(`<pattern id="%s" %s>%s</pattern>`+"\n", h.id, h.size, h.tile)
	}
	s.printf("</defs>\n")
}

// layOutRows chooses the rows and the range of pitch.
func (s *sheet) layOutRows() {
	r := s.r
	start, end := r.Song.Start, r.Song.End
	total := max(1, end-start)
	full := r.rowTicks()
	n := min(maxRows, int((total+full-1)/full))
	cuts := []int64{start}
	for k := 1; k < n; k++ {
		want := start + total*int64(k)/int64(n)
		if at := s.rowBreakNear(want, total/int64(n)); at > cuts[len(cuts)-1] && at < end {
			cuts = append(cuts, at)
		}
	}
	cuts = append(cuts, max(end, start+1))
	for i := 0; i+1 < len(cuts); i++ {
		s.rows = append(s.rows, sheetRow{cuts[i], cuts[i+1], 10 * (titleHeight + i*rowHeight)})
		s.span = max(s.span, cuts[i+1]-cuts[i])
	}
	s.low, s.high = r.Field()
}

// Field is the lowest and the highest MIDI note of a picture of the song: there is a little room under
// the lowest that is heard, and an octave above the highest for what is free there.
func (r *Report) Field() (low, high int) {
	low, high = 127, 0
	see := func(notes []meant) {
		for _, n := range notes {
			low, high = min(low, n.key), max(high, n.key)
		}
	}
	see(r.sung)
	for _, p := range playerRows {
		if p.pitched {
			see(r.meant[p.who])
		}
	}
	if r.Song.Voice == nil && len(r.Windows) > 0 || low > high {
		low, high = min(low, 48), max(high, 72) // windows stand there when no voice is known
	}
	return max(0, low-2), min(127, max(high+14, low+48))
}

// rowTicks is how many ticks a row may hold: rowBars bars of 4/4, and fewer, down to
// leastBars, where passes are so short that their names would not fit.
func (r *Report) rowTicks() int64 {
	const bar = 4 * meter.TicksPerQuarter
	if len(r.Passes) == 0 {
		return rowBars * bar
	}
	lengths := make([]int64, len(r.Passes))
	for i := range r.Passes {
		lengths[i] = r.Passes[i].End - r.Passes[i].Start
	}
	slices.Sort(lengths)
	return min(max(6*lengths[len(lengths)/2], leastBars*bar), rowBars*bar)
}

// rowBreakNear is the start of the pass nearest to a tick, or of the next bar when no pass
// begins within a third of a row.
func (s *sheet) rowBreakNear(want, row int64) int64 {
	best, gap := int64(-1), row/3
	for i := range s.r.Passes {
		if at := s.r.Passes[i].Start; max(at-want, want-at) <= gap {
			best, gap = at, max(at-want, want-at)
		}
	}
	if best >= 0 {
		return best
	}
	for i := range s.r.tl.Passes {
		p := &s.r.tl.Passes[i]
		for j := range p.Bars {
			if at := p.Start + p.Bars[j].Start; at >= want {
				return at
			}
		}
	}
	return s.r.Song.End
}

// x is where a tick lies in a row.
func (s *sheet) x(row *sheetRow, tick int64) int {
	tick = min(max(tick, row.start), row.end)
	return 10*plotLeft + int((tick-row.start)*10*plotWidth/s.span)
}

// y is where the middle of a pitch lies in a row.
func (s *sheet) y(row *sheetRow, key int) int {
	return row.y + 10*headHeight + (s.high-key)*10*fieldHeight/(s.high-s.low)
}

// halfPitch is half the height of a semitone.
func (s *sheet) halfPitch() int { return 5 * fieldHeight / (s.high - s.low) }

// fieldBottom is the lower edge of the field of pitches.
func (s *sheet) fieldBottom(row *sheetRow) int { return row.y + 10*(headHeight+fieldHeight) }
