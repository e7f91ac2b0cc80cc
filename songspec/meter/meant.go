package meter

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// lazily is a regular expression that is made when it is first needed.
func lazily(src string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(src) })
}

// How people write bars elsewhere, and how they are written here. Common practice, no single source.
var (
	barWord   = lazily(`^(bars?|measures?|mm?\.|takte?)\s*`)
	barRange  = lazily(`\s*(--+|\.\.+|…|→|->|\bto\b|\bthrough\b|\bbis\b|[–—−])\s*`)
	barList   = lazily(`\s*(;|&|\+|\band\b|\bund\b)\s*`)
	firstBar  = lazily(`\b(first|beginning|start)\b`)
	lastBar   = lazily(`\b(end|final|the last)\b`)
	pointed   = lazily(`\b([0-9]+)\.([0-9]+[&eatl]?)\b`)
	toComma   = lazily(`\s*,\s*`)
	twoBars   = lazily(`^([0-9]+) +([0-9]+|last)$`)
	lastOnes  = lazily(`^(?:the )?last ([1-9][0-9]{0,3})(?: bars)?$`)
	firstOnes = lazily(`^(?:the )?first ([1-9][0-9]*)(?: bars)?$`)
	fromStart = lazily(`^-([0-9]+|last)$`)
)

// likeBars are the bars that a text perhaps means, as they are written here; "" where nobody knows.
// Where open bars cannot stand, those that go on to the end are closed.
func likeBars(text string, open bool) string {
	s := strings.ToLower(strings.TrimSpace(text))
	s = barWord().ReplaceAllString(s, "")
	s = firstOnes().ReplaceAllString(s, "1-$1")
	s = barRange().ReplaceAllString(s, "-")
	s = barList().ReplaceAllString(s, ", ")
	s = lastBar().ReplaceAllString(firstBar().ReplaceAllString(s, "1"), "last")
	s = fromStart().ReplaceAllString(s, "1-$1")
	if s == "all" || s == "every" || s == "*" {
		s = "1-last"
	}
	if strings.HasSuffix(s, "-") && !open {
		s += "last"
	}
	if s == text {
		return ""
	}
	if _, err := parseBars(s, len(s), open); err != nil {
		return ""
	}
	return s
}

// barsForm says how bars are written, in place of the bars text[lo:hi] of a place. like is the whole
// place as it was meant, where that is certain.
func barsForm(text string, lo, hi int, open bool) (help, like string) {
	word := text[lo:hi]
	if like := likeBars(word, open); like != "" {
		like = text[:lo] + like + text[hi:]
		return fmt.Sprintf("Write \"%s\".", like), like
	}
	if m := twoBars().FindStringSubmatch(word); m != nil {
		return fmt.Sprintf("Two bars are written \"%s, %s\", and all from one to the other \"%s-%s\".", m[1], m[2],
			m[1], m[2]), ""
	}
	if many, ok := LastOnes(word); ok && many <= 16 {
		return fmt.Sprintf("Only the last bar alone has a word, \"last\". The last %d of a section of 16 bars are "+
			"written by their numbers, \"%s\".", many, numbered(many, open)), ""
	}
	if open {
		return `Bars are written like "4", "4, 8", "5-8", "5-" or "last".`, ""
	}
	return `Bars are written like "4", "4, 8", "5-8" or "last".`, ""
}

// LastOnes is how many bars "the last 4 bars" of a section are. ok is false for any other text.
func LastOnes(text string) (many int, ok bool) {
	m := lastOnes().FindStringSubmatch(strings.ToLower(text))
	if m == nil {
		return 0, false
	}
	many, _ = strconv.Atoi(m[1])
	return many, true
}

// numbered are the last bars, so many of them, of a section of 16 bars.
func numbered(many int, open bool) string {
	if from := 17 - many; !open {
		return fmt.Sprintf("%d-16", from)
	} else {
		return fmt.Sprintf("%d-", from)
	}
}

// likeStretch is what a text that goes from one count to another perhaps means, as it is written
// here; "" where nobody knows.
func likeStretch(text string) string {
	s := pointed().ReplaceAllString(strings.ToLower(text), "$1: $2")
	s = barRange().ReplaceAllString(s, " - ")
	if !strings.Contains(s, "-") && strings.Count(s, ":") == 2 {
		s = toComma().ReplaceAllString(s, " - ")
	}
	if s == text {
		return ""
	}
	if _, err := parseCountToCount(s); err != nil {
		return ""
	}
	return s
}

// notCount is what is said of a word among counts that is none; "" for any other.
func notCount(word string) string {
	switch word {
	case "all", "every":
		return `Every bar is meant where no bar stands. The counts are written one by one: "1 2 3 4".`
	case "&", "and", "+":
		return `The half of a count stands behind it without a blank, "2&"; two counts have a blank between, "2 4".`
	case "-":
		return `Counts are written one by one, "1 2 3". Only a rit or an accel goes from one count to another; how ` +
			`long a stop, a hold or a space lasts is said by its beats.`
	}
	return ""
}
