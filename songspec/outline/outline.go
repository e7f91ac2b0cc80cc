// Package outline takes a Timeline and writes the song as text to read and to diff (Write),
// or takes two and lists what changed in the music from one to the other (Diff), which
// WriteDiff and Summary put in words.
package outline

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Write writes the song as text to read and to diff: first the song and its form, then every
// pass with its bars. The error is the writer's.
//
// One change in the music changes few lines. Where a pass begins, in bars and in time, stands
// only in the form at the top; below it, nothing is counted from the start of the song.
func Write(w io.Writer, t *timeline.Timeline) error {
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, t.Title)
	if t.By != "" {
		fmt.Fprintf(out, "by %s\n", t.By)
	}
	fmt.Fprintln(out)
	for _, row := range songRows(t) {
		fmt.Fprintf(out, "%-10s %s\n", row[0], row[1])
	}
	fmt.Fprint(out, "\nform\n")
	writeForm(out, t)
	for i := range t.Passes {
		fmt.Fprintln(out)
		writePass(out, &t.Passes[i])
	}
	return out.Flush()
}

func songRows(t *timeline.Timeline) [][2]string {
	rows := [][2]string{
		{"bars", fmt.Sprint(t.SongBars())},
		{"lasts", timeline.MinSec(t.SongMicros())},
	}
	if t.CountIn > 0 {
		rows = append(rows, [2]string{"count-in", meter.Plural(t.CountIn, "bar")})
	}
	if t.Pickup > 0 && len(t.Passes) > 0 {
		rows = append(rows, [2]string{"pickup", beats(t.Pickup, t.Passes[0].Meter)})
	}
	if t.LeadBars > 0 {
		rows = append(rows, [2]string{"in front",
			fmt.Sprintf("%s, so bar 1 of the song is bar %d of the file", meter.Plural(t.LeadBars, "bar"),
				t.LeadBars+1)})
	}
	rows = append(rows,
		[2]string{"drums", kit(t.Drums)},
		[2]string{"bass", bass(t.Bass)},
		[2]string{"piano", t.Piano.Sound},
		[2]string{"looseness", perMille(t.Looseness)},
		[2]string{"take", fmt.Sprint(t.Take)})
	if v := t.Vocal; v != nil {
		rows = append(rows, [2]string{"vocal", fmt.Sprintf("%s from bar %d", v.Path, v.From)})
	}
	return rows
}

// writeForm writes the table of passes. Only there are bars and times counted from the start
// of the song.
func writeForm(out *bufio.Writer, t *timeline.Timeline) {
	clock := timeline.NewClock(t.Tempos)
	wide := 0
	for i := range t.Passes {
		wide = max(wide, len([]rune(passName(&t.Passes[i]))))
	}
	for i := range t.Passes {
		p := &t.Passes[i]
		name := passName(p)
		pad := strings.Repeat(" ", wide-len([]rune(name)))
		fmt.Fprintf(out, "  %s%s  bar %4d  at %5s\n", name, pad, p.FirstBar,
			timeline.MinSec(clock.Micros(p.Start)-clock.Micros(t.Lead)))
	}
}

// passName is the section's name with the number of the playing: "verse (2)".
func passName(p *timeline.Pass) string {
	return fmt.Sprintf("%s (%d)", p.Section, p.Ordinal+1)
}

func writePass(out *bufio.Writer, p *timeline.Pass) {
	fmt.Fprintln(out, passName(p))
	tempo := fmt.Sprint(p.BPM)
	if p.Meter.Compound() {
		tempo += " dotted quarters"
	} else if p.Meter.Den != 4 {
		tempo += " quarters"
	}
	energy := fmt.Sprint(p.EnergyFrom)
	if p.EnergyTo != p.EnergyFrom {
		energy += fmt.Sprintf(" to %d", p.EnergyTo)
	}
	key := p.Key.String()
	if p.Lift != 0 {
		key += fmt.Sprintf(" (%+d)", p.Lift)
	}
	players := playerList(timeline.All &^ p.Tacet)
	if players == "" {
		players = "none"
	}
	for _, row := range [][2]string{
		{"bars", fmt.Sprint(len(p.Bars))},
		{"lasts", timeline.MinSec(p.Micros())},
		{"key", key},
		{"meter", p.Meter.String()},
		{"tempo", tempo},
		{"feel", p.Feel},
		{"energy", energy},
		{"players", players},
	} {
		fmt.Fprintf(out, "  %-8s %s\n", row[0], row[1])
	}
	if !p.Fills {
		fmt.Fprintf(out, "  %-8s %s\n", "fills", "none at the end")
	}
	if p.Entry != nil {
		fmt.Fprintf(out, "  %-8s %s\n", "entry", "pushed from the pass before"+by(p.Entry.By))
	}
	writeBars(out, p)
}

func writeBars(out *bufio.Writer, p *timeline.Pass) {
	span, event := 0, 0
	played := cue.Events(p)
	for i := range p.Bars {
		bar := &p.Bars[i]
		for span < len(p.Chords) && p.Chords[span].End <= bar.Start {
			span++
		}
		sounding := barText(p, bar, span)
		var notes []string
		if bar.Meter.Num != p.Meter.Num || bar.Meter.Den != p.Meter.Den {
			notes = append(notes, fmt.Sprintf("in %d/%d", bar.Meter.Num, bar.Meter.Den))
		}
		for event < len(p.Events) && p.Events[event].Bar <= i {
			notes = append(notes, describe(&p.Events[event], played[event], p, bar))
			event++
		}
		if written := strings.Join(strings.Fields(bar.Text), " "); written != sounding {
			notes = append(notes, "written "+written)
		}
		line := fmt.Sprintf("  %4d | %-24s|  %s", i+1, sounding+" ", strings.Join(notes, "; "))
		fmt.Fprintln(out, strings.TrimRight(line, " "))
	}
}

// barText is the chords that sound in a bar, written as in a chart: only the chords if they
// share the bar evenly, otherwise with a slash for each further beat. If a chord goes on
// from the bar before, the bar begins with a slash. span is the first chord in the bar.
func barText(p *timeline.Pass, bar *timeline.Bar, span int) string {
	end := bar.Start + bar.Length
	var starts []int64
	var names []string
	for s := span; s < len(p.Chords) && p.Chords[s].Start < end; s++ {
		c := &p.Chords[s]
		starts = append(starts, max(c.Start, bar.Start))
		if c.Start < bar.Start {
			names = append(names, "/")
		} else {
			names = append(names, c.Chord.String())
		}
	}
	if len(names) == 0 {
		return ""
	}
	beats := bar.Meter.Beats()
	if n := len(names); names[0] != "/" && len(beats)%n == 0 {
		even := true
		for i, s := range starts {
			even = even && s == bar.Start+beats[i*len(beats)/n]
		}
		if even {
			return strings.Join(names, " ")
		}
	}
	if words, ok := onGrid(bar.Start, beats, starts, names); ok {
		return strings.Join(words, " ")
	}
	counts := make([]int64, bar.Meter.Num)
	for i := range counts {
		counts[i] = int64(i) * bar.Meter.UnitTicks()
	}
	words, _ := onGrid(bar.Start, counts, starts, names)
	return strings.Join(words, " ")
}

// onGrid has the names at their starts and slashes in the other places of the grid. It is
// false if a start is not on the grid.
func onGrid(from int64, grid, starts []int64, names []string) ([]string, bool) {
	var words []string
	next := 0
	for _, g := range grid {
		if next < len(starts) && starts[next] == from+g {
			words = append(words, names[next])
			next++
		} else {
			words = append(words, "/")
		}
	}
	return words, next == len(starts)
}
