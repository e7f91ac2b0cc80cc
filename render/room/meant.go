package room

import (
	"slices"
	"sort"

	"plinth/groove"
	"plinth/groove/score"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// The report reads the score, where a note stands on the grid and belongs to a bar: a hand
// that is early or late changes nothing. Only loudness is read from the played notes.

// meant is a note of the score, or of the singer, at its place in the song. Tick and end
// are absolute; bar is the number of the song's bar that owns it, from 1, and 0 for what is
// sung.
type meant struct {
	tick, end int64
	bar       int
	key       int
}

// Swing ratios, long to short in thousandths. Between the two an off-beat is heard on the
// last third of the beat; beyond the second it is hardly an off-beat.
const (
	swungFrom = 1600
	swungTo   = 2600
)

// meantBy returns the notes that a player means, by tick. Grace strokes are left out,
// because they are part of the stroke that they lead to. A swung off-beat is moved to the
// last third of the beat, where it is heard.
func meantBy(tl *timeline.Timeline, perf *groove.Performance, who timeline.Player) []meant {
	if len(perf.Passes) == 0 {
		return playedBy(tl, perf, who)
	}
	size := 0
	for i := range perf.Passes {
		size += len(perf.Passes[i].Score.Parts[who].Notes)
	}
	out := make([]meant, 0, size)
	for i := range perf.Passes {
		p, s := &tl.Passes[i], &perf.Passes[i].Score
		thirds := slices.ContainsFunc(s.Regions, func(r score.Region) bool { // as triplets do, or about so
			return r.Kind == score.Swing && r.Name == "eighth" && r.Index >= swungFrom && r.Index <= swungTo
		})
		for _, n := range s.Parts[who].Notes {
			if n.Art.Has(score.Grace) {
				continue
			}
			m := meant{tick: p.Start + n.At, end: p.Start + n.End(), bar: p.FirstBar + int(n.Bar), key: int(n.Key)}
			offBeat := n.At >= 0 && (n.At-p.Bars[p.BarAt(n.At)].Start)%meter.TicksPerQuarter == meter.TicksPerQuarter/2
			if thirds && offBeat {
				m.tick += meter.TicksPerQuarter*2/3 - meter.TicksPerQuarter/2
			}
			out = append(out, m)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].tick < out[j].tick })
	return out
}

// playedBy returns the notes of a player as they are played, by tick: a part of a song has no score.
func playedBy(tl *timeline.Timeline, perf *groove.Performance, who timeline.Player) []meant {
	var out []meant
	pass := 0
	for _, n := range perf.Parts[who] {
		for pass+1 < len(tl.Passes) && tl.Passes[pass+1].Start <= n.Tick {
			pass++
		}
		p := &tl.Passes[pass]
		bar := p.FirstBar + p.BarAt(max(n.Tick-p.Start, 0))
		out = append(out, meant{tick: n.Tick, end: n.Tick + n.Length, bar: bar, key: int(n.Key)})
	}
	return out
}

// beginningIn returns the notes that begin from start on and before end. A pushed note
// counts where it sounds.
func beginningIn(notes []meant, start, end int64) []meant {
	i := sort.Search(len(notes), func(i int) bool { return notes[i].tick >= start })
	j := sort.Search(len(notes), func(j int) bool { return notes[j].tick >= end })
	return notes[i:j]
}
