package room

import (
	"fmt"
	"sort"
	"strings"

	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// Hint is one thing the trade would say of this song, and why. The rules are
// common practice, no single source; the figures in them are the song's own.
type Hint struct {
	Where string // "bars 29-30", "chorus 2", "the song"
	Say   string
	Why   string
}

// hints are in the order in which an arranger would read them: the windows, the
// registers, the rhythm, the drama.
func (r *Report) hints() []Hint {
	var out []Hint
	out = append(out, r.windowHints()...)
	out = append(out, r.registerHints()...)
	out = append(out, r.rhythmHints()...)
	out = append(out, r.dramaHints()...)
	return out
}

// windowHints: the way into the climax, the long windows, the short ones.
func (r *Report) windowHints() []Hint {
	var out []Hint
	lead := -1
	if c := r.Climax.Pass; c > 0 {
		at := r.Passes[c].Start
		for i, w := range r.Windows {
			if w.Beats >= 3000 && w.Start < at && w.End >= at-r.barBefore(c) && w.End <= at+2*960 {
				lead = i
			}
		}
	}
	if lead >= 0 {
		w := r.Windows[lead]
		out = append(out, Hint{windowBars(w),
			fmt.Sprintf("%s without the voice lead into %s: long enough for a counter line or a run up.", capital(beats(w.Beats)), r.Passes[r.Climax.Pass].Name),
			fmt.Sprintf("%s is the climax, and what grows into it is heard as the reason for it.", capital(r.Passes[r.Climax.Pass].Name))})
	}
	order := make([]int, 0, len(r.Windows))
	short, first := 0, -1
	for i, w := range r.Windows {
		switch {
		case i == lead:
		case w.Beats >= 8000:
			order = append(order, i)
		case w.Beats >= 2000 && w.Beats < 6000:
			if first < 0 {
				first = i
			}
			short++
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return r.Windows[order[a]].Beats > r.Windows[order[b]].Beats })
	if len(order) > 2 {
		order = order[:2]
	}
	sort.Ints(order)
	for _, i := range order {
		w := r.Windows[i]
		say := "the orchestra can carry a tune of its own"
		if v := r.Song.Voice; v != nil {
			say += fmt.Sprintf(", in the singer's own register too: %s", r.band(v.P5, v.P95, r.Song))
		}
		out = append(out, Hint{windowBars(w), capital(say) + ".",
			fmt.Sprintf("The voice is silent for %s, %s.", beats(w.Beats), seconds(w.Micros))})
	}
	if short > 0 {
		w := r.Windows[first]
		out = append(out, Hint{windowBars(w),
			fmt.Sprintf("Short answers fit here: a turn, a run, two chords. %s", ofMany(short, "window")),
			fmt.Sprintf("The singer breathes for %s; an answer that ends before the next phrase keeps its entry clear.", beats(w.Beats))})
	}
	return out
}

func ofMany(n int, word string) string {
	if n == 1 {
		return "It is the only " + word + " of two to six beats."
	}
	return fmt.Sprintf("There are %d %ss of two to six beats; this is the first.", n, word)
}

// registerHints: between bass and comp, above everything, what is kept back, and
// where the comp sits in the singer's way.
func (r *Report) registerHints() []Hint {
	var out []Hint
	s := &r.Song
	if s.Bass != nil && s.Piano != nil {
		low, high := s.Bass.P95+1, s.Piano.P5-1
		switch who := covering(low, high, "horn", "bassoon", "trombone", "cello", "bass clarinet"); {
		case high-low >= 12:
			out = append(out, Hint{"the song", fmt.Sprintf("%s have room under the comp, %s.", capital(list(names(seated(low, high, 12)))), r.band(low, high, *s)),
				fmt.Sprintf("The bass stays at or below %s, the comp at or above %s.", r.pitch(s.Bass.P95, *s), r.pitch(s.Piano.P5, *s))})
		case high-low >= 3 && len(who) > 0:
			out = append(out, Hint{"the song", fmt.Sprintf("There is room for one held line under the comp, %s, for %s.", r.band(low, high, *s), list(who)),
				fmt.Sprintf("The bass stays at or below %s, the comp at or above %s; %d semitones carry one line, not two.", r.pitch(s.Bass.P95, *s), r.pitch(s.Piano.P5, *s), high-low)})
		default:
			out = append(out, Hint{"the song", "Bass and comp leave no register between them: keep cellos, bassoons and low horns to tones they double, or rest one of them.",
				fmt.Sprintf("The bass goes up to %s, the comp down to %s; below C3 a third voice in between is heard as mud.", r.pitch(s.Bass.P95, *s), r.pitch(s.Piano.P5, *s))})
		}
	}
	if top := s.top(); top > 0 && top < compassHigh {
		if seats := seated(top+1, compassHigh, 12); len(seats) > 0 {
			what, why := "everything is free", "Neither the voice nor the comp goes higher, but for one note in twenty."
			if r.tl.Vocal == nil {
				what, why = "the band leaves everything to singer and orchestra", "The comp goes no higher, but for one note in twenty; where the singer lies is not known."
			}
			out = append(out, Hint{"the song", fmt.Sprintf("Above %s %s: %s have an octave or more there.", r.pitch(top, *s), what, list(names(seats))), why})
		}
	}
	if late, was := r.reached(); late > 0 {
		p := &r.Passes[late]
		out = append(out, Hint{barsWord(p.FirstBar, p.LastBar), fmt.Sprintf("Nothing goes above %s until %s: hold the octave over it back till then.", r.pitch(was, *p), p.Name),
			fmt.Sprintf("Voice and comp end at %s before, and reach %s there.", r.pitch(was, *p), r.pitch(p.top(), *p))})
	}
	for i := range r.Passes {
		p := &r.Passes[i]
		if p.Voice == nil || p.Piano == nil || p.Piano.P95 < p.Voice.Quarter {
			continue
		}
		out = append(out, Hint{barsWord(p.FirstBar, p.LastBar), fmt.Sprintf("Keep the inner strings away from %s to %s.", r.pitch(p.Voice.P5, *p), r.pitch(max(p.Piano.P95, p.Voice.Quarter), *p)),
			fmt.Sprintf("The comp already reaches %s, and a quarter of what is sung lies below %s.", r.pitch(p.Piano.P95, *p), r.pitch(p.Voice.Quarter, *p))})
		break
	}
	return out
}

// rhythmHints: the free steps, and where the band hits.
func (r *Report) rhythmHints() []Hint {
	var out []Hint
	var free []string
	for _, s := range r.Song.Grid.Steps {
		if s.Free {
			free = append(free, s.Count)
		}
	}
	if n := len(free); n > 0 && n < len(r.Song.Grid.Steps) {
		out = append(out, Hint{"the song", fmt.Sprintf("Short notes are heard on %s.", strings.Join(free, " ")),
			"Voice, piano and bass attack there in fewer than one bar of four, taken together."})
	}
	type told struct {
		section string
		kind    timeline.EventKind
	}
	done := map[told]bool{} // once a section: its later passes have the same
	for i := range r.Passes {
		p := &r.Passes[i]
		for _, k := range []struct {
			kind     timeline.EventKind
			say, why string
		}{
			{timeline.Accent, "Brass and timpani hit with the band or stay out: %s.", "A hit beside an accent sounds like a mistake; on it, like one band."},
			{timeline.Stop, "The band is silent at %s: what the orchestra plays there stands alone.", "Nothing of the band rings on in a stop but the click."},
			{timeline.Push, "Change the held chords early with the band: %s.", "The pushed chord comes early and is tied over; a chord that changes on the beat drags behind it."},
		} {
			this := told{r.tl.Passes[i].Section, k.kind}
			if l := hitLine(p.Hits, k.kind); l != "" && !done[this] {
				done[this] = true
				out = append(out, Hint{p.Name, fmt.Sprintf(k.say, l), k.why})
			}
		}
	}
	return out
}

// dramaHints: falls of the energy.
func (r *Report) dramaHints() []Hint {
	var out []Hint
	for i := 1; i < len(r.Passes) && len(out) < 2; i++ {
		a, b := &r.Passes[i-1], &r.Passes[i]
		if b.EnergyFrom <= a.EnergyTo-2 {
			out = append(out, Hint{fmt.Sprintf("bar %d", b.FirstBar), fmt.Sprintf("Take the orchestra down with the band into %s.", b.Name),
				fmt.Sprintf("The energy falls from %d to %d; what holds on over it takes the drop away.", a.EnergyTo, b.EnergyFrom)})
		}
	}
	return out
}

// top is the highest note that voice and piano use, 0 for none.
func (s *Scope) top() int {
	t := 0
	for _, p := range []*Part{s.Voice, s.Piano, s.Bass} {
		if p != nil {
			t = max(t, p.P95)
		}
	}
	return t
}

// reached is the first pass that comes within a tone of the song's top when all
// before stay three semitones or more under it, and how high those go; 0 when
// there is none. That the singer's first entry goes higher than the introduction
// is no news.
func (r *Report) reached() (pass, before int) {
	top := 0
	for i := range r.Passes {
		top = max(top, r.Passes[i].top())
	}
	heard := r.Song.Voice == nil
	for i := range r.Passes {
		if r.Passes[i].top() >= top-2 {
			if heard && before > 0 && before <= top-3 {
				return i, before
			}
			return 0, 0
		}
		before = max(before, r.Passes[i].top())
		heard = heard || r.Passes[i].Voice != nil
	}
	return 0, 0
}

// barBefore is the length of the bar in front of a pass.
func (r *Report) barBefore(i int) int64 {
	bars := r.tl.Passes[i-1].Bars
	if len(bars) == 0 {
		return 0
	}
	return bars[len(bars)-1].Length
}

// windowBars is where a window lies; the bar whose first count it ends on is not
// in it.
func windowBars(w guide.Window) string {
	last := w.To.Bar
	if w.To.Count[0] == '1' && len(w.To.Count) < 3 && (len(w.To.Count) == 1 || w.To.Count[1] > '9') && last > w.From.Bar {
		last--
	}
	return barsWord(w.From.Bar, last)
}

func (r *Report) pitch(key int, s Scope) string { return guide.PitchName(key, s.Key) }

func (r *Report) band(low, high int, s Scope) string {
	return r.pitch(low, s) + " to " + r.pitch(high, s)
}

func names(seats []Seat) []string {
	var out []string
	for _, s := range seats {
		out = append(out, s.Instrument)
	}
	return out
}

// list is "flute, oboe and violin".
func list(s []string) string {
	if len(s) < 2 {
		return strings.Join(s, "")
	}
	return strings.Join(s[:len(s)-1], ", ") + " and " + s[len(s)-1]
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
