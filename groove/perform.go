package groove

import (
	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// Perform plays the whole song: every pass on its own, put where it belongs, and a
// click where there is a count-in. The feels that the timeline names must be in
// the set; that is checked when the song is resolved, so a missing one panics.
func Perform(tl *timeline.Timeline, set *feel.Set) *Performance {
	which := make([]int, len(tl.Passes))
	for i := range which {
		which[i] = i
	}
	parts := make([]PassPart, len(tl.Passes))
	playAll(tl, set, which, parts)
	return assemble(tl, set, parts)
}

// assemble puts the parts of all passes together to the whole song.
func assemble(tl *timeline.Timeline, set *feel.Set, parts []PassPart) *Performance {
	out := &Performance{Kit: kit(tl, set), Passes: parts}
	for who := range out.Parts {
		size := 0
		for i := range parts {
			size += len(parts[i].Notes[who])
		}
		if size == 0 {
			continue
		}
		all := make([]Note, 0, size)
		for i := range parts {
			start := tl.Passes[i].Start
			for _, n := range parts[i].Notes[who] {
				n.Tick += start
				n.Pass = int16(i)
				all = append(all, n)
			}
		}
		notesInOrder(all)
		out.Parts[who] = all
	}
	if tl.CountIn > 0 {
		out.Click = click(tl)
	}
	return out
}

// PerformPass plays one pass. It reads nothing of tl but the set-ups, looseness
// and take, and nothing of the pass's neighbours but what the pass says of them;
// so a pass that has not changed is played as it was.
//
// Of the song's last pass, the last bar is struck once and left to ring when it
// holds one chord and no accent, push, stop or fill; at energy 4 and 5 a stop after its
// first beat makes that beat the last hit.
func PerformPass(tl *timeline.Timeline, pass *timeline.Pass, set *feel.Set) PassPart {
	return new(scratch).play(tl, pass, set)
}

// play plays one pass.
func (b *scratch) play(tl *timeline.Timeline, pass *timeline.Pass, set *feel.Set) PassPart {
	var out PassPart
	if len(pass.Bars) == 0 {
		return out
	}
	p := NewPlan(tl, pass, set)
	p.scratch = b
	var meant [timeline.NumPlayers][]score.Note
	meant[timeline.Drums] = p.drums()
	var kicks []int64
	for _, n := range meant[timeline.Drums] {
		if kindOf(n.Key) == kindKick {
			kicks = append(kicks, n.At)
		}
	}
	bass := p.bass(kicks)
	piano := p.pianoOver(bass) // hears the bass before the events have had their word
	meant[timeline.Bass] = p.Kept(timeline.Bass, bass)
	meant[timeline.Piano] = p.Kept(timeline.Piano, p.ring(piano))
	out.Score.Cues = p.Cues
	out.Score.Regions = p.regions()
	for who := range meant {
		part := p.written(timeline.Player(who), meant[who])
		out.Score.Parts[who] = part
		out.Notes[who] = p.finish(timeline.Player(who), part.Notes)
	}
	return out
}

// ring lets the song's last chord sound to the end: of the comp's last bar only
// what is struck on its first beat is left, or, when the chord is broken there, the
// first stroke of each of its notes.
func (p *Plan) ring(notes []score.Note) []score.Note {
	bar := p.Ending()
	if bar < 0 {
		return notes
	}
	byTick(notes)
	start := p.Pass.Bars[bar].Start
	together := 0
	for _, n := range notes {
		if n.At == start {
			together++
		}
	}
	struck := map[uint8]bool{}
	out := notes[:0]
	for _, n := range notes {
		if n.At > start && (together > 1 || struck[n.Key]) {
			continue
		}
		if n.At >= start {
			struck[n.Key], n.Cue = true, p.Cues.Ending
		}
		if n.End() > start {
			n.Hold(p.Pass.Length)
			n.Art |= score.Rings
		}
		out = append(out, n)
	}
	return out
}

// kit is the kit of the song: the one it asks for, or that of the first pass that
// has drums.
func kit(tl *timeline.Timeline, set *feel.Set) string {
	if tl.Drums.Kit != "" {
		return tl.Drums.Kit
	}
	for i := range tl.Passes {
		pass := &tl.Passes[i]
		f := set.Feels[pass.Feel]
		if f == nil || pass.Tacet.Has(timeline.Drums) {
			continue
		}
		for e := min(pass.EnergyFrom, pass.EnergyTo); e <= max(pass.EnergyFrom, pass.EnergyTo); e++ {
			if len(f.Levels[e-1].Drums) > 0 {
				return f.Kit
			}
		}
	}
	return "standard"
}
