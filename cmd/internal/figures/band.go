package main

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"plinth/songspec/timeline"
)

// bandFigures measures the whole band.
func bandFigures(t *table, songs []*song) {
	t.title("ALL")
	whole := []timeline.Player{timeline.Drums, timeline.Bass, timeline.Piano}
	for _, direction := range []struct {
		name   string
		up     bool
		within aim
	}{{"up", true, between(.25, .50)}, {"down", false, between(.15, .50)}} {
		values := []value{{"band", leading(songs, whole, direction.up), direction.within}}
		for _, who := range whole {
			of := []timeline.Player{who}
			values = append(values, value{who.String(), leading(songs, of, direction.up), direction.within})
		}
		t.addAll("level made in the two bars before a border, "+direction.name, values)
	}
	falls, where := densityFalls(songs)
	t.add("steps of energy at which attacks become fewer", between(0, 0), falls.share())
	if len(where) > 0 {
		t.say("  the greatest falls", where)
	}
	t.add("rits at the end in which velocity falls", between(1, 1), ritsFalling(songs))
}

// power is the sum of the squares of the velocities of some players in some bars of a pass, for
// each beat.
func (p *pass) power(players []timeline.Player, from, to int) float64 {
	sum, beats := 0.0, 0.0
	for _, b := range p.Bars[from:to] {
		beats += float64(b.Length) / float64(b.Meter.PlayedBeat())
	}
	for _, who := range players {
		for _, n := range p.notes[who] {
			if bar := p.barOf(n.at); bar >= from && bar < to {
				sum += n.velocity * n.velocity
			}
		}
	}
	return sum / beats
}

// leading is the share of a jump in level that is made in the two bars before the border, at
// the borders of passes in one feel where the energy rises, or falls, in the songs as written.
// The level is that of power, in dB: of the bars before these two, up to six, of the two, and
// of the first four bars of the next pass. All borders count together, so that a great jump
// weighs more.
func leading(songs []*song, players []timeline.Player, up bool) float64 {
	made, jump := 0.0, 0.0
	for _, s := range songs {
		ps := s.written.passes
		for i := 1; i < len(ps); i++ {
			a, b := ps[i-1], ps[i]
			n := len(a.Bars)
			if a.EnergyTo == b.EnergyFrom || (a.EnergyTo < b.EnergyFrom) != up || n < 4 || a.Feel != b.Feel ||
				a.Tacet != 0 || b.Tacet != 0 || a.Index+1 != b.Index {
				continue
			}
			before := a.power(players, max(0, n-8), n-2)
			last := a.power(players, n-2, n)
			after := b.power(players, 0, min(4, len(b.Bars)))
			if before == 0 || last == 0 || after == 0 {
				continue
			}
			made += decibels(last) - decibels(before)
			jump += decibels(after) - decibels(before)
		}
	}
	return made / jump
}

// densityFalls counts, for every feel and player, the steps of energy at which the attacks a
// beat fall, each song played at one energy throughout. where names the greatest falls.
func densityFalls(songs []*song) (falls ratio, where string) {
	type fall struct {
		by   float64
		text string
	}
	var list []fall
	for _, name := range feelsOf(songs) {
		for who := range timeline.PlayerNames {
			player := timeline.Player(who)
			for energy := 1; energy < 5; energy++ {
				low := density(player)(passesAt(songs, energy, player, inFeels(name)))
				high := density(player)(passesAt(songs, energy+1, player, inFeels(name)))
				if math.IsNaN(low) || low == 0 {
					continue
				}
				falls.count(high < low)
				if high < low {
					list = append(list, fall{low - high, fmt.Sprintf("%s %s %d to %d: %s to %s", name, player,
						energy, energy+1, number(low), number(high))})
				}
			}
		}
	}
	for range 3 {
		most := -1
		for i := range list {
			if list[i].by > 0 && (most < 0 || list[i].by > list[most].by) {
				most = i
			}
		}
		if most >= 0 {
			if where != "" {
				where += "; "
			}
			where += list[most].text
			list[most].by = 0
		}
	}
	return falls, where
}

// feelsOf are the feels that the songs are in.
func feelsOf(songs []*song) []string {
	in := set[string]{}
	for _, s := range songs {
		for _, p := range s.written.passes {
			in[p.Feel] = true
		}
	}
	return slices.Sorted(maps.Keys(in))
}

// ritsFalling is the share of songs with a rit in the last pass, as written, whose mean velocity
// in the second half of the rit is lower than in the first half.
func ritsFalling(songs []*song) float64 {
	var r ratio
	for _, s := range songs {
		p := s.lastPass()
		if p == nil || len(p.cues.Rits) == 0 {
			continue
		}
		rit := p.cues.Rits[len(p.cues.Rits)-1]
		var first, second []note
		for _, notes := range p.notes {
			for _, n := range notes {
				switch {
				case n.at < rit.Start || n.at >= rit.End:
				case 2*(n.at-rit.Start) < rit.End-rit.Start:
					first = append(first, n)
				default:
					second = append(second, n)
				}
			}
		}
		if len(first) > 0 && len(second) > 0 {
			r.count(velocityOf(second) < velocityOf(first))
		}
	}
	return r.share()
}
