package songtest

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plinth/songspec/meter"
)

// words are the events, each as often as it should come, those that came later last. Those of
// which a section can have only a few are rare.
var words = []string{
	"accent", "accent", "accent", "accent", "push", "push", "push", "push", "stop", "stop", "fill", "fill",
	"hold", "rit", "space", "caesura", "caesura", "cue",
}

// known is how many of the words the reader knows.
func (w *writer) known() int {
	if w.more == nil {
		return slices.Index(words, "caesura")
	}
	return len(words)
}

// events writes n events of a section, or of a play of it.
func (w *writer) events(s *section, n int) {
	for range n {
		word := pick(w, words[:w.known()]...)
		if word == "rit" && s.rit || word == "caesura" && s.caesura {
			word = "push"
		}
		place := w.place(s)
		if word == "rit" {
			s.rit = true
			place = w.bars(s)
		}
		if f := strings.Fields(place); word == "caesura" && len(f) > 2 { // a bar and two counts, perhaps of one beat
			place = f[0] + " " + f[1]
		}
		options := w.options(word, s)
		switch {
		case w.more == nil:
		case word == "rit":
			word, place = w.moving(s, place, options[0])
		case word == "hold" || word == "caesura":
			if options = w.hold(s, word, place); options == nil {
				word = "push"
			}
		}
		s.caesura = s.caesura || word == "caesura"
		s.said = append(s.said, word)
		w.event(word, place, options)
	}
}

// event writes one event, on one line if it has at most one option.
func (w *writer) event(word, place string, options []string) {
	if len(options) < 2 {
		w.line("  %s %q { %s }", word, place, strings.Join(options, ""))
		return
	}
	w.line("  %s %q {\n    %s\n  }", word, place, strings.Join(options, "\n    "))
}

// options are the lines inside an event's braces.
func (w *writer) options(word string, s *section) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	by := func(n int) {
		if w.chance(n) {
			say("by = %s", pick(w, players...))
		}
	}
	switch word {
	case "accent":
		by(3)
		if w.chance(2) {
			say("weight = %d", 1+w.r.Intn(3))
		}
		if w.chance(4) {
			say("alone = true")
		}
		if w.later(5) {
			say("short = true")
		}
	case "push":
		by(3)
	case "fill":
		by(6)
	case "stop":
		if w.chance(2) {
			say("beats = %s", pick(w, "0.5", "1", "2", "3", "1/3"))
		}
		if w.later(4) {
			by(1)
		}
	case "space":
		if w.chance(2) {
			say("beats = %d", 1+w.r.Intn(4))
		}
	case "hold", "caesura":
		if w.chance(2) {
			say("beats = %s", pick(w, "0.5", "1", "2"))
		}
	case "rit":
		say("to = %s", w.decimal(min(max(s.tempo*(6+w.r.Intn(8))/10, 20), 400)))
	case "cue":
		say("text = %q", pick(w, "lights", "lights", "curtain"))
		if w.later(4) {
			say("each_time = true")
		}
	}
	return out
}

// bars are one bar, or a few in a row.
func (w *writer) bars(s *section) string {
	first, last := 0, len(s.bars)-1
	if s.played != nil {
		run := pick(w, s.played...)
		first, last = run[0], run[1]
	}
	from := first + w.r.Intn(last+1-first)
	to := from + w.r.Intn(last+1-from)
	if w.chance(3) {
		from, to = last, last
	}
	for _, bar := range s.turns { // in a rit no bars block may change the tempo
		if from < bar && bar <= to {
			to = bar - 1
		}
	}
	s.rits = append(s.rits, [2]int{from, to})
	if from == to {
		return fmt.Sprint(from + 1)
	}
	return fmt.Sprintf("%d-%d", from+1, to+1)
}

// moving makes an accel of a rit that gets faster, and of every other one, by its bars, one from
// count to count.
func (w *writer) moving(s *section, bars, to string) (word, place string) {
	word = "rit"
	if n, err := strconv.ParseFloat(strings.TrimPrefix(to, "to = "), 64); err == nil && n > float64(s.tempo) {
		word = "accel"
	}
	p, err := meter.ParseBars(bars)
	if err != nil {
		panic("songtest: " + err.Error())
	}
	first, last := p.Bars[0].From, p.Bars[0].To
	a, b := s.bars[first-1], s.bars[last-1]
	if (first+last+len(s.bars))%2 == 0 {
		return word, bars
	}
	from := fmt.Sprint((a.Num + 1) / 2)
	if last > first {
		from += []string{"", "&"}[first%2]
	}
	return word, fmt.Sprintf("%d: %s - %d: %d", first, from, last, b.Num)
}

// place is a place with one or two counts, three times in four next to a crowded bar line.
func (w *writer) place(s *section) string {
	if w.chance(4) {
		return w.anyPlace(s)
	}
	bar := pick(w, s.hot...)
	if w.chance(3) { // after the line
		bar++
		if bar == len(s.bars) {
			bar = 0 // it follows where the section is played twice running
		}
		bar = w.near(s, bar)
		counts := []string{"1", "1", "1", "1&", "1e"}
		if s.bars[bar].Num > 1 {
			counts = append(counts, "2")
		}
		return fmt.Sprintf("%d: %s", bar+1, pick(w, counts...))
	}
	counts := lastCounts(s.bars[bar])
	if w.chance(5) { // two of them, in the order of the bar
		i := w.r.Intn(len(counts) - 1)
		return fmt.Sprintf("%d: %s %s", bar+1, counts[i], counts[i+1+w.r.Intn(len(counts)-1-i)])
	}
	return fmt.Sprintf("%s: %s", w.barName(s, bar), pick(w, counts...))
}

// barName is a bar's number, or "last".
func (w *writer) barName(s *section, bar int) string {
	if bar == len(s.bars)-1 && w.chance(2) {
		return "last"
	}
	return fmt.Sprint(bar + 1)
}

// lastCounts are the counts of a bar's last felt beat, in order, with the parts of the last one.
func lastCounts(m meter.Meter) []string {
	beats := m.Beats()
	var out []string
	for n := int(beats[len(beats)-1]/m.UnitTicks()) + 1; n < m.Num; n++ {
		out = append(out, fmt.Sprint(n))
	}
	last := fmt.Sprint(m.Num)
	return append(out, last, last+"e", last+"&", last+"a")
}

// anyPlace is any place: also one in every bar, also one in triplets.
func (w *writer) anyPlace(s *section) string {
	bar := w.near(s, w.r.Intn(len(s.bars)))
	if w.chance(4) && slices.Contains(s.bars, s.meter) {
		return w.count(s.meter)
	}
	return fmt.Sprintf("%d: %s", bar+1, w.count(s.bars[bar]))
}

func (w *writer) count(m meter.Meter) string {
	return fmt.Sprint(1+w.r.Intn(m.Num)) + pick(w, "", "", "", "&", "&", "e", "a", "t", "l")
}

// near is a bar that is played: this one, or another in its place.
func (w *writer) near(s *section, bar int) int {
	if s.plays(bar) {
		return bar
	}
	run := pick(w, s.played...)
	return run[0] + w.r.Intn(run[1]+1-run[0])
}
