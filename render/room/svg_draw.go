package room

import (
	"fmt"
	"strings"

	"plinth/songspec/wording"
)

// printf adds text to the file.
func (s *sheet) printf(format string, args ...any) { fmt.Fprintf(&s.b, format, args...) }

// units writes a coordinate in tenths as SVG units: 125 is "12.5".
func units(tenths int) string { return wording.Thousandths(int64(tenths) * 100) }

// outlinedText writes a text with a white edge, so that it can be read on a hatch.
func (s *sheet) outlinedText(x, y, size int, anchor, weight, t string) {
	s.printf(`<text x="%s" y="%s" font-size="%d" text-anchor="%s" font-weight="%s" stroke="#fff" stroke-width="5" `+
		`stroke-linejoin="round" paint-order="stroke">%s</text>`+"\n",
		units(x), units(y), size, anchor, weight, escape(t))
}

// pathElement is an element of the file. Each %s of d becomes one of the coordinates, which are in tenths.
func pathElement(style, d string, tenths ...int) string {
	at := make([]any, len(tenths))
	for i, t := range tenths {
		at[i] = units(t)
	}
	return fmt.Sprintf(`<path d="%s" %s/>`, fmt.Sprintf(d, at...), style)
}

// circleElement is an element of the file; the centre is in tenths, the radius in units.
func circleElement(x, y int, radius, style string) string {
	return fmt.Sprintf(`<circle cx="%s" cy="%s" r="%s"%s/>`, units(x), units(y), radius, style)
}

// drawElements adds elements to the picture, in one line of the file.
func (s *sheet) drawElements(elements ...string) { s.printf("%s\n", strings.Join(elements, "")) }

// drawLine draws a straight line.
func (s *sheet) drawLine(x1, y1, x2, y2 int, style string) {
	s.drawElements(pathElement(style, "M%s %sL%s %s", x1, y1, x2, y2))
}

// drawRect draws a rectangle between two corners.
func (s *sheet) drawRect(x1, y1, x2, y2 int, style string) {
	width, height := max(0, x2-x1), max(0, y2-y1)
	s.printf(`<rect x="%s" y="%s" width="%s" height="%s" %s/>`+"\n", units(x1), units(y1), units(width), units(height),
		style)
}

// plainText writes a text without an edge, for where it stands on white.
func (s *sheet) plainText(x, y int, style, t string) {
	s.printf(`<text x="%s" y="%s" %s>%s</text>`+"\n", units(x), units(y), style, t)
}

// rowLabel names a strip of a row, at its left.
func (s *sheet) rowLabel(x, y int, t string) {
	s.plainText(x, y, `font-size="17" text-anchor="end" font-weight="600"`, t)
}

// ridgeDashes part the lines of several singers; the first is whole, as a single one is.
var ridgeDashes = [...]string{"", ` stroke-dasharray="12 8"`, ` stroke-dasharray="2 8"`,
	` stroke-dasharray="16 8 2 8"`}

// ridgeStyle is the style of the line of the voice.
const ridgeStyle = `fill="none" stroke="#111" stroke-width="4.5" stroke-linejoin="round" stroke-linecap="round"`
