package guide

import (
	"errors"
	"fmt"
	"sort"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Problem is something to say at the vocal block of the song file.
type Problem struct {
	Error   bool   // the song names something that is not there; otherwise it is a warning
	Attr    string // the attribute it is about: "track", "from" or "range"; "" for the file
	Summary string // short
	Detail  string // a full sentence that says what happens or what to write instead
}

// Apply reads a guide file and places the voice that tl.Vocal, which is not nil, asks for. It
// is all that a build has to call. A file that cannot be read is a warning: Sung stays nil in
// all passes, and the band plays as if no vocal were given. Only a track or a bar that does
// not exist is an Error.
func Apply(tl *timeline.Timeline, src []byte) []Problem {
	f, err := Read(src)
	if err != nil {
		return []Problem{{Summary: "Unreadable guide vocal",
			Detail: sentence(tl.Vocal.Path+": "+err.Error()) + " The band plays as if no vocal were given."}}
	}
	return Place(tl, f)
}

// Place lays the voice of a file onto the song by beats, scaled from the file's division to
// 960 ticks a quarter. The file's first bar stands on bar tl.Vocal.From of the song; 0 and
// less are the bars in front of bar 1. If the file begins with one short bar, as an upbeat
// is exported, that bar stands before bar From.
//
// It fills tl.Vocal.Notes, in absolute ticks, by Tick, then Key; two notes may sound at once.
// And it fills Sung in every pass, in ticks of the pass: the whole notes that sound in the
// pass or in the bar to either side. Where the singer is silent it is empty and not nil.
func Place(tl *timeline.Timeline, f *File) []Problem {
	v := tl.Vocal
	var out []Problem
	choice, err := f.Vocal(v.Track)
	for i, w := range f.Warnings {
		// Warnings about the tracks of other players do not matter.
		if c := f.about[i]; c == 0 || choice.Track == nil || c == choice.Track.Chunk {
			out = append(out, Problem{Summary: "Sloppy guide file", Detail: sentence(v.Path + ": " + w)})
		}
	}
	switch {
	case errors.Is(err, ErrSilent):
		v.Notes = nil
		spread(tl)
		what := "the file has no notes"
		if v.Track != "" {
			what = fmt.Sprintf("its track %q has no notes", v.Track)
		}
		return append(out, Problem{Attr: "track", Summary: "Silent guide vocal",
			Detail: fmt.Sprintf("%s: %s; the band plays as for a singer who is silent throughout.", v.Path, what)})
	case err != nil:
		return append(out, Problem{Error: true, Attr: "track", Summary: "No such voice",
			Detail: sentence(v.Path + ": " + err.Error())})
	}
	v.TrackResolved = choice.Track.Name
	switch {
	case choice.Empty != "":
		out = append(out, Problem{Attr: "track", Summary: "The voice's track is empty",
			Detail: fmt.Sprintf("%s: the track %q has no notes, so %q is taken for the voice (%s); "+
				"export the voice with its notes, or name the right one with track.", v.Path, choice.Empty,
				choice.Track.Name, choice.Why)})
	case choice.Track.Channel == 10:
		out = append(out, Problem{Attr: "track", Summary: "A drum track for a voice",
			Detail: fmt.Sprintf("%s: the track %q is on channel 10, whose notes are drums by custom; "+
				"name the voice's own with track.", v.Path, choice.Track.Name)})
	}
	if len(choice.Doubt) > 0 {
		out = append(out, Problem{Attr: "track", Summary: "More than one voice",
			Detail: fmt.Sprintf("%s: taken for the voice is %q (%s), but %s could be it too; say so with track = %q.",
				v.Path, choice.Track.Name, choice.Why, quoted(choice.Doubt), choice.Track.Name)})
	}
	at, ok := BarStart(tl, v.From)
	if !ok {
		what := fmt.Sprintf("The guide vocal starts at bar %d, but the song has bars %d to %d.", v.From,
			1-tl.LeadBars, lastBar(tl))
		if missing := 1 - tl.LeadBars - v.From; missing > 0 && missing <= 8 {
			what += fmt.Sprintf(" Bars of click in front of bar 1 come from count_in, which is now %d.", tl.CountIn)
		}
		return append(out, Problem{Error: true, Attr: "from", Summary: "No such bar", Detail: what})
	}
	l := layout{tl: tl, file: f, at: at - upbeat(f)}
	out = append(out, l.notes(choice.Track)...)
	out = append(out, l.disagreements()...)
	spread(tl)
	return out
}

// layout maps a file's ticks onto the song's.
type layout struct {
	tl   *timeline.Timeline
	file *File
	at   int64 // absolute tick of the song at the file's tick 0; negative if an upbeat begins before the song
}

// tick is a tick of the file as an absolute tick of the song, rounded to the nearest.
func (l *layout) tick(t int64) int64 { return l.at + scale(t, l.file.Division) }

func scale(t int64, division int) int64 {
	d := int64(division)
	// Whole quarters first, so that the product cannot overflow.
	return t/d*meter.TicksPerQuarter + (t%d*meter.TicksPerQuarter+d/2)/d
}

// upbeat is the length, in the song's ticks, of a first bar that is shorter than the second:
// after one bar a longer meter begins. Otherwise it is 0.
func upbeat(f *File) int64 {
	var at0, next *Meter
	for i := range f.Meters {
		switch m := &f.Meters[i]; {
		case m.Tick == 0:
			at0 = m
		case next == nil:
			next = m
		}
	}
	if at0 == nil || next == nil {
		return 0
	}
	bar := func(m *Meter) int64 { return int64(m.Num) * 4 * meter.TicksPerQuarter / int64(m.Den) }
	if t := scale(next.Tick, f.Division); t == bar(at0) && t < bar(next) {
		return t
	}
	return 0
}

// notes places the notes of a track and reports those that do not fit.
func (l *layout) notes(t *Track) []Problem {
	v, tl := l.tl.Vocal, l.tl
	v.Notes = nil
	early, late, double := 0, 0, 0
	var firstLate, firstDouble int64
	for _, n := range t.Notes {
		start, end := l.tick(n.Tick), l.tick(n.End())
		switch {
		case start < 0:
			early++
			continue
		case start >= tl.End:
			if late == 0 {
				firstLate = start
			}
			late++
			continue
		}
		v.Notes = append(v.Notes, timeline.SungNote{Tick: start, Length: max(1, min(end, tl.End)-start), Key: n.Key})
	}
	sort.SliceStable(v.Notes, func(i, j int) bool {
		a, b := v.Notes[i], v.Notes[j]
		return a.Tick < b.Tick || a.Tick == b.Tick && a.Key < b.Key
	})
	for i := 1; i < len(v.Notes); i++ {
		a, b := &v.Notes[i-1], v.Notes[i]
		over := a.Tick + a.Length - b.Tick
		switch {
		case over <= 0:
		case 2*over <= min(a.Length, b.Length): // legato, not a second voice
			a.Length -= over
		default:
			if double == 0 {
				firstDouble = b.Tick
			}
			double++
		}
	}
	var out []Problem
	if early > 0 {
		out = append(out, Problem{Attr: "from", Summary: "The voice begins before the song",
			Detail: fmt.Sprintf("%s of the guide would sound before the song's first bar and are left out; "+
				"a later from, a pickup or a count_in makes room.", meter.Plural(early, "note"))})
	}
	if late > 0 {
		come, are := "come", "They are"
		if late == 1 {
			come, are = "comes", "It is"
		}
		out = append(out, Problem{Attr: "from", Summary: "The voice is longer than the form",
			Detail: fmt.Sprintf("%s of the guide %s after the song's last bar, %d, "+
				"the first in what would be bar %d. %s left out; a section is missing in the form, "+
				"or from is too late.",
				meter.Plural(late, "note"), come, lastBar(tl), lastBar(tl)+1+int((firstLate-tl.End)/barTicks(tl)),
				are)})
	}
	if double > 0 {
		where := fmt.Sprintf("at %s", At(tl, firstDouble))
		if double > 1 {
			where = fmt.Sprintf("in %d places, the first %s", double, where)
		}
		out = append(out, Problem{Attr: "track", Summary: "Two notes at once",
			Detail: fmt.Sprintf("The voice has notes on top of each other %s; the band listens to all of them.",
				where)})
	}
	if len(v.Notes) == 0 && early+late > 0 {
		out = append(out, Problem{Attr: "from", Summary: "Silent guide vocal",
			Detail: "No note of the guide falls into the song; " +
				"the band plays as for a singer who is silent throughout."})
	}
	return out
}

// spread fills in Sung in every pass.
func spread(tl *timeline.Timeline) {
	var notes []timeline.SungNote
	if tl.Vocal != nil {
		notes = tl.Vocal.Notes
	}
	longest := int64(0)
	for _, n := range notes {
		longest = max(longest, n.Length)
	}
	for i := range tl.Passes {
		p := &tl.Passes[i]
		p.Sung = []timeline.SungNote{}
		if len(p.Bars) == 0 {
			continue
		}
		left, right := p.Bars[0].Length, p.Bars[len(p.Bars)-1].Length
		if i > 0 && len(tl.Passes[i-1].Bars) > 0 {
			left = tl.Passes[i-1].Bars[len(tl.Passes[i-1].Bars)-1].Length
		}
		if i+1 < len(tl.Passes) && len(tl.Passes[i+1].Bars) > 0 {
			right = tl.Passes[i+1].Bars[0].Length
		}
		lo, hi := p.Start-left, p.Start+p.Length+right
		j := sort.Search(len(notes), func(j int) bool { return notes[j].Tick >= lo-longest })
		for ; j < len(notes) && notes[j].Tick < hi; j++ {
			if n := notes[j]; n.Tick+n.Length > lo {
				n.Tick -= p.Start
				p.Sung = append(p.Sung, n)
			}
		}
	}
}

func lastBar(tl *timeline.Timeline) int {
	if len(tl.Passes) == 0 {
		return 0
	}
	p := &tl.Passes[len(tl.Passes)-1]
	return p.FirstBar + len(p.Bars) - 1
}

// barTicks is the length of the song's last bar, at least 1.
func barTicks(tl *timeline.Timeline) int64 {
	p := &tl.Passes[len(tl.Passes)-1]
	if len(p.Bars) == 0 {
		return 4 * meter.TicksPerQuarter
	}
	return max(1, p.Bars[len(p.Bars)-1].Length)
}
