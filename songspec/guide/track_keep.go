package guide

import (
	"cmp"
	"fmt"
	"slices"
)

// keep adds a track that was read to the file.
func (r *reader) keep(t *trackState) {
	for ch := range t.open {
		for key := range t.open[ch] {
			for _, i := range t.open[ch][key] {
				t.notes[i].Length = max(1, t.tick-t.notes[i].Tick)
				t.hanging++
			}
		}
	}
	r.tally(t)
	f := r.file
	f.End = max(f.End, t.tick)
	f.Tempos = append(f.Tempos, t.tempos...)
	f.Meters = append(f.Meters, t.meters...)
	if len(t.lyrics) == 0 && len(t.texts) >= 8 {
		t.lyrics = t.texts // a karaoke file writes its words as text events
	}
	f.Lyrics = append(f.Lyrics, t.lyrics...)
	r.notes += len(t.notes)

	name := cmp.Or(t.name, fmt.Sprintf("track %d", r.chunk))
	base := Track{Name: name, Chunk: r.chunk, Channel: -1, Program: -1, Lyrics: len(t.lyrics)}
	var by [16][]Note
	for _, n := range t.notes {
		by[n.Channel-1] = append(by[n.Channel-1], n)
		f.End = max(f.End, n.End())
	}
	if len(t.notes) == 0 {
		f.Tracks = append(f.Tracks, base)
	}
	for ch, notes := range by {
		if len(notes) == 0 {
			continue
		}
		slices.SortStableFunc(notes, func(a, b Note) int {
			return cmp.Or(cmp.Compare(a.Tick, b.Tick), cmp.Compare(a.Key, b.Key))
		})
		tr := base
		tr.Channel, tr.Program, tr.Notes = ch+1, int(t.first[ch])-1, notes
		if len(notes) < len(t.notes) { // there are other channels
			tr.Name = fmt.Sprintf("%s, channel %d", name, ch+1)
		}
		f.Tracks = append(f.Tracks, tr)
	}
}

// tally makes warnings of the track's counts.
func (r *reader) tally(t *trackState) {
	restruck := t.doubled
	if 100*restruck < doubledShare*len(t.notes) {
		restruck = 0 // a few notes that are sung anew before they were let go: the hand's and no fault
	}
	for _, w := range []struct {
		n    int
		what string
	}{
		{restruck, "notes that begin while the same pitch still sounds, ended first in, first out"},
		{t.hanging, "notes that never end, ended where the track ends"},
		{t.empty, "notes without length, given one tick"},
		{t.orphans, "note ends without a note, ignored"},
		{t.odd, "tempo, meter or key events that make no sense, ignored"},
	} {
		if w.n > 0 {
			r.warn("track %d: %s (%d)", r.chunk, w.what, w.n)
		}
	}
	if t.carried {
		r.warn("track %d: running status goes on after a meta or system exclusive event", r.chunk)
	}
}
