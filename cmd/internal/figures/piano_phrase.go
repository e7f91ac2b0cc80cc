package main

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"plinth/songspec/timeline"
)

// phraseFigures are the figures of a phrase of eight bars, each with its aim and with how the
// phrases are summed up. The ranges of distinct rhythms, of distinct lengths and of the
// velocities' SD are those in which eight tenths of pianists' phrases lie (measured on the
// POP909 data set, MIT licence).
var phraseFigures = []struct {
	name    string
	within  aim
	sum     func([]float64) float64
	measure func(*phrase) (float64, bool)
}{
	{"overlap of a bar's rhythm with the next", between(.60, .90), mean, always((*phrase).overlap)},
	{"loop of one or two bars", atMost(.4), median, always((*phrase).loop)},
	{"distinct rhythms of 8", between(3, 8), median, always((*phrase).distinct)},
	{"distinct note lengths in 8 bars", between(6, 12), median, always((*phrase).distinctLengths)},
	{"bar 8 less like bar 7 than others, by", between(.05, .15), mean, always((*phrase).lastApart)},
	{"velocity SD of attacks", between(4.4, 16.3), median, (*phrase).touch},
	{"velocity variance by bar", between(.06, .30), median, (*phrase).touchByBar},
	{"velocity variance by place", between(.25, .65), median, (*phrase).touchByPlace},
}

func always(measure func(*phrase) float64) func(*phrase) (float64, bool) {
	return func(w *phrase) (float64, bool) { return measure(w), true }
}

// pianoPhrases measures the phrases of eight bars with four attacks or more, in the feels that
// suit; of names them. Places are those in which the score stands, on sixteenths or triplets.
func pianoPhrases(t *table, songs []*song, of string, suits func(*pass) bool) {
	rows := make([][]value, len(phraseFigures))
	for energy := 2; energy <= 5; energy++ {
		lists := make([][]float64, len(phraseFigures))
		for _, p := range passesAt(songs, energy, timeline.Piano, suits) {
			notes := p.comp()
			for _, first := range p.phrases() {
				w := p.phraseOf(notes, first)
				if w.attacks < 4 {
					continue
				}
				for i, f := range phraseFigures {
					if x, ok := f.measure(w); ok {
						lists[i] = append(lists[i], x)
					}
				}
			}
		}
		for i, f := range phraseFigures {
			rows[i] = append(rows[i], value{fmt.Sprintf("e%d", energy), f.sum(lists[i]), f.within})
		}
	}
	for i, f := range phraseFigures {
		t.addAll(f.name+of, rows[i])
	}
}

// phrase is what is struck in eight bars, by bar.
type phrase struct {
	places     []map[int64]int // how many notes are struck, by place in ticks from the bar line
	velocities []map[int64]float64
	lengths    set[int64] // the lengths that are played, in sixteenths, at least one
	attacks    int
}

func (p *pass) phraseOf(notes []note, first int) *phrase {
	w := &phrase{lengths: set[int64]{}}
	for range window {
		w.places = append(w.places, map[int64]int{})
		w.velocities = append(w.velocities, map[int64]float64{})
	}
	for _, a := range attacksOf(notes) {
		bar := p.barOf(a.at) - first
		if bar < 0 || bar >= window || a.at < 0 {
			continue
		}
		place := a.at - p.Bars[bar+first].Start
		w.places[bar][place] = len(a.notes)
		w.velocities[bar][place] = a.velocity()
		w.attacks++
		for _, n := range a.notes {
			w.lengths[max(1, (n.end-n.at+quarter/8)/(quarter/4))] = true
		}
	}
	return w
}

func (w *phrase) rhythm(bar int) set[int64] {
	out := set[int64]{}
	for place := range w.places[bar] {
		out[place] = true
	}
	return out
}

// overlap is the mean of what the places of a bar and those of the next have in common, of
// those that are in either.
func (w *phrase) overlap() float64 {
	var list []float64
	for bar := range window - 1 {
		list = append(list, jaccard(w.rhythm(bar), w.rhythm(bar+1)))
	}
	return mean(list)
}

// lastApart is how much less the last bar overlaps the one before than the others do.
func (w *phrase) lastApart() float64 {
	var list []float64
	for bar := range window - 2 {
		list = append(list, jaccard(w.rhythm(bar), w.rhythm(bar+1)))
	}
	return mean(list) - jaccard(w.rhythm(window-2), w.rhythm(window-1))
}

// loop is the share of bars that are equal to the bar one or two after them, whichever share
// is greater. Equal are the same places with the same number of notes.
func (w *phrase) loop() float64 {
	var most float64
	for distance := 1; distance <= 2; distance++ {
		var r ratio
		for bar := range window - distance {
			r.count(maps.Equal(w.places[bar], w.places[bar+distance]))
		}
		most = max(most, r.share())
	}
	return most
}

// distinct is how many different rhythms the eight bars have.
func (w *phrase) distinct() float64 {
	var seen []set[int64]
	for bar := range window {
		r := w.rhythm(bar)
		if !slices.ContainsFunc(seen, func(s set[int64]) bool { return maps.Equal(s, r) }) {
			seen = append(seen, r)
		}
	}
	return float64(len(seen))
}

func (w *phrase) distinctLengths() float64 { return float64(len(w.lengths)) }

// touch is the standard deviation of the attacks' mean velocities. It needs nine attacks.
func (w *phrase) touch() (float64, bool) {
	all, _, _ := w.touches()
	return math.Sqrt(variance(all)), len(all) >= 9
}

// touchByBar is the share of the variance that is between the means of bars.
func (w *phrase) touchByBar() (float64, bool) {
	all, bars, _ := w.touches()
	total := variance(all)
	return amongGroups(bars, all) / total, len(all) >= 9 && total > 0
}

// touchByPlace is the share of the variance that is between the means of places in the bar.
func (w *phrase) touchByPlace() (float64, bool) {
	all, _, places := w.touches()
	total := variance(all)
	return amongGroups(places, all) / total, len(all) >= 9 && total > 0
}

// touches are the velocities of the attacks: all, by bar, and by place in the bar.
func (w *phrase) touches() (all []float64, bars, places map[int64][]float64) {
	bars, places = map[int64][]float64{}, map[int64][]float64{}
	for bar, list := range w.velocities {
		for _, place := range slices.Sorted(maps.Keys(list)) {
			all = append(all, list[place])
			bars[int64(bar)] = append(bars[int64(bar)], list[place])
			places[place] = append(places[place], list[place])
		}
	}
	return all, bars, places
}
