package meter

import (
	"fmt"
	"strconv"
	"strings"
)

// A Place is where events stand in a section, written "BARS: COUNTS" or "COUNTS". Bars are
// counted from 1: "4", "4, 8", "5-8", "last", "7-last". Without bars, every bar is meant.
// Blanks or commas part the counts.
type Place struct {
	Text   string
	Bars   []BarRange // empty: every bar
	Counts []Count    // empty only for what ParseBars read
	// Through says that the place goes from the first count, in the first of two bars, to the
	// second count in the second of them.
	Through bool
}

// Last stands for the section's last bar in a BarRange.
const Last = -1

// BarRange is the bars From to To, both included. Each is counted from 1, or is Last. For a
// single bar From is To. An open range, which only ParseRanges reads, has no end: To is Last.
type BarRange struct {
	From, To int
	Open     bool
	Off, End int // where it stands in the place's text, in bytes
}

// Bounds of a place, so that a broken file cannot ask for endless work.
const (
	MaxBarNumber  = 10000
	maxPlaceText  = 512
	maxPlaceParts = 64
)

// PlaceError is what is wrong with a place. Off and End mark where in its text, in bytes.
type PlaceError struct {
	Off, End int
	Msg      string // short, without a full stop
	Help     string // a sentence that says what to write
	Like     string // the whole place as it was meant, where that is certain
}

// badPlace is an error of a place.
func badPlace(lo, hi int, msg, help string) *PlaceError {
	return &PlaceError{Off: lo, End: hi, Msg: msg, Help: help}
}

func (e *PlaceError) Error() string { return e.Msg + ": " + e.Help }

const placeHelp = `A place is counts, like "2 4", or bars and counts, like "4, 8: 4&" or "last: 3".`

// ParsePlace reads a place. The error is a *PlaceError.
func ParsePlace(s string) (Place, error) {
	if len(s) > maxPlaceText {
		return Place{}, tooLong(s)
	}
	p := Place{Text: s}
	counts := 0
	if i := strings.IndexByte(s, ':'); i >= 0 {
		bars, err := parseBars(s, i, false)
		if err != nil {
			return Place{}, err
		}
		p.Bars = bars
		counts = i + 1
	}
	for _, word := range strings.FieldsFunc(s[counts:], func(c rune) bool { return strings.ContainsRune(" \t,", c) }) {
		counts += strings.Index(s[counts:], word)
		c, err := parseCount(s, counts, counts+len(word))
		if err != nil {
			return Place{}, err
		}
		p.Counts = append(p.Counts, c)
		counts += len(word)
	}
	switch {
	case len(p.Counts) == 0 && len(p.Bars) > 0:
		return Place{}, badPlace(0, len(s), "no count in the place",
			"After the bars and the colon come counts, like \"4: 3\".")
	case len(p.Counts) == 0:
		return Place{}, badPlace(0, len(s), "empty place", placeHelp)
	case len(p.Counts) > maxPlaceParts:
		return Place{}, badPlace(0, len(s), "too many counts in one place",
			fmt.Sprintf("A place has at most %d counts.", maxPlaceParts))
	}
	return p, nil
}

func tooLong(s string) error {
	return badPlace(0, len(s), "place too long", fmt.Sprintf("A place has at most %d characters.", maxPlaceText))
}

// ParseBars reads bars without counts: "7-8", "last". The error is a
// *PlaceError.
func ParseBars(s string) (Place, error) {
	return parseWholeBars(s, false, `This event takes whole bars, like "7-8" or "last", without a colon and counts.`)
}

// ParseRanges reads bars as ParseBars does. The last of them may be open: "5-" is bar 5 and
// what follows. The error is a *PlaceError.
func ParseRanges(s string) (Place, error) {
	return parseWholeBars(s, true, `Whole bars stand here, like "7-8", "last" or "5-", without a colon and counts.`)
}

// parseWholeBars reads bars; help says what to write instead of counts.
func parseWholeBars(s string, open bool, help string) (Place, error) {
	if len(s) > maxPlaceText {
		return Place{}, tooLong(s)
	}
	if i := strings.IndexByte(s, ':'); i >= 0 {
		return Place{}, badPlace(i, len(s), "counts where only bars belong", help)
	}
	bars, err := parseBars(s, len(s), open)
	return Place{Text: s, Bars: bars}, err
}

// parseBars reads the bars s[:end] of a place.
func parseBars(s string, end int, open bool) ([]BarRange, error) {
	var out []BarRange
	at := 0
	for _, part := range strings.Split(s[:end], ",") {
		lo := at + len(part) - len(strings.TrimLeft(part, " \t"))
		word := strings.Trim(part, " \t")
		hi := lo + len(word)
		at += len(part) + 1
		if word == "" {
			help, _ := barsForm(s, lo, hi, open)
			if end < len(s) && strings.TrimSpace(s[:end]) == "" {
				help = "In front of the colon stands the bar, \"4: 1\". For every bar leave the colon out."
			}
			return nil, &PlaceError{Off: lo, End: hi, Msg: "bar number missing", Help: help}
		}
		from, to, isRange := strings.Cut(word, "-")
		r := BarRange{Off: lo, End: hi}
		var help string
		if r.From, help = parseBar(strings.TrimSpace(from)); help == "" {
			r.To = r.From
			if r.Open = isRange && open && to == ""; r.Open {
				r.To = Last
			} else if isRange {
				r.To, help = parseBar(strings.TrimSpace(to))
			}
		}
		if help != "" {
			e := &PlaceError{Off: lo, End: hi, Msg: fmt.Sprintf("not a bar: %q", word), Help: help}
			if help == notABar {
				e.Help, e.Like = barsForm(s, lo, hi, open)
			}
			return nil, e
		}
		if r.From > 0 && r.To > 0 && r.From > r.To || r.From == Last && r.To != Last {
			return nil, badPlace(lo, hi, "bars the wrong way round",
				fmt.Sprintf("A range of bars goes upwards: write \"%s-%s\".", strings.TrimSpace(to),
					strings.TrimSpace(from)))
		}
		if n := len(out); n > 0 && out[n-1].Open {
			return nil, badPlace(lo, hi, "bars after an open range",
				fmt.Sprintf("\"%d-\" goes on to the end, so it stands last.", out[n-1].From))
		}
		out = append(out, r)
		if len(out) > maxPlaceParts {
			return nil, badPlace(0, len(s), "too many bars in one place",
				fmt.Sprintf("A place has at most %d bars or ranges of bars.", maxPlaceParts))
		}
	}
	return out, nil
}

// notABar stands for the help that barsForm has.
const notABar = "not a bar"

// parseBar reads a bar's number. If it is none, help says what to write.
func parseBar(s string) (bar int, help string) {
	if s == "last" {
		return Last, ""
	}
	n, err := strconv.Atoi(s)
	if err != nil || s != strconv.Itoa(n) {
		return 0, notABar
	}
	if n < 1 || n > MaxBarNumber {
		return 0, fmt.Sprintf("Bars are counted from 1; the highest possible is %d.", MaxBarNumber)
	}
	return n, ""
}

// parseCount reads the count s[lo:hi] of a place.
func parseCount(s string, lo, hi int) (Count, error) {
	word := s[lo:hi]
	bad := func(help string) (Count, error) {
		return Count{}, badPlace(lo, hi, fmt.Sprintf("not a count: %q", word), help)
	}
	if strings.HasSuffix(word, ":") && figures(word[:len(word)-1]) {
		return bad("Bars that share their counts stand together, like \"4, 8: 4&\"; " +
			"with other counts they are an event of their own.")
	}
	if help := notCount(word); help != "" {
		return bad(help)
	}
	if strings.HasSuffix(word, ";") {
		return bad("Counts are parted by blanks. Those of another bar are an event of their own.")
	}
	if strings.ContainsRune(word, ':') {
		return bad("A place has one colon, between its bars and its counts; the parts of a count are 1&, 1e and 1a.")
	}
	if a, b, ok := strings.Cut(strings.ReplaceAll(word, "/", "."), "."); ok && figures(a) && figures(b) {
		return bad(fmt.Sprintf("Bar and count are parted by a colon: \"%s: %s\".", a, b))
	}
	if a, b, ok := strings.Cut(word, "-"); ok && strings.ContainsRune(s[:lo], ':') && figures(a) && figures(b) {
		return bad("Each count is named: \"1 2 3 4\".")
	} else if word == "last" || ok && figures(a) && (figures(b) || b == "last") {
		return bad(fmt.Sprintf("Bars stand before a colon, then come counts: \"%s: 1\".", word))
	}
	c, help := ParseCount(word)
	if help != "" {
		return bad(help)
	}
	c.Off, c.End = lo, hi
	return c, nil
}

// ParseCount reads a spoken count, as "2&". If it is none, help says what to write.
func ParseCount(word string) (c Count, help string) {
	digits := 0
	for digits < len(word) && word[digits] >= '0' && word[digits] <= '9' {
		digits++
	}
	n, err := strconv.Atoi(word[:digits])
	if err != nil || n < 1 || n > 999 || strconv.Itoa(n) != word[:digits] {
		return Count{}, "Counts are spoken ones, like 1, 2&, 3e, 4a, 1t or 1l."
	}
	c = Count{N: n, End: len(word)}
	switch letter := word[digits:]; letter {
	case "":
	case "&", "e", "a", "t", "l":
		c.Sub = letter[0]
	case "+", "and", "and.":
		return Count{}, fmt.Sprintf("The half of a count is written with &: \"%d&\".", n)
	default:
		return Count{}, "After the number comes nothing, &, e, a, t or l: 1, 2&, 3e, 4a, 1t, 1l."
	}
	return c, ""
}

func figures(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
