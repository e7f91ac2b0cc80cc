package outline

import (
	"fmt"
	"slices"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Change is one musical difference between two songs.
type Change struct {
	// Section is the section's name in the new song, or in the old one when it is
	// gone; empty for what concerns the song or its form as a whole.
	Section string `json:"section,omitempty"`
	// Plays says which playings of the section in the new song, from 1; empty: all
	// of them. For a playing that is gone it counts in the old song.
	Plays []int `json:"plays,omitempty"`
	// What: "chords", "bar" (one more or one less), "meter", "key", "tempo", "feel",
	// "energy", "players", "fills", "lift", the word of an event, "play" (one more,
	// one less, or moved), "name" (of a section), or a word of the song's top level.
	What string `json:"what"`
	// Bar of the section, from 1, in the new song; of the old song for what is gone
	// from it (Old alone is set). 0: no one bar.
	Bar int    `json:"bar,omitempty"`
	Old string `json:"old,omitempty"` // empty: it is new
	New string `json:"new,omitempty"` // empty: it is gone
}

// Diff lists what changed musically from one song to the other: first what
// concerns the whole song, then its form, then section by section in the order
// of the new form. What follows from something else is not listed: the chords
// of a chorus that a lift carries higher, or a time that a tempo makes shorter.
// Chords that are written in another way and sound the same are no change, nor
// is the layout of the file.
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
	moved    []match // partners that stand in another order
	renamed  map[string]string
	out      []Change
}

// finding is a change in one pass, before equal ones are drawn together.
type finding struct {
	Change
	pass int // in new
}

// song compares what is said once.
func (d *differ) song() {
	a, b := d.old, d.new
	say := func(what, old, new string) {
		if old != new {
			d.out = append(d.out, Change{What: what, Old: old, New: new})
		}
	}
	if a.Title != a.File || b.Title != b.File { // without a title a song is called by its file
		say("title", a.Title, b.Title)
	}
	say("by", a.By, b.By)
	say("count_in", bars(a.CountIn), bars(b.CountIn))
	say("pickup", d.pickup(a), d.pickup(b))
	say("drums", kit(a.Drums), kit(b.Drums))
	say("bass", bass(a.Bass), bass(b.Bass))
	say("piano", piano(a.Piano), piano(b.Piano))
	say("looseness", perMille(a.Looseness), perMille(b.Looseness))
	say("take", fmt.Sprint(a.Take), fmt.Sprint(b.Take))
	say("vocal", vocal(a.Vocal), vocal(b.Vocal))
	if v, w := a.Vocal, b.Vocal; v != nil && w != nil && vocal(v) == vocal(w) &&
		len(v.Notes) > 0 && len(w.Notes) > 0 && !slices.Equal(v.Notes, w.Notes) { // none: it was not read
		say("vocal", "the line as it was", "another line")
	}
}

func (d *differ) pickup(t *timeline.Timeline) string {
	if t.Pickup == 0 || len(t.Passes) == 0 {
		return "none"
	}
	return beats(t.Pickup, t.Passes[0].Meter)
}

func bars(n int) string {
	if n == 0 {
		return "none"
	}
	return meter.Plural(n, "bar")
}

func perMille(n int) string { return fmt.Sprintf("%d.%03d", n/1000, n%1000) }

func kit(s timeline.DrumsSetup) string {
	if s.Kit == "" {
		return "as the feel has it"
	}
	return s.Kit
}

func bass(s timeline.BassSetup) string { return fmt.Sprintf("%s, %d strings", s.Sound, s.Strings) }

func piano(s timeline.PianoSetup) string {
	out := s.Sound
	if s.Highest != 0 {
		out += fmt.Sprintf(", up to note %d", s.Highest)
	}
	return fmt.Sprintf("%s, span %d", out, s.Span)
}

func vocal(v *timeline.Vocal) string {
	if v == nil {
		return "none"
	}
	out := v.Path
	if v.Track != "" {
		out += fmt.Sprintf(", track %q", v.Track)
	}
	out += fmt.Sprintf(", from bar %d", v.From)
	if v.RangeLow != 0 || v.RangeHigh != 0 {
		out += fmt.Sprintf(", range %d to %d", v.RangeLow, v.RangeHigh)
	}
	return out
}

// ruling are the words that a song says once for all of its sections.
var ruling = []string{"key", "meter", "tempo", "feel", "energy"}

// everywhere draws a change of such a word together when every pass that had
// the old value has the new one, in more than one section: that is one line at
// the top of the song file.
func (d *differ) everywhere(found *[]finding) {
	for _, what := range ruling {
		type pair struct{ old, new string }
		count := map[pair]int{}
		sections := map[pair]map[string]bool{}
		var order []pair
		for _, f := range *found {
			if f.What != what || f.Bar != 0 {
				continue
			}
			p := pair{f.Old, f.New}
			if count[p]++; count[p] == 1 {
				order = append(order, p)
				sections[p] = map[string]bool{}
			}
			sections[p][f.Section] = true
		}
		for _, p := range order {
			had := 0
			for _, m := range d.matched {
				if word(&d.old.Passes[m.old], what) == p.old {
					had++
				}
			}
			if had != count[p] || len(sections[p]) < 2 {
				continue
			}
			d.out = append(d.out, Change{What: what, Old: p.old, New: p.new})
			*found = slices.DeleteFunc(*found, func(f finding) bool {
				return f.What == what && f.Bar == 0 && f.Old == p.old && f.New == p.new
			})
		}
	}
}

// sections puts equal findings of a section's passes together.
func (d *differ) sections(found []finding) {
	total := map[string]int{}
	var names []string
	for i := range d.new.Passes {
		p := &d.new.Passes[i]
		if total[p.Section]++; total[p.Section] == 1 {
			names = append(names, p.Section)
		}
	}
	for _, name := range names {
		var out []Change
		at := map[string]int{} // by what the change says, index into out
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
			key := fmt.Sprintf("%s\x00%d\x00%s\x00%s", f.What, f.Bar, f.Old, f.New)
			i, ok := at[key]
			if !ok {
				i = len(out)
				at[key] = i
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
