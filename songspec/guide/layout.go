package guide

import (
	"fmt"
	"slices"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// layout maps a file's ticks onto the song's.
type layout struct {
	tl     *timeline.Timeline
	v      *timeline.Vocal
	singer uint8 // which of the song's vocals that is
	file   *File
	at     int64 // absolute tick of the file's tick 0; negative if its upbeat begins before the song
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
	i := slices.IndexFunc(f.Meters, func(m Meter) bool { return m.Tick > 0 })
	if i < 1 {
		return 0
	}
	bar := func(m Meter) int64 { return int64(m.Num) * 4 * meter.TicksPerQuarter / int64(m.Den) }
	t := scale(f.Meters[i].Tick, f.Division)
	if t != bar(f.Meters[i-1]) || t >= bar(f.Meters[i]) {
		return 0
	}
	return t
}

// notes places the notes of a track and reports those that do not fit.
func (l *layout) notes(t *Track) problems {
	v, tl := l.v, l.tl
	v.Notes = []timeline.SungNote{}
	early, late, double, beyond := 0, 0, 0, 0
	var firstLate, firstDouble int64
	for _, n := range t.Notes {
		start, end := l.tick(n.Tick), l.tick(n.End())
		switch {
		case start < 0:
			early++
			continue
		case start >= tl.End:
			if late++; late == 1 {
				firstLate = start
			}
			continue
		}
		key := int(n.Key) + v.Transpose + tl.Transpose
		if key < 0 || key > 127 {
			beyond++
			continue
		}
		v.Notes = append(v.Notes, timeline.SungNote{Tick: start, Length: max(1, min(end, tl.End)-start),
			Key: uint8(key), Singer: l.singer})
	}
	sortSung(v.Notes)
	for i := 1; i < len(v.Notes); i++ {
		a, b := &v.Notes[i-1], v.Notes[i]
		over := a.Tick + a.Length - b.Tick
		switch {
		case over <= 0:
		case 2*over <= min(a.Length, b.Length): // legato, not a second voice
			a.Length -= over
		case a.Key != b.Key: // else one note that is sung anew before it was let go
			if double++; double == 1 {
				firstDouble = b.Tick
			}
		}
	}
	var out problems
	if early > 0 {
		out.add("from", "The voice begins before the song",
			"%s of the guide would sound before the song's first bar and are left out; "+
				"a later from, a pickup or a count_in makes room.", wording.Count(early, "note"))
	}
	if late > 0 {
		bars := tl.Passes[len(tl.Passes)-1].Bars
		come, are := "come", "They are"
		if late == 1 {
			come, are = "comes", "It is"
		}
		out.add("from", "The voice is longer than the form",
			"%s of the guide %s after the song's last bar, %d, the first in what would be bar %d. "+
				"%s left out; a section is missing in the form, or from is too late.",
			wording.Count(late, "note"), come, lastBar(tl),
			lastBar(tl)+1+int((firstLate-tl.End)/bars[len(bars)-1].Length), are)
	}
	if beyond > 0 {
		out.add("transpose", "Out of any voice's reach",
			"With transpose = %d, %s of the guide would lie beyond the notes of MIDI and are left out.", v.Transpose,
			wording.Count(beyond, "note"))
	}
	if !v.Rough && double > 0 && 100*double >= doubledShare*len(v.Notes) {
		where := fmt.Sprintf("at %s", At(tl, firstDouble).Words())
		if double > 1 {
			where = fmt.Sprintf("in %d places, the first %s", double, where)
		}
		out.add("track", "Two notes at once",
			"The voice has notes on top of each other %s; the band listens to all of them. Where two sing, give each "+
				"a track and a vocal block; rough = true accepts it as it is.", where)
	}
	if len(v.Notes) == 0 && early+late+beyond > 0 {
		out.add("from", "Silent guide vocal", "No note of the guide falls into the song; "+
			"the band plays as for a singer who is silent throughout.")
	}
	return out
}

// doubledShare is how many notes in a hundred must have another beside them before the track is
// doubted: fewer are slips of the hand and of the export. In 30 sung lines of pop songs it is
// 4 in 100 as a rule, and 19 at most (POP909).
const doubledShare = 10

// twice warns of a singer who has the track of one before.
func (l *layout) twice() (out problems) {
	for i := range l.tl.Vocals[:l.singer] {
		if w := &l.tl.Vocals[i]; !w.SameSinger(l.v) && w.Path == l.v.Path &&
			w.TrackResolved == l.v.TrackResolved {
			out.add("track", "The same voice twice", "%s and %s both sing %q. Say which track each of them sings: "+
				"track = \"Voice\".", w.Name, l.v.Name, w.TrackResolved)
			return out
		}
	}
	return nil
}

// lastBar is the number of the song's last bar.
func lastBar(tl *timeline.Timeline) int {
	p := &tl.Passes[len(tl.Passes)-1]
	return p.FirstBar + len(p.Bars) - 1
}
