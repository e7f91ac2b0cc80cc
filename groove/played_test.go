package groove_test

import (
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// The printer of the goldens: what the band plays as text that a musician reads. A
// head line for each bar, then a line for each place where somebody strikes, with a
// column for each player:
//
//	verse (1), bar 2: Bb/D, Cm7 on 3
//	1        hat 53, kick 74           | D2 74 ~940   | F3, Bb3 60 ~1910, F4 64 ~960
//	2l +16   ride 41, snare 12 -38     |              | Bb3 52 ~470
//
// The figure behind a voice or a pitch is the velocity, ~ is the length in ticks, and a
// figure with a sign is how far from the place it is played; by the place it stands for
// all. A pitch without one of the figures has that of the next. A stroke of the drums
// lasts a sixteenth unless it says otherwise.

// playedBar is a bar and what is played in it.
type playedBar struct {
	start, length int64
	meter         meter.Meter
	triplets      bool // the feel divides the counts by three
	pass          int  // -1 in front of the song
	head          string
	rows          map[int64]*playedRow // by the place, in ticks from the bar line
	clicks        int
}

// playedRow is what is played at one place of a bar.
type playedRow struct {
	tempo string
	notes [len(timeline.PlayerNames)][]playedNote
}

// playedNote is a note at its place.
type playedNote struct {
	groove.Note
	off int64 // from the place
}

// strokeTicks is how long a stroke of the drums lasts where the text says nothing.
const strokeTicks = meter.TicksPerQuarter / 4

// playedText writes the passes that are asked for, all of them when none are.
func playedText(tl *timeline.Timeline, set *feel.Set, perf *groove.Performance, passes ...int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", tl.Title)
	fmt.Fprintf(&b, "%s kit, looseness %d.%03d, take %d\n", perf.Sounds[timeline.Drums][0].Kit, tl.Looseness/1000,
		tl.Looseness%1000, tl.Take)
	bars := barsOf(tl, set)
	laidIn(bars, tl, perf)
	pass := -1
	for i := range bars {
		bar := &bars[i]
		if len(passes) > 0 && !slices.Contains(passes, bar.pass) {
			continue
		}
		if bar.pass != pass {
			pass = bar.pass
			b.WriteString("\n" + passHead(&tl.Passes[pass]))
		}
		bar.write(&b, tl, perf)
	}
	return b.String()
}

// barsOf are the bars in front of the song and those of the song, in order.
func barsOf(tl *timeline.Timeline, set *feel.Set) []playedBar {
	var out []playedBar
	first := tl.Passes[0].Meter
	for at := int64(0); at < tl.Lead; at += first.BarTicks() {
		out = append(out, playedBar{start: at, length: first.BarTicks(), meter: first, pass: -1,
			head: fmt.Sprintf("in front, bar %d", len(out)+1), rows: map[int64]*playedRow{}})
	}
	for i := range tl.Passes {
		p := &tl.Passes[i]
		inside := tl.Inside(p)
		for j, bar := range p.Bars {
			triplets := false
			if f := set.Feels[p.FeelAt(j)]; len(f.Meters) > 0 {
				triplets = f.Grid/f.Meters[0].Num%3 == 0
			}
			out = append(out, playedBar{start: p.Start + bar.Start, length: bar.Length, meter: bar.Meter,
				triplets: triplets, pass: i, head: barHead(p, j, inside), rows: map[int64]*playedRow{}})
		}
	}
	return out
}

// passName is the section's name with which playing of it this is.
func passName(p *timeline.Pass) string { return fmt.Sprintf("%s (%d)", p.Section, p.Ordinal+1) }

func passHead(p *timeline.Pass) string {
	energy := strconv.Itoa(p.EnergyFrom)
	if p.EnergyTo != p.EnergyFrom {
		energy += " to " + strconv.Itoa(p.EnergyTo)
	}
	s := fmt.Sprintf("%s: %s, energy %s, %s, %s", passName(p), p.Feel, energy, p.Key, p.Meter)
	if p.Tacet != 0 {
		s += ", without " + strings.Join(p.Tacet.Names(), ", ")
	}
	return s + "\n"
}

// barHead is the bar's number, its chords, what is otherwise from there on, and what the song
// file asks for in it. A chord in brackets goes on from the bar before.
func barHead(p *timeline.Pass, i int, inside []timeline.BarChange) string {
	bar := &p.Bars[i]
	var chords []string
	for _, s := range p.Chords {
		switch {
		case s.End <= bar.Start || s.Start >= bar.Start+bar.Length:
		case s.Start < bar.Start:
			chords = append(chords, "("+s.Chord.String()+")")
		case s.Start == bar.Start:
			chords = append(chords, s.Chord.String())
		default:
			chords = append(chords, s.Chord.String()+" on "+bar.Meter.CountAt(s.Start-bar.Start))
		}
	}
	head := fmt.Sprintf("%s, bar %d: %s", passName(p), p.NumberOf(i), strings.Join(chords, ", "))
	for _, c := range inside {
		if c.Bar == i {
			head += "; " + c.What + " " + c.Is
		}
	}
	for _, e := range p.Events {
		if e.Bar == i {
			head += "; " + e.Kind.String() + " " + bar.Meter.CountAt(e.Tick-bar.Start)
		}
	}
	return head
}

// laidIn puts tempos, notes and clicks where they sound.
func laidIn(bars []playedBar, tl *timeline.Timeline, perf *groove.Performance) {
	for _, t := range tl.Tempos {
		row, off := rowAt(bars, t.Tick)
		bar := &bars[barAt(bars, t.Tick)]
		beat := t.Micros * bar.meter.TempoTicks() // in microseconds, times the ticks of a quarter
		hundredths := (60_000_000*100*meter.TicksPerQuarter + beat/2) / beat
		if row.tempo != "" {
			row.tempo += ", "
		}
		row.tempo += fmt.Sprintf("tempo %d.%02d%s", hundredths/100, hundredths%100, signed(off))
	}
	for who, notes := range perf.Parts {
		for _, n := range notes {
			row, off := rowAt(bars, n.Tick)
			row.notes[who] = append(row.notes[who], playedNote{n, off})
		}
	}
	for _, n := range perf.Click {
		bars[barAt(bars, n.Tick)].clicks++
	}
}

func barAt(bars []playedBar, tick int64) int {
	return max(0, sort.Search(len(bars), func(i int) bool { return bars[i].start > tick })-1)
}

// rowAt is the row of the place nearest to a tick, and how far from it the tick is.
// What comes a little early on a bar's first beat belongs to that bar.
func rowAt(bars []playedBar, tick int64) (row *playedRow, off int64) {
	i := barAt(bars, tick)
	place := bars[i].nearest(tick - bars[i].start)
	off = tick - bars[i].start - place
	if place >= bars[i].length && i+1 < len(bars) {
		place -= bars[i].length
		i++
	}
	if bars[i].rows[place] == nil {
		bars[i].rows[place] = &playedRow{}
	}
	return bars[i].rows[place], off
}

// nearest is the tick itself where it is a spoken count, else the nearest of the
// places that the feel divides the counts into.
func (b *playedBar) nearest(tick int64) int64 {
	if !strings.Contains(b.meter.CountAt(tick), "+") {
		return tick
	}
	unit, parts := b.meter.UnitTicks(), int64(4)
	if b.triplets {
		parts = 3
	}
	step := unit / parts
	return (tick + step/2) / step * step
}
