package songtest

import (
	"fmt"
	"slices"
	"strings"
)

// laterSettings writes what songs can say at the top by now, and the files that it names.
func (w *writer) laterSettings() {
	if w.lends {
		return
	}
	if w.later(4) {
		w.line("transpose = %d", 1+w.more.Intn(12)-13*w.more.Intn(2))
	}
	if w.later(5) {
		lender := &writer{r: w.more, more: w.more, feels: w.feels, lends: true}
		lender.line("key = %q", pick(w, keys...))
		for range 1 + w.more.Intn(2) {
			lender.section()
		}
		w.files["lender.song.hcl"] = lender.b.String()
		w.sections = lender.sections
		w.line("sections = [\"lender.song.hcl\"]")
	}
	if w.later(5) {
		w.singers()
	}
	if w.later(3) {
		w.picture = pick(w, framings...)
		w.line("picture {\n  rate = %s\n  start = %q\n}", w.picture.rate, w.picture.start)
	}
}

// without leaves out events that a section takes over, or that a play would.
func (w *writer) without(s *section) {
	if len(s.said) == 0 || !w.later(6) {
		return
	}
	var out []string
	for range 1 + w.more.Intn(2) {
		word := s.said[w.more.Intn(len(s.said))]
		if quoted := fmt.Sprintf("%q", word); !slices.Contains(out, quoted) {
			out = append(out, quoted)
		}
	}
	w.line("  without = [%s]", strings.Join(out, ", "))
	s.said = slices.DeleteFunc(s.said, func(word string) bool {
		return slices.Contains(out, fmt.Sprintf("%q", word))
	})
}
