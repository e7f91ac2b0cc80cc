package groove

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// Perform plays the whole song: every pass on its own, put where it belongs, and a
// click where there is a count-in. The feels that the timeline names must be in
// the set; that is checked when the song is resolved, so a missing one panics.
//
// The notes of a pass depend on the pass, which says what there is to know of its
// neighbours, and on the set-ups, looseness and take of the song. So a pass that has not
// changed is played as before. The song's last chord is struck once and left to ring when its
// bar has no accent, push, stop or fill. At energy 4 and 5 a stop after its
// first beat makes that beat the last hit.
func Perform(tl *timeline.Timeline, set *feel.Set) *Performance {
	which := make([]int, len(tl.Passes))
	for i := range which {
		which[i] = i
	}
	parts := make([]PassPart, len(tl.Passes))
	playAll(tl, set, which, parts)
	return assemble(tl, set, parts)
}

// assemble joins the parts of all passes to a whole song.
func assemble(tl *timeline.Timeline, set *feel.Set, parts []PassPart) *Performance {
	out := NewPerformance()
	out.Passes = parts
	for who := range out.Parts {
		size := 0
		for i := range parts {
			size += len(parts[i].Notes[who])
		}
		all := slices.Grow([]Note(nil), size)
		for i := range parts {
			start := tl.Passes[i].Start
			for _, n := range parts[i].Notes[who] {
				n.Tick += start
				n.Pass = int16(i)
				all = append(all, n)
			}
		}
		touch.SortNotes(all)
		out.Parts[who] = all
		out.Sounds[who] = changeSounds(tl, set, timeline.Player(who), parts, all)
	}
	if tl.CountIn > 0 {
		out.Click = click(tl)
	}
	return out
}
