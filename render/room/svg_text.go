package room

import (
	"strings"
	"unicode"
)

// wideRunes are the ranges of characters that are as wide as they are high, mostly East
// Asian ones.
var wideRunes = [...][2]rune{{0x1100, 0x115F}, {0x2E80, 0xA4CF}, {0xAC00, 0xD7A3}, {0xF900, 0xFAFF}, {0xFE30, 0xFE6F},
	{0xFF00, 0xFF60}, {0x1F300, unicode.MaxRune}}

// runeWidth is about how wide a character is, in hundredths of the font size, and rather
// too wide than too narrow for the fonts of the sheet.
func runeWidth(c rune, bold bool) int {
	for _, r := range wideRunes {
		if c >= r[0] && c <= r[1] {
			return 105
		}
	}
	if bold {
		return 66
	}
	return 58
}

// textWidth is about how wide a text is, in tenths of a unit.
func textWidth(text string, size int, bold bool) int {
	sum := 0
	for _, c := range text {
		sum += runeWidth(c, bold)
	}
	return sum * size / 10
}

// cutText returns as much of a text as fits into room, which is in tenths of a unit, with
// an ellipsis where something is left out. It is empty where not even three letters fit.
func cutText(t string, size int, bold bool, room int) string {
	if textWidth(t, size, bold) <= room {
		return t
	}
	left := room - runeWidth('…', bold)*size*2/10 // the ellipsis is wider than a letter
	letters := 0
	for i, c := range t {
		if left -= runeWidth(c, bold) * size / 10; left < 0 {
			if letters < 3 {
				return ""
			}
			return strings.TrimRight(t[:i], " ") + "…"
		}
		letters++
	}
	return t
}

var escapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// escape makes text safe in XML and HTML. Control characters, which XML 1.0 cannot hold,
// become blanks.
func escape(t string) string {
	return escapes.Replace(strings.Map(func(c rune) rune {
		if c < 0x20 && c != '\t' || c == 0xFFFE || c == 0xFFFF || c >= 0x7F && c < 0xA0 {
			return ' '
		}
		return c
	}, t))
}
