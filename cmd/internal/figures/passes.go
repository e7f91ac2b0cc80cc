package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// window is the length of the stretches that are measured, in bars: the length of a phrase.
const window = 8

// songFeels are the feels of songs in straight eighths, sixteenths or slow triplets, whose
// bass keeps to the chord.
var songFeels = []string{"ballad-eighths", "ballad-sixteenths", "backbeat-eighths", "tight-sixteenths", "half-time",
	"four-on-the-floor", "snare-on-four", "slow-twelve", "gospel-six"}

// ballad reports whether a feel is a ballad's.
func ballad(p *pass) bool { return strings.Contains(p.Feel, "ballad") }

// figured reports whether a feel has a figure: sustain and pulse have none.
func figured(p *pass) bool { return p.Feel != "sustain" && p.Feel != "pulse" }

func inFeels(names ...string) func(*pass) bool {
	return func(p *pass) bool { return slices.Contains(names, p.Feel) }
}

// passesAt are the passes of all songs at one energy throughout, those that suit and in which
// a player plays.
func passesAt(songs []*song, energy int, who timeline.Player, suits func(*pass) bool) []*pass {
	var out []*pass
	for _, s := range songs {
		for _, p := range s.flat[energy].passes {
			if suits(p) && !p.Tacet.Has(who) {
				out = append(out, p)
			}
		}
	}
	return out
}

// passesFrom are the passes of passesAt at an energy and those above it, up to 5.
func passesFrom(songs []*song, energy int, who timeline.Player, suits func(*pass) bool) []*pass {
	var out []*pass
	for ; energy <= 5; energy++ {
		out = append(out, passesAt(songs, energy, who, suits)...)
	}
	return out
}

// byEnergy measures the passes at each energy from low to 5, with an aim for each.
func byEnergy(songs []*song, low int, who timeline.Player, suits func(*pass) bool, aims []aim,
	measure func([]*pass) float64) []value {
	var out []value
	for i, a := range aims {
		ps := passesAt(songs, low+i, who, suits)
		out = append(out, value{fmt.Sprintf("e%d", low+i), measure(ps), a})
	}
	return out
}

// byFeel measures the passes of each feel, from an energy on.
func byFeel(songs []*song, low int, who timeline.Player, a aim, feels []string, measure func([]*pass) float64) []value {
	var out []value
	for _, name := range feels {
		if ps := passesFrom(songs, low, who, inFeels(name)); len(ps) > 0 {
			out = append(out, value{name, measure(ps), a})
		}
	}
	return out
}

// each repeats an aim for some energies.
func each(a aim, n int) []aim { return slices.Repeat([]aim{a}, n) }

// beats are the beats of a pass, as the tempo counts them.
func (p *pass) beats() float64 {
	n := 0.0
	for _, b := range p.Bars {
		n += float64(b.Length) / float64(b.Meter.PlayedBeat())
	}
	return n
}

// barOf is the bar that a tick of the pass stands in, -1 for one before the pass.
func (p *pass) barOf(at int64) int {
	if at < 0 {
		return -1
	}
	return p.BarAt(at)
}

// lastOfPhrase reports whether a bar is the last one of a phrase.
func (p *pass) lastOfPhrase(bar int) bool {
	end := p.Bars[bar].Start + p.Bars[bar].Length
	return slices.ContainsFunc(p.score.Regions, func(r score.Region) bool {
		return r.Kind == score.Phrase && r.To == end
	})
}

// phrases are the first bars of the phrases of eight bars.
func (p *pass) phrases() []int {
	var out []int
	for _, r := range p.score.Regions {
		if r.Kind == score.Phrase && r.Count == window {
			out = append(out, p.BarAt(r.From))
		}
	}
	return out
}

// rhythms are the places of a player's attacks in each bar, in ticks from the bar line.
func (p *pass) rhythms(who timeline.Player) []set[int64] {
	out := make([]set[int64], len(p.Bars))
	for i := range out {
		out[i] = set[int64]{}
	}
	for _, n := range p.notes[who] {
		if bar := p.barOf(n.at); bar >= 0 {
			out[bar][n.at-p.Bars[bar].Start] = true
		}
	}
	return out
}

// density is the attacks a beat of a player in some passes: a chord is one attack, and so is
// each stroke of the drums.
func density(who timeline.Player) func([]*pass) float64 {
	return func(ps []*pass) float64 {
		n, beats := 0, 0.0
		for _, p := range ps {
			beats += p.beats()
			if who == timeline.Drums {
				n += len(p.notes[who])
			} else {
				n += len(attacksOf(p.notes[who]))
			}
		}
		return float64(n) / beats
	}
}

// struck is a key and the place where it is struck.
type struck struct {
	at  int64
	key uint8
}

func struckIn(notes []note, from int64, in set[struck]) {
	for _, n := range notes {
		in[struck{n.at + from, n.key}] = true
	}
}

// addRepeats adds how much a player's part has in common with itself when it comes again:
//
//   - with the repeat of the section at the same energy: the mean share of notes, key and
//     place in the section, of a pass and the next pass of its section at that energy. The
//     last pass of the song is left out.
//   - with another take: the mean over songs of the share of notes, key and place in the song.
//   - density in another take: the greatest change of the number of notes of a song, of the
//     number of notes.
func addRepeats(t *table, songs []*song, who timeline.Player, repeat, take aim) {
	var repeats, takes, densities []float64
	for _, s := range songs {
		repeats = append(repeats, s.repeats(who)...)
		a, b := set[struck]{}, set[struck]{}
		for _, p := range s.written.passes {
			struckIn(p.notes[who], p.Start, a)
		}
		for _, p := range s.again.passes {
			struckIn(p.notes[who], p.Start, b)
		}
		if len(a) > 0 {
			takes = append(takes, shared(a, b))
			densities = append(densities, math.Abs(float64(len(b)-len(a)))/float64(len(a)))
		}
	}
	t.add("notes shared with the repeat at the same energy", repeat, mean(repeats))
	t.add("notes shared with another take", take, mean(takes))
	t.add("density changed by another take, the most in a song", atMost(.1), greatest(densities))
}

// repeats are the shares of notes that each pass has in common with the one before it of its
// section, energy and key.
func (s *song) repeats(who timeline.Player) []float64 {
	var out []float64
	last := map[[3]any]*pass{}
	for _, p := range s.written.passes {
		if p.After == nil || len(p.notes[who]) == 0 {
			continue
		}
		like := [3]any{p.Section, [2]int{p.EnergyFrom, p.EnergyTo}, p.Key}
		if b := last[like]; b != nil {
			x, y := set[struck]{}, set[struck]{}
			struckIn(b.notes[who], 0, x)
			struckIn(p.notes[who], 0, y)
			out = append(out, shared(x, y))
		}
		last[like] = p
	}
	return out
}
