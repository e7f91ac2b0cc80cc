package room

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/guide"
	"plinth/songspec/wording"
)

// hearSingers takes what is sung from the timeline.
func (r *Report) hearSingers() {
	vocals := r.tl.Vocals
	if len(vocals) == 0 {
		return
	}
	r.Voice = vocals[0].TrackResolved
	r.lines = make([][]meant, len(vocals))
	for i := range vocals {
		for _, n := range vocals[i].Notes {
			r.lines[i] = append(r.lines[i], meant{tick: n.Tick, end: n.Tick + n.Length, key: int(n.Key)})
		}
		r.sung = append(r.sung, r.lines[i]...)
	}
	if len(vocals) > 1 {
		slices.SortStableFunc(r.sung, func(a, b meant) int { return int(a.tick - b.tick) })
	}
}

// whoSings says who sings in pass i, where the song has several singers.
func (r *Report) whoSings(i int) string {
	if len(r.tl.Vocals) < 2 {
		return ""
	}
	switch names := guide.Singers(r.tl, &r.tl.Passes[i]); len(names) {
	case 0:
		return "nobody sings"
	case 1:
		return names[0] + " sings"
	default:
		return wording.And(names) + " sing"
	}
}

// voiceSource says where the voices come from, or why nothing is known of them.
func (r *Report) voiceSource() string {
	vocals := r.tl.Vocals
	switch {
	case len(vocals) == 0:
		return "no guide vocal: only the spaces of the song file are known"
	case r.Song.Voice == nil:
		return "the guide vocal is silent"
	case len(vocals) == 1:
		return fmt.Sprintf("voice from %s, track %q", vocals[0].Path, r.Voice)
	}
	var names []string
	for i := range vocals {
		names = append(names, fmt.Sprintf("%s from %s, track %q", vocals[i].Name, vocals[i].Path,
			vocals[i].TrackResolved))
	}
	return strings.Join(names, "; ")
}

// partNames are the names of the registers that the report's table shows.
func (r *Report) partNames() (out []string) {
	for _, p := range r.Song.shownRegisters() {
		out = append(out, p.name)
	}
	return out
}

// partWidth is the width of the column of those names, at most 16: longer names stick out.
func (r *Report) partWidth() int {
	width := 6
	for _, name := range r.partNames() {
		width = max(width, len([]rune(name)))
	}
	return min(width, 16)
}
