package songtest

import (
	"fmt"
	"slices"
	"strings"
)

// level is what the bars blocks of a section, or of a play, say so far: by attribute the bars of
// closed ranges, and those with which open ones begin. No two may say the same of one bar.
type level struct{ closed, open map[string]map[int]bool }

// ranges are the bars of a bars block.
type ranges struct {
	text string
	runs [][2]int // from bar to bar, counted from 0
	open bool     // the last one holds from there on
}

// take reports whether nothing says an attribute of these bars yet, and notes that now something does.
func (l *level) take(attr string, in ranges) bool {
	for _, said := range []*map[string]map[int]bool{&l.closed, &l.open} {
		if *said == nil {
			*said = map[string]map[int]bool{}
		}
		if (*said)[attr] == nil {
			(*said)[attr] = map[int]bool{}
		}
	}
	said, bars := l.closed[attr], in.bars()
	if in.open {
		said, bars = l.open[attr], nil
		for _, run := range in.runs {
			bars = append(bars, run[0])
		}
	}
	for _, bar := range bars {
		if said[bar] {
			return false
		}
	}
	for _, bar := range bars {
		said[bar] = true
	}
	return true
}

func (r ranges) bars() (out []int) {
	for _, run := range r.runs {
		for bar := run[0]; bar <= run[1]; bar++ {
			out = append(out, bar)
		}
	}
	return out
}

// turns are the bars of a section at which these ranges begin, and those that come after them.
func (r ranges) turns(bars int) (out []int) {
	for i, run := range r.runs {
		out = append(out, run[0])
		if after := run[1] + 1; after < bars && !(r.open && i == len(r.runs)-1) {
			out = append(out, after)
		}
	}
	return out
}

// ranges are some bars of a section of so many.
func (w *writer) ranges(bars int) ranges {
	from := w.more.Intn(bars)
	to := from + w.more.Intn(bars-from)
	span := func(from, to int) string {
		if from == to {
			return fmt.Sprint(from + 1)
		}
		return fmt.Sprintf("%d-%d", from+1, to+1)
	}
	switch kind := w.more.Intn(6); {
	case kind == 0 || kind == 1:
		return ranges{fmt.Sprintf("%d-", from+1), [][2]int{{from, bars - 1}}, true}
	case kind == 2:
		return ranges{"last", [][2]int{{bars - 1, bars - 1}}, false}
	case kind == 3 && from > 1: // a list
		first := w.more.Intn(from - 1)
		if to == bars-1 {
			return ranges{fmt.Sprintf("%d, %d-", first+1, from+1), [][2]int{{first, first}, {from, to}}, true}
		}
		return ranges{fmt.Sprintf("%d, %s", first+1, span(from, to)), [][2]int{{first, first}, {from, to}}, false}
	case to == bars-1 && to > from:
		return ranges{fmt.Sprintf("%d-last", from+1), [][2]int{{from, to}}, false}
	}
	return ranges{span(from, to), [][2]int{{from, to}}, false}
}

// insides writes the bars blocks of a section, or of a play of it.
func (w *writer) insides(s *section, inPlay bool) {
	var l level
	if w.later(6) {
		w.otherBars(s)
	}
	for range max(0, w.more.Intn(4)-1) {
		in := w.ranges(len(s.bars))
		var lines []string
		band := false // it has players' blocks; each may stand once
		for range 1 + w.more.Intn(3) {
			attr := pick(w, "energy", "energy", "tempo", "tempo", "feel", "key", "tacet", "tacet", "band", "lift")
			switch attr {
			case "band":
				if band {
					continue
				}
				band = true
				w.band(s, 2, func(attr, text string) {
					if l.take(attr, in) {
						lines = append(lines, text)
					}
				})
				continue
			case "lift":
				if !inPlay || !in.open || len(in.runs) > 1 {
					attr = "energy"
				}
			case "tempo":
				if !w.turn(s, in) {
					attr = "tacet"
				}
			}
			if l.take(attr, in) {
				lines = append(lines, fmt.Sprintf("%s = %s", attr, w.inBars(attr, s)))
			}
		}
		if len(lines) > 0 {
			w.line("  bars %q {\n    %s\n  }", in.text, strings.Join(lines, "\n    "))
		}
	}
}

// inBars is what a bars block says of an attribute.
func (w *writer) inBars(attr string, s *section) string {
	switch attr {
	case "tempo":
		if w.later(3) {
			return `"a tempo"`
		}
		return w.decimal(w.tempo(s.feel))
	case "feel":
		return fmt.Sprintf("%q", w.suiting(s.meter).Name)
	case "key":
		return fmt.Sprintf("%q", pick(w, keys...))
	case "tacet":
		return w.tacet(tacets)
	case "lift":
		return fmt.Sprint(pick(w, 1, 2, -1, -3))
	}
	return w.energy()
}

// turn notes that the tempo changes where these ranges begin and end. It returns false where a rit
// or an accel moves it there.
func (w *writer) turn(s *section, in ranges) bool {
	turns := in.turns(len(s.bars))
	for _, rit := range s.rits {
		for _, bar := range turns {
			if rit[0] < bar && bar <= rit[1] {
				return false
			}
		}
	}
	s.turns = append(s.turns, turns...)
	return true
}

// otherBars writes a bars block with chords. Bars that reach the end may become more or fewer, and
// others than they were, unless something stands in the section that could then fall on a beat
// with another.
func (w *writer) otherBars(s *section) {
	n := len(s.bars)
	from := w.more.Intn(n)
	to := from + w.more.Intn(n-from)
	text := fmt.Sprintf("%d-%d", from+1, to+1)
	if to == n-1 && w.later(2) {
		text = fmt.Sprintf("%d-", from+1)
	}
	free := len(s.held)+len(s.turns) == 0
	usual, bars := s.meter, to-from+1
	var lines []string
	if free && w.later(4) {
		usual = w.meter(meters)
		lines = append(lines, fmt.Sprintf("meter = %q", usual))
	}
	if free && to == n-1 {
		bars = max(1, bars+w.more.Intn(4)-1)
	}
	chart, now := "|", slices.Clone(s.bars[:from])
	for i := range bars {
		m := usual
		switch {
		case !free:
			m = s.bars[from+i]
		case w.later(8):
			m = w.meter(oddBars)
		}
		if m != usual {
			chart += fmt.Sprintf(" (%s)", m)
		}
		chart += w.withCounts(w.bar(m, false), m, i == 0) + " |"
		now = append(now, m)
	}
	s.bars = append(now, s.bars[to+1:]...)
	s.hot = slices.DeleteFunc(slices.Clone(s.hot), func(bar int) bool { return bar >= len(s.bars) })
	s.hot = append(s.hot, len(s.bars)-1)
	lines = append(lines, fmt.Sprintf("chords = %q", chart))
	w.line("  bars %q {\n    %s\n  }", text, strings.Join(lines, "\n    "))
}

// band writes players' blocks, each once in n times. Where say is given, it takes what they say,
// each attribute in a block.
func (w *writer) band(s *section, n int, say func(attr, text string)) {
	var lines []string
	add := func(block, attr string, from ...string) {
		if !w.later(n) {
			return
		}
		text := fmt.Sprintf("%s {\n      %s = %q\n    }", block, attr, pick(w, from...))
		if say != nil {
			say(block+" "+attr, text)
		} else {
			lines = append(lines, text)
		}
	}
	add("drums", "kit", kits...)
	if w.later(2) {
		add("bass", "line", "two", "walk")
	} else {
		add("bass", "sound", "finger", "pick", "acoustic", "fretless")
	}
	add("piano", "sound", "grand", "bright", "electric")
	for _, text := range lines {
		w.line("  %s", text)
	}
}
