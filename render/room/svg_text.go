package room

import (
	"strings"
)

// em is about how wide a letter is in hundredths of the size: on the safe side for
// the faces of the sheet. Bold ones are wider, those of East Asia square.
func em(c rune, bold bool) int {
	switch {
	case c >= 0x1100 && c <= 0x115F || c >= 0x2E80 && c <= 0xA4CF || c >= 0xAC00 && c <= 0xD7A3 || c >= 0xF900 &&
		c <= 0xFAFF || c >= 0xFE30 && c <= 0xFE6F || c >= 0xFF00 && c <= 0xFF60 || c >= 0x1F300:
		return 105
	case bold:
		return 66
	}
	return 58
}

// wide is about how wide a text is in tenths.
func wide(text string, size int) int { return wideAs(text, size, false) }

func wideAs(text string, size int, bold bool) int {
	sum := 0
	for _, c := range text {
		sum += em(c, bold)
	}
	return sum * size / 10
}

// cutText is as much of a text as has room in so many tenths, with an ellipsis
// where something is left out; nothing when not three letters fit.
func cutText(t string, size int, bold bool, room int) string {
	if wideAs(t, size, bold) <= room {
		return t
	}
	left := room - em('…', bold)*size*2/10 // the ellipsis is wider than a letter
	letters := 0
	for i, c := range t {
		if left -= em(c, bold) * size / 10; left < 0 {
			if letters < 3 {
				return ""
			}
			return strings.TrimRight(t[:i], " ") + "…"
		}
		letters++
	}
	return t
}

// escape makes text safe in XML and HTML: control characters go, which XML 1.0
// cannot hold.
func escape(t string) string {
	var b strings.Builder
	for _, c := range t {
		switch {
		case c == '&':
			b.WriteString("&amp;")
		case c == '<':
			b.WriteString("&lt;")
		case c == '>':
			b.WriteString("&gt;")
		case c == '"':
			b.WriteString("&quot;")
		case c == '\'':
			b.WriteString("&#39;")
		case c < 0x20 && c != '\t' || c == 0xFFFE || c == 0xFFFF || c >= 0x7F && c < 0xA0:
			b.WriteByte(' ')
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}
