// Package outline takes a Timeline and writes the song as text to read and to diff (Write),
// or takes two and lists what changed in the music from one to the other (Diff), which
// WriteDiff and Summary put in words.
package outline

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"sort"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// Write writes the song as text to read and to diff: first the song and its form, then every
// pass with its bars. The error is the writer's.
//
// One change in the music changes few lines. Where a pass begins, in bars and in time, stands
// only in the form at the top; below it, nothing is counted from the start of the song.
func Write(w io.Writer, t *timeline.Timeline) error { return write(w, t, false) }

// WriteTimes is as Write, and gives each bar its time from bar 1 count 1, and its time code where
// there is a picture.
func WriteTimes(w io.Writer, t *timeline.Timeline) error { return write(w, t, true) }

func write(w io.Writer, t *timeline.Timeline, times bool) error {
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, t.Title)
	if t.By != "" {
		fmt.Fprintf(out, "by %s\n", t.By)
	}
	fmt.Fprintln(out)
	for _, row := range songRows(t) {
		if row[1] != "" {
			fmt.Fprintf(out, "%-10s %s\n", row[0], row[1])
		}
	}
	fmt.Fprint(out, "\nform\n")
	writeForm(out, t)
	if len(t.Landings) > 0 {
		fmt.Fprint(out, "\nlands\n")
		for _, l := range landings(t) {
			fmt.Fprintf(out, "  %s\n", l)
		}
	}
	when := func(*timeline.Pass, *timeline.Bar) string { return "" }
	if times {
		when = timesOf(t)
	}
	for i := range t.Passes {
		fmt.Fprintln(out)
		writePass(out, t, &t.Passes[i], when)
	}
	return out.Flush()
}

// songRows are the words of the whole song and what it says of them, "" for nothing.
func songRows(t *timeline.Timeline) [][2]string {
	front := ""
	if t.LeadBars > 0 {
		front = fmt.Sprintf("%s, so bar 1 of the song is bar %d of the file", bars(t.LeadBars), t.LeadBars+1)
	}
	rows := [][2]string{
		{"bars", fmt.Sprint(t.SongBars())},
		{"lasts", timeline.MinSec(t.SongMicros())},
		{"count-in", bars(t.CountIn)},
		{"pickup", pickup(t)},
		{"in front", front},
		{"transpose", signed(t.Transpose)},
		{"drums", t.Drums.Words()},
		{"bass", bass(t.Bass)},
		{"piano", t.Piano.Sound},
		{"looseness", perMille(t.Looseness)},
		{"take", fmt.Sprint(t.Take)},
		{"picture", picture(t.Picture)},
	}
	for i := range t.Vocals {
		first := &t.Vocals[i]
		for _, v := range append([]timeline.Vocal{*first}, first.Also...) {
			rows = append(rows, [2]string{"vocal", fmt.Sprintf("%s from bar %d%s", singer(&v), v.From, transposed(&v))})
		}
	}
	return rows
}

// writeForm writes the table of passes. Only there are bars and times counted from the start
// of the song.
func writeForm(out *bufio.Writer, t *timeline.Timeline) {
	clock := timeline.NewClock(t.Tempos)
	wide := 0
	for i := range t.Passes {
		wide = max(wide, len([]rune(t.Passes[i].Name())))
	}
	for i := range t.Passes {
		p := &t.Passes[i]
		fmt.Fprintf(out, "  %-*s  bar %4d  at %5s\n", wide, p.Name(), p.FirstBar,
			timeline.MinSec(clock.Micros(p.Start)-clock.Micros(t.Lead)))
	}
}

func writePass(out *bufio.Writer, t *timeline.Timeline, p *timeline.Pass, when barTime) {
	fmt.Fprintln(out, p.Name())
	played := t.Played(p.Pace(), p.Start)
	tempo := played.String()
	switch {
	case p.Meter.Compound():
		tempo += " dotted quarters"
	case p.Meter.Den == 1:
		tempo += " wholes"
	case p.Meter.Den == 2:
		tempo += " halves"
	case p.Meter.Den != 4:
		tempo += " quarters"
	}
	if played != p.BPM {
		tempo += ", written " + p.BPM.String()
	}
	if p.Guided {
		tempo = "the guide's, " + tempo + " on average"
	}
	key := p.Key.String()
	if p.Lift != 0 {
		key += fmt.Sprintf(" (%+d)", p.Lift)
	}
	for _, row := range [][2]string{
		{"bars", fmt.Sprint(len(p.Bars))},
		{"lasts", timeline.MinSec(p.Micros())},
		{"key", key},
		{"meter", p.Meter.String()},
		{"tempo", tempo},
		{"feel", p.Feel},
		{"energy", p.EnergyText()},
		{"players", cmp.Or(playerList(timeline.All&^p.Tacet), "none")},
	} {
		fmt.Fprintf(out, "  %-8s %s\n", row[0], row[1])
	}
	for _, w := range t.OwnBand(p) {
		fmt.Fprintf(out, "  %-8s %s\n", w[0], w[1])
	}
	if p.Vamp != "" {
		fmt.Fprintf(out, "  %-8s %s\n", "vamp", p.Vamp)
	}
	if len(t.Vocals) > 1 && p.Sung != nil {
		fmt.Fprintf(out, "  %-8s %s\n", "sings", cmp.Or(strings.Join(guide.Singers(t, p), ", "), "nobody"))
	}
	if !p.Lead {
		fmt.Fprintf(out, "  %-8s %s\n", "lead", "off")
	}
	if !p.Fills {
		fmt.Fprintf(out, "  %-8s %s\n", "fills", "none at the end")
	}
	if p.Entry != nil {
		fmt.Fprintf(out, "  %-8s %s\n", "entry", "pushed from the pass before"+by(p.Entry.By))
	}
	writeBars(out, t, p, when)
}

func writeBars(out *bufio.Writer, t *timeline.Timeline, p *timeline.Pass, when barTime) {
	event, inside := 0, t.PlayedInside(p)
	played := cue.Events(p)
	for i := range p.Bars {
		bar := &p.Bars[i]
		sounding := barText(p, bar)
		var notes []string
		if bar.Meter.Num != p.Meter.Num || bar.Meter.Den != p.Meter.Den {
			notes = append(notes, fmt.Sprintf("in %d/%d", bar.Meter.Num, bar.Meter.Den))
		}
		for ; len(inside) > 0 && inside[0].Bar == i; inside = inside[1:] {
			note := inside[0].What + " " + inside[0].Is
			if inside[0].Count != "" {
				note += ", from count " + inside[0].Count
			}
			notes = append(notes, note)
		}
		for event < len(p.Events) && p.Events[event].Bar <= i {
			notes = append(notes, Describe(&p.Events[event], played[event], p, bar))
			event++
		}
		if written := strings.Join(strings.Fields(bar.Text), " "); written != sounding {
			notes = append(notes, "written "+written)
		}
		line := fmt.Sprintf("  %4d%s | %-24s|  %s", p.NumberOf(i), when(p, bar), sounding+" ",
			strings.Join(notes, "; "))
		fmt.Fprintln(out, strings.TrimRight(line, " "))
	}
}

// barText is the chords that sound in a bar, written as in a chart: only the chords if they
// share the bar evenly, otherwise with a slash for each further beat, or with their counts
// where one comes off the beat. If a chord goes on from the bar before, the bar begins with a slash.
func barText(p *timeline.Pass, bar *timeline.Bar) string {
	var starts []int64
	var names []string
	for _, s := range ChordsIn(p, bar) {
		name, start := s.Chord.String(), s.Start
		if start < bar.Start {
			name, start = "/", bar.Start
		}
		names, starts = append(names, name), append(starts, start)
	}
	if len(names) == 0 {
		return ""
	}
	beats := bar.Meter.Beats()
	even := names[0] != "/" && len(beats)%len(names) == 0
	for i := 0; even && i < len(starts); i++ {
		even = starts[i] == bar.Start+beats[i*len(beats)/len(names)]
	}
	if even {
		return strings.Join(names, " ")
	}
	if words, ok := onGrid(bar.Start, beats, starts, names); ok {
		return strings.Join(words, " ")
	}
	var counts []int64
	for n := range int64(bar.Meter.Num) {
		counts = append(counts, n*bar.Meter.UnitTicks())
	}
	if words, ok := onGrid(bar.Start, counts, starts, names); ok {
		return strings.Join(words, " ")
	}
	return strings.Join(onCounts(bar, starts, names), " ")
}

// onCounts has the names with their counts, as chords that change off the beat are written.
func onCounts(bar *timeline.Bar, starts []int64, names []string) []string {
	var words []string
	for i, start := range starts {
		switch {
		case start > bar.Start:
			words = append(words, names[i]+"@"+bar.Meter.CountAt(start-bar.Start))
		case names[i] != "/":
			words = append(words, names[i])
		}
	}
	return words
}

// ChordsIn are the chords that sound in a bar.
func ChordsIn(p *timeline.Pass, bar *timeline.Bar) []timeline.Span {
	from := sort.Search(len(p.Chords), func(i int) bool { return p.Chords[i].End > bar.Start })
	to := sort.Search(len(p.Chords), func(i int) bool { return p.Chords[i].Start >= bar.Start+bar.Length })
	return p.Chords[from:to]
}

// onGrid has the names at their starts and slashes in the other places of the grid. It is
// false if a start is not on the grid.
func onGrid(from int64, grid, starts []int64, names []string) ([]string, bool) {
	var words []string
	next := 0
	for _, g := range grid {
		word := "/"
		if next < len(starts) && starts[next] == from+g {
			word = names[next]
			next++
		}
		words = append(words, word)
	}
	return words, next == len(starts)
}
