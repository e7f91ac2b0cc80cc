package guide

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"sort"
	"strings"

	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Problem is something to say at the vocal block of the song file.
type Problem struct {
	Error   bool   // the song names something that is not there; otherwise it is a warning
	Attr    string // the attribute it is about: "track", "from", "range" …; "" for the file
	Summary string // short
	Detail  string // a full sentence that says what happens or what to write instead
}

// problems is a list of them as it grows.
type problems []Problem

// add adds a warning.
func (out *problems) add(attr, summary, detail string, args ...any) {
	*out = append(*out, Problem{Attr: attr, Summary: summary, Detail: fmt.Sprintf(detail, args...)})
}

// failed makes an error of the last warning.
func (out problems) failed() []Problem {
	out[len(out)-1].Error = true
	return out
}

// Place lays the voice of a file onto the song by beats, scaled from the file's division to
// 960 ticks a quarter. The file's first bar stands on bar From of the song; 0 and less are the
// bars in front of bar 1. If the file begins with one short bar, as an upbeat is exported, that
// bar stands before bar From.
//
// It fills the vocal's Notes, in absolute ticks, by Tick, then Key; two notes may sound at
// once. And it fills Sung in every pass, in ticks of the pass: the whole notes of all singers
// that sound in the pass or in the bar to either side. Where they are silent it is empty and
// not nil. Only a track or a bar that does not exist is an Error.
func Place(tl *timeline.Timeline, singer int, f *File) []Problem {
	v := &tl.Vocals[singer]
	var out problems
	choice, err := f.Vocal(v.Track)
	if !v.Rough {
		out.sloppy(v.Path, f.warningsOn(choice.Track))
	}
	switch {
	case errors.Is(err, ErrSilent):
		v.Notes = []timeline.SungNote{}
		spread(tl)
		what := "the file has no notes"
		if v.Track != "" {
			what = fmt.Sprintf("its track %q has no notes", v.Track)
		}
		out.add("track", "Silent guide vocal", "%s: %s; the band plays as for a singer who is silent throughout.",
			v.Path, what)
		return out
	case err != nil:
		out.add("track", "No such voice", "%s", sentence(v.Path+": "+err.Error()))
		return out.failed()
	}
	name := choice.Track.Name
	v.TrackResolved = name
	switch {
	case choice.Empty != "":
		out.add("track", "The voice's track is empty",
			"%s: the track %q has no notes, so %q is taken for the voice (%s); export the voice with its notes, "+
				"or name the right one with track.", v.Path, choice.Empty, name, choice.Why)
	case choice.Track.Channel == 10:
		out.add("track", "A drum track for a voice",
			"%s: the track %q is on channel 10, whose notes are drums by custom; name the voice's own with track.",
			v.Path, name)
	}
	if len(choice.Doubt) > 0 {
		out.add("track", "More than one voice",
			"%s: taken for the voice is %q (%s), but %s could be it too; say so with track = %q.",
			v.Path, name, choice.Why, strings.Join(wording.Quoted(choice.Doubt), ", "), name)
	}
	at, ok := BarStart(tl, v.From)
	if !ok {
		clicks := ""
		if missing := 1 - tl.LeadBars - v.From; missing > 0 && missing <= 8 {
			clicks = fmt.Sprintf(" Bars of click in front of bar 1 come from count_in, which is now %d.", tl.CountIn)
		}
		out.add("from", "No such bar", "The guide vocal starts at bar %d, but the song has bars %d to %d.%s", v.From,
			1-tl.LeadBars, lastBar(tl), clicks)
		return out.failed()
	}
	l := layout{tl: tl, v: v, singer: uint8(singer), file: f, at: at - upbeat(f)}
	out = append(out, l.notes(choice.Track)...)
	out = append(out, l.twice()...)
	out = append(out, l.misplaced(choice.Track.Notes)...)
	out = append(out, l.disagreements()...)
	spread(tl)
	return out
}

// sloppy says once what is wrong with a file that may have changed what is sung.
func (out *problems) sloppy(path string, warnings []string) {
	if len(warnings) == 0 {
		return
	}
	more := ""
	if n := len(warnings) - 1; n > 0 {
		more = fmt.Sprintf(" The file has %s.", wording.Count(n, "other fault"))
	}
	out.add("", "Sloppy guide file", "%s%s Export it anew if you can; rough = true accepts it as it is.",
		sentence(path+": "+warnings[0]), more)
}

// warningsOn are the warnings that concern a track: those on the whole file and its own. Without
// a track, all of them do.
func (f *File) warningsOn(t *Track) (out []string) {
	for i, w := range f.Warnings {
		if c := f.about[i]; c == 0 || t == nil || c == t.Chunk {
			out = append(out, w)
		}
	}
	return out
}

// sentence is an error's text with a full stop.
func sentence(s string) string { return strings.TrimRight(s, ".") + "." }

// spread fills in Sung in every pass.
func spread(tl *timeline.Timeline) {
	notes := sungNotes(tl)
	if notes == nil {
		return
	}
	longest := int64(0)
	for _, n := range notes {
		longest = max(longest, n.Length)
	}
	for i := range tl.Passes {
		p := &tl.Passes[i]
		p.Sung = []timeline.SungNote{}
		left, right := p.Bars[0].Length, p.Bars[len(p.Bars)-1].Length
		if i > 0 {
			bars := tl.Passes[i-1].Bars
			left = bars[len(bars)-1].Length
		}
		if i+1 < len(tl.Passes) {
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

// sungNotes are the notes of all singers, by Tick, then Key. They are nil where no guide was
// read.
func sungNotes(tl *timeline.Timeline) (out []timeline.SungNote) {
	for i := range tl.Vocals {
		switch notes := tl.Vocals[i].Notes; {
		case notes == nil:
		case out == nil:
			out = slices.Clip(notes)
		default:
			out = append(out, notes...)
		}
	}
	sortSung(out)
	return out
}

// sortSung sorts notes by Tick, then Key.
func sortSung(notes []timeline.SungNote) {
	slices.SortStableFunc(notes, func(a, b timeline.SungNote) int {
		return cmp.Or(cmp.Compare(a.Tick, b.Tick), cmp.Compare(a.Key, b.Key))
	})
}
