package timeline

import (
	"fmt"
	"slices"
	"strconv"
)

// Name is the name of the pass, its number among those of the section counted from 1:
// "chorus (2)".
func (p *Pass) Name() string { return p.Section + " (" + strconv.Itoa(p.Ordinal+1) + ")" }

// ShortNames are the names of the passes, without the number where the song has one of the section: "intro".
func (t *Timeline) ShortNames() []string {
	passes := map[string]int{} // by section
	for i := range t.Passes {
		passes[t.Passes[i].Section]++
	}
	out := make([]string, len(t.Passes))
	for i := range t.Passes {
		if out[i] = t.Passes[i].Section; passes[out[i]] > 1 {
			out[i] = t.Passes[i].Name()
		}
	}
	return out
}

// Quoted is the pass in a message: its section in quotes, and from the second time on its number.
func (p *Pass) Quoted() string {
	if p.Ordinal == 0 {
		return strconv.Quote(p.Section)
	}
	return strconv.Quote(p.Section) + " (" + strconv.Itoa(p.Ordinal+1) + ")"
}

// BarWords is a bar counted from 0 in a message, as a bar of the song and as outline and song file
// count it: `bar 48, bar 8 of "chorus" (2)`, or `bar 8 of "chorus"` where both have one number. at,
// " count 3" or empty, stands behind the first.
func (p *Pass) BarWords(bar int, at string) string {
	if p.FirstBar+bar == p.NumberOf(bar) {
		return fmt.Sprintf("bar %d%s of %s", p.FirstBar+bar, at, p.Quoted())
	}
	return fmt.Sprintf("bar %d%s, bar %d of %s", p.FirstBar+bar, at, p.NumberOf(bar), p.Quoted())
}

// Named returns the indices of the passes that a name means: a section's name means all of its
// passes, and a pass's Name that one. It is empty where the song plays nothing of that name.
func (t *Timeline) Named(name string) []int {
	var all, one []int
	for i := range t.Passes {
		p := &t.Passes[i]
		if p.Section == name {
			all = append(all, i)
		}
		if p.Name() == name {
			one = append(one, i)
		}
	}
	if all == nil { // a section may have a name that looks like that of a pass
		return one
	}
	return all
}

// Stretch is some passes that follow each other in a song and in an excerpt of it. Ticks are
// absolute.
type Stretch struct {
	From, To int64 // where it stands in the song
	At       int64 // where From stands in the excerpt
}

// Excerpt is the song that has only some of the passes, which are given by ascending indices:
// one after another, each at its tempo and in its meter and key, after the song's count-in in
// the meter of the first. The pickup stays only where the first pass of the song does. Bars
// keep their numbers in the song. The singers sing what lies between the bar lines of each stretch.
func (t *Timeline) Excerpt(which []int) (*Timeline, []Stretch) {
	out := *t
	out.Vocals, out.Passes, out.Tempos, out.Meters, out.Keys = nil, nil, nil, nil, nil
	if len(which) == 0 {
		out.Lead, out.LeadBars, out.End = 0, 0, 0
		return &out, nil
	}
	first := &t.Passes[which[0]]
	opening := which[0] == 0
	if !opening {
		out.Pickup, out.LeadBars = 0, t.CountIn
		out.Lead = int64(t.CountIn) * first.Meter.BarTicks()
	}
	var parts []Stretch
	at := out.Lead
	for _, i := range which {
		p := t.Passes[i]
		end := p.Start + p.Length
		if n := len(parts); n > 0 && parts[n-1].To == p.Start {
			parts[n-1].To = end
		} else {
			parts = append(parts, Stretch{From: p.Start, To: end, At: at})
		}
		p.Index, p.Start = len(out.Passes), at
		out.Passes = append(out.Passes, p)
		at += p.Length
	}
	out.End = at
	for _, v := range t.Vocals {
		v.Notes = sungIn(parts, v.Notes)
		out.Vocals = append(out.Vocals, v)
	}
	maps := slices.Clone(parts)
	if opening { // what holds in the bars in front is known
		maps[0].From, maps[0].At = 0, 0
	} else if out.Lead > 0 {
		out.Tempos = []Tempo{{Micros: first.usualMicros()}}
		out.Meters = []MeterChange{{Meter: first.Meter}}
		out.Keys = []KeyChange{{Key: first.Key}}
	}
	for _, s := range maps {
		out.Tempos = AppendMap(s, out.Tempos, t.Tempos, func(c *Tempo) *int64 { return &c.Tick })
		out.Meters = AppendMap(s, out.Meters, t.Meters, func(c *MeterChange) *int64 { return &c.Tick })
		out.Keys = AppendMap(s, out.Keys, t.Keys, func(c *KeyChange) *int64 { return &c.Tick })
	}
	return &out, parts
}

// sungIn is what of a singer's notes lies in the stretches, with the ticks of the excerpt; nil of none that were read.
func sungIn(stretches []Stretch, notes []SungNote) []SungNote {
	if notes == nil {
		return nil
	}
	out := []SungNote{}
	for _, s := range stretches {
		for _, n := range notes {
			if s.Cut(&n.Tick, &n.Length) {
				out = append(out, n)
			}
		}
	}
	return out
}

// Cut leaves of a note of the song what lies in the stretch, with its tick in the excerpt. It reports whether
// anything does.
func (s *Stretch) Cut(tick, length *int64) bool {
	start, end := max(*tick, s.From), min(*tick+*length, s.To)
	*tick, *length = start-s.From+s.At, end-start
	return start < end
}

// AppendMap appends what holds in a stretch of the song to a map of an excerpt, with the ticks of
// the excerpt. What is in force already is not said again.
func AppendMap[T comparable](s Stretch, to, song []T, tick func(*T) *int64) []T {
	for i := range song {
		entry := song[i]
		at := *tick(&entry)
		if at >= s.To || i+1 < len(song) && *tick(&song[i+1]) <= s.From {
			continue
		}
		*tick(&entry) = max(at, s.From) - s.From + s.At
		if n := len(to); n > 0 {
			before := to[n-1]
			if *tick(&before) = *tick(&entry); before == entry {
				continue
			}
		}
		to = append(to, entry)
	}
	return to
}

// usualMicros is the tempo that the pass has longest, the earlier of two: no hold and no rit. A
// guide's tempo counts in as it begins.
func (p *Pass) usualMicros() int64 {
	if p.Guided {
		return p.Tempos[0].Micros
	}
	lasts := map[int64]int64{} // by tempo
	best := int64(defaultMicros)
	for i, s := range p.Tempos {
		end := p.Length
		if i+1 < len(p.Tempos) {
			end = p.Tempos[i+1].Tick
		}
		if lasts[s.Micros] += end - s.Tick; lasts[s.Micros] > lasts[best] {
			best = s.Micros
		}
	}
	return best
}
