package room

import (
	"cmp"
	"fmt"
	"slices"

	"plinth/songspec/guide"
	"plinth/songspec/meter"
)

// Hint is one piece of advice for the arranger, with its reason. The rules are common
// practice, no single source; the figures come from the song.
type Hint struct {
	Where string // "bars 29-30", "chorus (2)", "the song"
	Say   string
	Why   string
}

// hints returns all hints in the order in which an arranger would read them: windows,
// registers, rhythm, drama.
func (r *Report) hints() []Hint {
	return slices.Concat(r.windowHints(), r.registerHints(), r.rhythmHints(), r.hitHints(), r.dramaHints())
}

// windowHints are about the window before the climax, the two longest of eight beats and
// more, and the short ones of two to six beats.
func (r *Report) windowHints() []Hint {
	lead := r.leadWindow()
	var long, short []guide.Window
	for i, w := range r.Windows {
		switch {
		case i == lead:
		case w.Beats >= 8000:
			long = append(long, w)
		case w.Beats >= 2000 && w.Beats < 6000:
			short = append(short, w)
		}
	}
	slices.SortStableFunc(long, func(a, b guide.Window) int { return cmp.Compare(b.Beats, a.Beats) })
	long = long[:min(2, len(long))]
	slices.SortFunc(long, func(a, b guide.Window) int { return cmp.Compare(a.Start, b.Start) })
	var out []Hint
	if lead >= 0 {
		w, climax := r.Windows[lead], r.Passes[r.Climax.Pass].Name
		out = append(out, Hint{windowBars(w),
			fmt.Sprintf("%s without the voice lead into %s: long enough for a counter line or a run up.",
				capitalized(beatWords(w.Beats)), climax),
			capitalized(climax) + " is the climax, and what grows into it is heard as the reason for it."})
	}
	for _, w := range long {
		out = append(out, r.longWindowHint(w))
	}
	if n := len(short); n > 0 {
		count := "It is the only window of two to six beats."
		if n > 1 {
			count = fmt.Sprintf("There are %d windows of two to six beats; this is the first.", n)
		}
		out = append(out, Hint{windowBars(short[0]),
			"Short answers fit here: a turn, a run, two chords. " + count,
			fmt.Sprintf("The singer breathes for %s; an answer that ends before the next phrase keeps its entry clear.",
				beatWords(short[0].Beats))})
	}
	return out
}

// leadWindow is the index of the last window of three beats and more that ends about where
// the climax begins, -1 when there is none.
func (r *Report) leadWindow() int {
	lead := -1
	if c := r.Climax.Pass; c > 0 {
		at, bars := r.Passes[c].Start, r.tl.Passes[c-1].Bars
		from, to := at-bars[len(bars)-1].Length, at+2*meter.TicksPerQuarter
		for i, w := range r.Windows {
			if w.Beats >= 3000 && w.Start < at && w.End >= from && w.End <= to {
				lead = i
			}
		}
	}
	return lead
}

// longWindowHint is about a window that is long enough for a tune, with the singer's range
// over the comp where that is a third or more.
func (r *Report) longWindowHint(w guide.Window) Hint {
	say := "The orchestra can carry a tune of its own"
	if v := r.Song.Voice; v != nil {
		low := v.P5
		if p := r.Song.piano(); p != nil {
			low = max(low, p.P95+1)
		}
		if v.P95-low >= 4 {
			say += fmt.Sprintf(", in the singer's own register too: %s over the comp", r.Song.pitchRange(low, v.P95))
		}
	}
	return Hint{windowBars(w), say + ".", fmt.Sprintf("The voice is silent for %s, %s, over %s.", beatWords(w.Beats),
		durationWords(w.Micros), shortList(r.chordsOver(w), 6))}
}

// windowBars names the bars of a window. A window that ends on the first count of a bar
// does not reach into that bar.
func windowBars(w guide.Window) string {
	last := w.To.Bar
	if w.To.Count[0] == '1' && len(w.To.Count) < 3 && (len(w.To.Count) == 1 || w.To.Count[1] > '9') &&
		last > w.From.Bar {
		last--
	}
	return barsWord(w.From.Bar, last)
}

// pitch names a MIDI note in the key of a stretch.
func (s *Scope) pitch(key int) string { return guide.PitchName(key, s.Key) }

// pitchRange names two MIDI notes in the key of a stretch: "F2 to E3".
func (s *Scope) pitchRange(low, high int) string { return s.pitch(low) + " to " + s.pitch(high) }

// instrumentNames are the instruments of some seats.
func instrumentNames(seats []Seat) []string {
	var out []string
	for _, s := range seats {
		out = append(out, s.Instrument)
	}
	return out
}
