package outline

import (
	"cmp"
	"fmt"
	"slices"

	"plinth/songspec/timeline"
)

// Change is one musical difference between two songs.
type Change struct {
	// Section is the section's name in the new song, or in the old one if it is gone; empty
	// for a change of the whole song or its form.
	Section string `json:"section,omitempty"`
	// Plays are the playings of the section in the new song, from 1; empty means all of
	// them. A playing that is gone is counted in the old song.
	Plays []int `json:"plays,omitempty"`
	// What changed: "chords", "bar" (one more or one less), "meter", "key", "tempo", "feel",
	// "energy", "lead", "players", "fills", "times", "only", "vamp", "lift", the word of an event, "play" (one more,
	// one less, or moved), "name" (of a section), or a word of the song's top level.
	What string `json:"what"`
	// Bar is the bar of the section, from 1, in the new song; in the old song for something
	// that is gone (then only Old is set). 0 means no single bar.
	Bar int    `json:"bar,omitempty"`
	Old string `json:"old,omitempty"` // empty if it is new
	New string `json:"new,omitempty"` // empty if it is gone
}

// Diff lists what changed in the music from one song to the other: first the whole song,
// then its form, then each section in the order of the new form. It does not list what
// follows from another change, such as the chords of a chorus that a lift carries higher, or
// the time that a tempo makes shorter. Chords that are written in another way and sound the
// same are no change, nor is the layout of the file.
func Diff(old, new *timeline.Timeline) []Change {
	d := &differ{old: old, new: new}
	d.pair()
	d.song()
	var found []finding
	for _, m := range d.matched {
		found = append(found, d.compare(&old.Passes[m.old], &new.Passes[m.new])...)
	}
	found = append(found, d.lifts()...)
	d.everywhere(&found)
	d.form()
	d.sections(found)
	return d.out
}

// differ is one comparison.
type differ struct {
	old, new *timeline.Timeline
	matched  []match // in the order of the new form
	gone     []int   // passes of old without a partner
	came     []int   // passes of new without a partner
	moved    []match // partners in another order
	renamed  map[string]string
	out      []Change
}

// finding is a change in one pass, before equal changes are put together.
type finding struct {
	Change
	pass int // in new
}

// song compares what a song says once.
func (d *differ) song() {
	a, b := d.old, d.new
	say := func(what, old, new string) {
		if old != new {
			d.out = append(d.out, Change{What: what, Old: old, New: new})
		}
	}
	if a.Title != a.File || b.Title != b.File { // a song without a title has the name of its file
		say("title", a.Title, b.Title)
	}
	say("by", a.By, b.By)
	say("count_in", cmp.Or(bars(a.CountIn), "none"), cmp.Or(bars(b.CountIn), "none"))
	say("pickup", cmp.Or(pickup(a), "none"), cmp.Or(pickup(b), "none"))
	say("transpose", cmp.Or(signed(a.Transpose), "none"), cmp.Or(signed(b.Transpose), "none"))
	say("drums", a.Drums.Words(), b.Drums.Words())
	say("bass", bass(a.Bass), bass(b.Bass))
	say("piano", piano(a.Piano), piano(b.Piano))
	say("looseness", perMille(a.Looseness), perMille(b.Looseness))
	say("take", fmt.Sprint(a.Take), fmt.Sprint(b.Take))
	say("picture", cmp.Or(picture(a.Picture), "none"), cmp.Or(picture(b.Picture), "none"))
	for _, pair := range singers(a.Vocals, b.Vocals) {
		v, w := pair[0], pair[1]
		old, new := vocals(v, w)
		say("vocal", old, new)
		if v == nil || w == nil || old != new || len(v.Notes) == 0 || len(w.Notes) == 0 {
			continue // without notes it was not read
		}
		from, end := -min(a.Lead, b.Lead), min(a.End-a.Lead, b.End-b.Lead)
		if !slices.Equal(line(a, v, from, end), line(b, w, from, end)) {
			whose := "the"
			if v.Name != "" {
				whose = v.Name + "'s"
			}
			say("vocal", whose+" old line", "a new one")
		}
	}
}

// line is what a singer sings between two ticks, counted from bar 1, in the written key: a count-in, a transposition
// and an earlier end of the song do not change it.
func line(t *timeline.Timeline, v *timeline.Vocal, from, end int64) []timeline.SungNote {
	var out []timeline.SungNote
	for _, n := range v.Notes {
		at := n.Tick - t.Lead
		if at < from || at >= end {
			continue
		}
		key := uint8(int(n.Key) - t.Transpose)
		out = append(out, timeline.SungNote{Tick: at, Length: min(n.Length, end-at), Key: key})
	}
	return out
}

// singers pairs the singers of two songs: those of one name, then those who sing the same track, and
// where each has only one left these two. One who came or went has nil beside it.
func singers(old, new []timeline.Vocal) (out [][2]*timeline.Vocal) {
	pointers := func(list []timeline.Vocal) (out []*timeline.Vocal) {
		for i := range list {
			out = append(out, &list[i])
		}
		return out
	}
	gone, came := pointers(old), pointers(new)
	for _, same := range []func(a, b *timeline.Vocal) bool{
		func(a, b *timeline.Vocal) bool { return a.Name == b.Name },
		func(a, b *timeline.Vocal) bool { return a.Path == b.Path && a.Track == b.Track },
		func(a, b *timeline.Vocal) bool { return len(gone) == 1 && len(came) == 1 },
	} {
		for _, a := range slices.Clone(gone) {
			j := slices.IndexFunc(came, func(b *timeline.Vocal) bool { return same(a, b) })
			if j < 0 {
				continue
			}
			out = append(out, [2]*timeline.Vocal{a, came[j]})
			i := slices.Index(gone, a)
			gone, came = slices.Delete(gone, i, i+1), slices.Delete(came, j, j+1)
		}
	}
	for _, a := range gone {
		out = append(out, [2]*timeline.Vocal{a, nil})
	}
	for _, b := range came {
		out = append(out, [2]*timeline.Vocal{nil, b})
	}
	return out
}

// everywhere makes one change of the whole song out of the changes of a word that a song says
// once for all of its sections, if every pass that had the old value has the new one, in more
// than one section. In the song file that is one line at the top.
func (d *differ) everywhere(found *[]finding) {
	for _, w := range passWords[:ruling] {
		told := map[[2]string]bool{}
		for _, f := range slices.Clone(*found) {
			pair := [2]string{f.Old, f.New}
			if f.What != w.what || f.Bar != 0 || told[pair] {
				continue
			}
			told[pair] = true
			same := func(g finding) bool {
				return g.What == f.What && g.Bar == 0 && g.Old == f.Old && g.New == f.New
			}
			kept := 0 // how many have another new value than this, or the old one still
			sections := map[string]bool{}
			for _, m := range d.matched {
				if w.of(&d.old.Passes[m.old]) == f.Old {
					kept++
				}
			}
			for _, g := range *found {
				if same(g) {
					kept--
					sections[g.Section] = true
				}
			}
			if kept == 0 && len(sections) > 1 {
				d.out = append(d.out, Change{What: f.What, Old: f.Old, New: f.New})
				*found = slices.DeleteFunc(*found, same)
			}
		}
	}
}

// sections puts equal findings in the passes of a section together.
func (d *differ) sections(found []finding) {
	var names []string
	for i := range d.new.Passes {
		if name := d.new.Passes[i].Section; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, name := range names {
		var out []Change
		compared := 0
		for _, m := range d.matched {
			if d.new.Passes[m.new].Section == name {
				compared++
			}
		}
		for _, f := range found {
			if f.Section != name {
				continue
			}
			play := d.new.Passes[f.pass].Ordinal + 1
			i := slices.IndexFunc(out, func(c Change) bool {
				return c.What == f.What && c.Bar == f.Bar && c.Old == f.Old && c.New == f.New
			})
			if i < 0 {
				i = len(out)
				out = append(out, f.Change)
			}
			if !slices.Contains(out[i].Plays, play) {
				out[i].Plays = append(out[i].Plays, play)
			}
		}
		for i := range out {
			if len(out[i].Plays) == compared && out[i].What != "lift" {
				out[i].Plays = nil
			}
		}
		slices.SortStableFunc(out, func(a, b Change) int { return slices.Compare(a.Plays, b.Plays) })
		d.out = append(d.out, out...)
	}
}
