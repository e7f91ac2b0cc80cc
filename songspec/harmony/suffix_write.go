package harmony

import (
	"strconv"
	"strings"
)

// suffix is the canonical spelling, which parseSuffix reads back to the same quality. It
// does not begin with b or #, which would be read as part of the root.
func (q *quality) suffix() string {
	if q.alt {
		return "7alt"
	}
	var w suffixWriter
	w.q, w.left = q, *q
	w.left.deg[1] = 0
	w.lead()
	w.rest()
	return w.String()
}

// suffixWriter writes the suffix of q. left is what is not written yet.
type suffixWriter struct {
	strings.Builder
	q      *quality
	left   quality
	number int
	dim    bool
}

// lead writes the triad's word, the seventh and the number.
func (w *suffixWriter) lead() {
	q := w.q
	minor, major := q.has(3, flat), q.has(3, natural)
	seventh := q.deg[7]
	six := q.has(6, natural) && seventh == 0
	fifth := q.deg[5]
	w.number = w.pickNumber()

	// Only a diminished chord has a diminished seventh, whatever else is missing.
	dim := seventh&dflat != 0 || minor && fifth == flat && !six && seventh&flat == 0
	aug := major && fifth == sharp && seventh == 0 && !six
	power := !minor && !major && !w.suspended() && seventh == 0 && !six && fifth == natural
	w.dim = dim
	switch {
	case dim:
		w.WriteString("dim")
		w.left.deg[5] &^= flat
	case minor:
		w.WriteString("m")
	case aug:
		w.WriteString("aug")
		w.left.deg[5] = 0
	case power:
		w.WriteString("5")
	}
	w.left.deg[3] &^= flat | natural
	w.left.deg[5] &^= natural

	switch {
	case w.number >= 7:
		w.seventh(dim, minor)
		w.take()
	case six && q.has(9, natural):
		w.WriteString("6/9")
		w.left.deg[6] &^= natural
		w.left.deg[9] &^= natural
	case six:
		w.WriteString("6")
		w.left.deg[6] &^= natural
	}
}

// seventh writes the number with the word that says which seventh it stands on.
func (w *suffixWriter) seventh(dim, minor bool) {
	num := strconv.Itoa(w.number)
	sev := w.q.deg[7]
	switch {
	case dim && sev == dflat|natural:
		w.WriteString(num + "(maj7)")
	case sev&natural != 0 && (dim || minor):
		w.WriteString("(maj" + num + ")")
	case sev&natural != 0:
		w.WriteString("maj" + num)
	default:
		w.WriteString(num)
	}
	w.left.deg[7] = 0
}

// suspended reports a second or fourth in the third's place.
func (w *suffixWriter) suspended() bool {
	return !w.q.has(3, flat|natural) && (w.q.has(2, natural) || w.q.has(4, natural))
}

// pickNumber is the highest of 7, 9, 11 and 13 whose tones are all there; 0 without a
// seventh.
func (w *suffixWriter) pickNumber() int {
	q := w.q
	if q.deg[7] == 0 {
		return 0
	}
	third := q.has(3, flat|natural)
	minor := q.has(3, flat)
	open := !third && !w.suspended()
	switch {
	case open && q.has(11, natural) && q.deg[9] != 0 && q.deg[7]&dflat == 0:
		return 11
	case q.has(13, natural) && q.deg[9] != 0 && (!minor || q.deg[11] != 0):
		return 13
	case minor && q.has(11, natural) && q.deg[9] != 0:
		return 11
	case q.has(9, natural):
		return 9
	}
	return 7
}

// take removes from left what the number says by itself.
func (w *suffixWriter) take() {
	if w.number >= 9 {
		w.left.deg[9] &^= natural
	}
	if w.number == 11 || w.number == 13 && w.q.has(3, flat) {
		w.left.deg[11] &^= natural
	}
	if w.number == 13 {
		w.left.deg[13] &^= natural
	}
}

// rest writes suspensions, alterations, added tones and omissions.
func (w *suffixWriter) rest() {
	q := w.q
	if w.suspended() {
		w.WriteString("sus")
		for _, d := range [...]int{2, 4} {
			if q.has(d, natural) {
				w.WriteString(strconv.Itoa(d))
			}
		}
		w.left.deg[2], w.left.deg[4] = 0, 0
	}
	for _, d := range [...]int{5, 9, 11, 13} {
		w.altered(d)
	}
	for _, d := range [...]int{2, 4, 6, 9, 11, 13} {
		if w.left.deg[d]&natural != 0 {
			w.WriteString("add" + strconv.Itoa(d))
		}
	}
	if w.left.deg[6]&flat != 0 {
		if w.Len() == 0 {
			w.WriteString("add")
		}
		w.WriteString("b6")
	}
	third := q.has(3, flat|natural)
	if !third && !w.suspended() && w.number != 11 && !strings.HasPrefix(w.String(), "5") {
		w.WriteString("no3")
	}
	if q.deg[5] == 0 && !w.lostFifth() {
		w.WriteString("no5")
	}
}

// altered writes the b and # forms of the fifth or of an upper degree. An "add" says that the natural tone
// stays beside it, or the fifth beside b13.
func (w *suffixWriter) altered(d int) {
	for bit, sign := flat, "b"; bit <= sharp; bit, sign = bit<<2, "#" {
		if w.left.deg[d]&bit == 0 {
			continue
		}
		text := sign + strconv.Itoa(d)
		switch {
		case d == 5 && w.Len() == 0:
			text = "(" + text + ")"
		case d != 5 && (w.Len() == 0 || w.q.has(d, natural) || d == 13 && w.q.has(5, natural)):
			text = "add" + text
		}
		w.WriteString(text)
	}
}

// lostFifth reports whether a written b13 already says that there is no fifth, as it does
// over every triad except the diminished.
func (w *suffixWriter) lostFifth() bool {
	return !w.dim && w.q.has(13, flat) && !w.q.has(13, natural) && strings.Contains(w.String(), "b13") &&
		!strings.Contains(w.String(), "addb13")
}
