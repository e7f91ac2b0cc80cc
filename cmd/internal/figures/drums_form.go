package main

import (
	"fmt"
	"math"
	"strings"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// junction is a border of two passes: the family of fills, and the energies before and after.
type junction struct {
	family   string
	from, to int
}

// enough is how many closing fills of a junction are needed to ask how many of them differ.
const enough = 6

// closingFills looks at the fills that lead from one pass into the next, in the songs as written
// and in another take. fewest is how many of them differ, in instruments and places counted
// from the border, at the junction where fewest do. Junctions with less than six fills are left
// out.
func closingFills(songs []*song) (fewest float64, junctions int) {
	all, times := map[junction]set[string]{}, map[junction]int{}
	for _, s := range songs {
		for _, p := range append(append([]*pass(nil), s.written.passes...), s.again.passes...) {
			text := p.closingFill()
			if text == "" {
				continue
			}
			j := junction{p.fills, p.EnergyTo, p.After.Energy}
			if all[j] == nil {
				all[j] = set[string]{}
			}
			all[j][text] = true
			times[j]++
		}
	}
	fewest = math.NaN()
	for j, seen := range all {
		if times[j] < enough {
			continue
		}
		junctions++
		if n := float64(len(seen)); math.IsNaN(fewest) || n < fewest {
			fewest = n
		}
	}
	return fewest, junctions
}

// closingFill is the fill in the last bar of a pass before another, as text; empty for none.
func (p *pass) closingFill() string {
	if p.After == nil {
		return ""
	}
	var b strings.Builder
	for _, n := range p.notes[timeline.Drums] {
		if p.inFill(n) && p.barOf(n.at) == len(p.Bars)-1 {
			fmt.Fprint(&b, n.at-p.Length, ":", n.key, " ")
		}
	}
	return b.String()
}

// drumEndings measures the songs that come to rest, as written. together is the share in which
// a kick and a cymbal stand where bass and piano strike last, and the drummer strikes nothing
// after; softer is the share whose last attack is softer, by the mean of the players' mean
// velocities, than their strokes in the two bars before it. Ghosts are left out of these: they
// are many and would make any bar soft.
func drumEndings(t *table, songs []*song) {
	var together, softer ratio
	for _, s := range songs {
		p := s.lastPass()
		if p == nil || p.cues.Ending < 0 || p.Tacet != 0 || len(p.notes[timeline.Drums]) == 0 {
			continue
		}
		at := map[timeline.Player]int64{}
		for who, notes := range p.notes {
			for _, n := range notes {
				if !n.meant.Art.Has(score.Grace) {
					at[timeline.Player(who)] = max(at[timeline.Player(who)], n.at)
				}
			}
		}
		last := at[timeline.Piano]
		kick, cymbal := false, false
		for _, n := range p.notes[timeline.Drums] {
			if n.at != last {
				continue
			}
			switch onKit(n).Word {
			case "kick":
				kick = true
			case "crash", "ride", "ride_bell":
				cymbal = true
			}
		}
		together.count(kick && cymbal && at[timeline.Bass] == last && at[timeline.Drums] == last)
		var end, before []float64 // one for each player
		bar := p.BarAt(last)
		for _, notes := range p.notes {
			var there, ahead []note
			for _, n := range notes {
				switch b := p.barOf(n.at); {
				case n.at == last:
					there = append(there, n)
				case b >= bar-2 && b < bar && n.meant.Touch > feel.Ghost:
					ahead = append(ahead, n)
				}
			}
			if len(there) > 0 {
				end = append(end, velocityOf(there))
			}
			if len(ahead) > 0 {
				before = append(before, velocityOf(ahead))
			}
		}
		softer.count(mean(end) < mean(before))
	}
	t.add("endings with kick and cymbal, all together", between(1, 1), together.share())
	t.add("endings softer than the two bars before", between(1, 1), softer.share())
}
