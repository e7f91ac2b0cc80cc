package main

import (
	"fmt"
	"math"
	"slices"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// drumFigures measures the drummer.
func drumFigures(t *table, songs []*song) {
	t.title("DRUMS")
	deviation, slow := strokeDynamics(songs)
	t.add("velocity SD at one place, median", between(4.5, 9), median(deviation))
	t.add("share of that variance slower than four bars, median", atLeast(.4), median(slow))
	t.add("snare accents' velocity, robust SD, median", between(2, 6), median(snareAccents(songs)))
	t.addAll("joints marked", byEnergy(songs, 3, timeline.Drums, figured, each(noAim, 3), jointsMarked))
	t.addAll("open hat of hat strokes", byEnergy(songs, 1, timeline.Drums, figured, each(noAim, 5), openHats))
	var low []*pass
	for energy := 1; energy <= 3; energy++ {
		low = append(low, passesAt(songs, energy, timeline.Drums, figured)...)
	}
	t.add("open hats under energy 4 not before a joint", between(0, 0), openAnywhere(low))
	t.addAll("ghosts of snare strokes, ballads", byFeel(songs, 1, timeline.Drums, atMost(.02),
		[]string{"ballad-eighths", "ballad-sixteenths"}, ghosts))
	t.addAll("ghosts of snare strokes", byFeel(songs, 1, timeline.Drums, between(.10, .25),
		[]string{"half-time", "tight-sixteenths"}, ghosts))
	others := slices.DeleteFunc(feelsOf(songs), func(name string) bool {
		return slices.Contains([]string{"ballad-eighths", "ballad-sixteenths", "half-time", "tight-sixteenths"}, name)
	})
	t.addAll("ghosts of snare strokes, other feels", slices.DeleteFunc(
		byFeel(songs, 1, timeline.Drums, noAim, others, ghosts),
		func(v value) bool { return math.IsNaN(v.number) || v.number == 0 }))
	fewest, junctions := closingFills(songs)
	t.add(fmt.Sprintf("distinct closing fills, the fewest of %d junctions", junctions), atLeast(3), fewest)
	drumEndings(t, songs)
	addRepeats(t, songs, timeline.Drums, between(.70, .95), between(.60, .92))
}

// onKit is the instrument of a stroke.
func onKit(n note) feel.Voice { return n.meant.Voice.Instrument() }

// plain reports whether a stroke is the figure's own: no fill's, no accent, no grace stroke.
func (p *pass) plain(n note) bool {
	return n.meant.Cue < 0 && !n.meant.Art.Has(score.Grace) && !p.inFill(n)
}

func (p *pass) inFill(n note) bool {
	g := n.meant.Group
	return g > 0 && p.score.Parts[timeline.Drums].Groups[g-1].Kind == score.Fill
}

// stroke is an instrument, a place in the bar and how hard it is meant.
type stroke struct {
	key   uint8
	place int64
	touch feel.Touch
}

// strokeDynamics follows each plain stroke, which is an instrument at a place in the bar, through
// a song at one energy from end to end, for energies 2 to 5. Strokes that come 16 times or more
// count: deviation has the standard deviations of their velocities, and slow the shares of that
// variance that are between the means of four bars at a time. Noise without memory has about a
// quarter of it there.
func strokeDynamics(songs []*song) (deviation, slow []float64) {
	for _, s := range songs {
		for energy := 2; energy <= 5; energy++ {
			velocities, fours := map[stroke][]float64{}, map[stroke]map[int64][]float64{}
			for _, p := range s.flat[energy].passes {
				for _, n := range p.notes[timeline.Drums] {
					bar := p.barOf(n.at)
					if bar < 0 || !p.plain(n) {
						continue
					}
					k := stroke{n.key, n.at - p.Bars[bar].Start, n.meant.Touch}
					if fours[k] == nil {
						fours[k] = map[int64][]float64{}
					}
					velocities[k] = append(velocities[k], n.velocity)
					four := int64(p.FirstBar-1+bar) / 4
					fours[k][four] = append(fours[k][four], n.velocity)
				}
			}
			for k, list := range velocities {
				if total := variance(list); len(list) >= 16 && total > 0 {
					deviation = append(deviation, math.Sqrt(total))
					slow = append(slow, amongGroups(fours[k], list)/total)
				}
			}
		}
	}
	return deviation, slow
}

// snareAccents are the robust standard deviations of the velocity of the plain snare strokes
// that are meant strong, or as loud as any, by song and energy from 2 on.
func snareAccents(songs []*song) []float64 {
	var out []float64
	for _, s := range songs {
		for energy := 2; energy <= 5; energy++ {
			byTouch := map[feel.Touch][]float64{}
			var loudest feel.Touch
			for _, p := range s.flat[energy].passes {
				for _, n := range p.notes[timeline.Drums] {
					if onKit(n).Word == "snare" && p.plain(n) && n.meant.Touch >= feel.Normal {
						byTouch[n.meant.Touch] = append(byTouch[n.meant.Touch], n.velocity)
						loudest = max(loudest, n.meant.Touch)
					}
				}
			}
			if list := byTouch[loudest]; len(list) >= 8 {
				out = append(out, robustSD(list))
			}
		}
	}
	return out
}

// jointsMarked is the share of phrases of eight bars whose last bar is new: 1 less its overlap
// with the bar before, in instruments and places, is more than one and a half times the mean
// of that in the bars before it.
func jointsMarked(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		bars := p.strokesByBar()
		for _, first := range p.phrases() {
			r.count(marked(bars[first : first+window]))
		}
	}
	return r.share()
}

func marked(bars []set[struck]) bool {
	var news []float64
	for i := 1; i < len(bars); i++ {
		news = append(news, 1-jaccard(bars[i-1], bars[i]))
	}
	last := len(news) - 1
	return news[last] > 1.5*mean(news[:last])
}

func (p *pass) strokesByBar() []set[struck] {
	out := make([]set[struck], len(p.Bars))
	for i := range out {
		out[i] = set[struck]{}
	}
	for _, n := range p.notes[timeline.Drums] {
		if bar := p.barOf(n.at); bar >= 0 {
			out[bar][struck{n.at - p.Bars[bar].Start, n.key}] = true
		}
	}
	return out
}

// openHats is the share of open strokes among the hat's, those of the foot left out.
func openHats(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		for _, n := range p.notes[timeline.Drums] {
			if w := onKit(n).Word; w == "hat" || w == "hat_open" {
				r.count(w == "hat_open")
			}
		}
	}
	return r.share()
}

// openAnywhere is the share of open strokes of the hat that are not in the last bar of a phrase.
func openAnywhere(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		for _, n := range p.notes[timeline.Drums] {
			if onKit(n).Word == "hat_open" {
				r.count(!p.lastOfPhrase(p.BarAt(n.at)))
			}
		}
	}
	return r.share()
}

// ghosts is the share of strokes of the snare drum, on the skin or across it, that are meant as
// ghosts; grace strokes and fills are left out.
func ghosts(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		for _, n := range p.notes[timeline.Drums] {
			if onKit(n).Backbeat() && !n.meant.Art.Has(score.Grace) && !p.inFill(n) {
				r.count(n.meant.Touch == feel.Ghost)
			}
		}
	}
	return r.share()
}
