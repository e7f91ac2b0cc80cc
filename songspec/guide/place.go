package guide

import (
	"errors"
	"fmt"
	"sort"

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
