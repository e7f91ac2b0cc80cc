package guide

import (
	"slices"

	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Join makes one singer of all vocals of one name, once they are placed: a singer may have several
// files. The first stays among the song's Vocals, with the notes of all and the others in Also. It
// returns which of the vocals before stay, and for each vocal before what is doubtful about it: two
// files of a singer that sing at the same time.
func Join(tl *timeline.Timeline) (stay []int, doubts [][]Problem) {
	all := tl.Vocals
	doubts = make([][]Problem, len(all))
	var singers []timeline.Vocal
	for i := range all {
		v := all[i]
		k := slices.IndexFunc(singers, func(s timeline.Vocal) bool { return s.SameSinger(&v) })
		if k < 0 {
			stay, singers = append(stay, i), append(singers, v)
			continue
		}
		for j := range all[:i] {
			if all[j].SameSinger(&v) {
				doubts[i] = append(doubts[i], together(tl, &all[j], &v)...)
			}
		}
		s := &singers[k]
		s.Leads = s.Leads || v.Leads
		if s.Range == "" {
			s.Range, s.RangeLow, s.RangeHigh = v.Range, v.RangeLow, v.RangeHigh
		}
		if v.Notes != nil {
			s.Notes = append(slices.Clip(s.Notes), v.Notes...)
			if s.Notes == nil { // both are silent
				s.Notes = []timeline.SungNote{}
			}
		}
		v.Notes = nil
		s.Also = append(s.Also, v)
	}
	if len(singers) == len(all) {
		return stay, doubts
	}
	tl.Vocals = singers
	for k := range singers {
		notes := slices.Clone(singers[k].Notes) // clones no nil
		for i := range notes {
			notes[i].Singer = uint8(k)
		}
		sortSung(notes)
		singers[k].Notes = notes
	}
	spread(tl)
	return stay, doubts
}

// together doubts two files of a singer who sings more than a bar in both at once. Rests of up to a bar
// belong to what is sung.
func together(tl *timeline.Timeline, a, b *timeline.Vocal) (out problems) {
	for _, s := range sungSpans(tl, a.Notes) {
		for _, o := range sungSpans(tl, b.Notes) {
			from, to := max(s.Start, o.Start), min(s.End, o.End)
			if to-from <= barAt(tl, from) {
				continue
			}
			out.add("from", wording.Sentence("%s sings twice at once", b.Name), "From bar %d to bar %d %q and %q both "+
				"sing, and the band hears both. Two who sing have two names; of one, cut the files, or check from.",
				barOf(tl, from), barOf(tl, to-1), a.Path, b.Path)
			return out
		}
	}
	return nil
}

// sungSpans are the stretches in which notes are sung, with their rests of up to a bar.
func sungSpans(tl *timeline.Timeline, notes []timeline.SungNote) (out []Span) {
	for _, n := range notes {
		end := n.Tick + n.Length
		if k := len(out) - 1; k >= 0 && n.Tick-out[k].End <= barAt(tl, n.Tick) {
			out[k].End = max(out[k].End, end)
			continue
		}
		out = append(out, Span{n.Tick, end})
	}
	return out
}

// barOf is the number of the bar that an absolute tick lies in.
func barOf(tl *timeline.Timeline, tick int64) int {
	p := passNear(tl, tick)
	return p.FirstBar + p.BarAt(tick-p.Start)
}

// barAt is the length of a bar of the pass at an absolute tick.
func barAt(tl *timeline.Timeline, tick int64) int64 { return passNear(tl, tick).Meter.BarTicks() }
